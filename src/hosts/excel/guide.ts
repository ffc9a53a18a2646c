export default function guide(): string {
  return '<!doctype html><html lang="en"><title>Pinset guide</title></html>\n';
}
