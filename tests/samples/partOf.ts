import { strFromU8, unzipSync } from 'fflate';

/** One part of a file, as text. */
export function partOf(bytes: Uint8Array, name: string): string {
  const part = unzipSync(bytes)[name];
  if (!part) throw new Error(`the file has no part ${name}`);
  return strFromU8(part);
}
