import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from '../../src/hosts/excel/serve/build';
import { copied, inBundles, objections, ofTheCommand, type Shipped } from './shipped';

// `npm run licences`: every package of others that reaches a user, file by file, with its licence.

async function main(): Promise<void> {
  const dist = mkdtempSync(join(tmpdir(), 'pinset-licences-'));
  let shipped: Shipped[];
  try {
    const stats = await build({ mode: 'production', output: dist });
    shipped = [...inBundles(stats), ...copied(), ...ofTheCommand()];
  } finally {
    rmSync(dist, { recursive: true });
  }
  const wide = (key: 'where' | 'name' | 'version'): number =>
    Math.max(...shipped.map((one) => one[key].length));
  const [where, name, version] = [wide('where'), wide('name'), wide('version')];
  for (const one of shipped) {
    console.log(
      `${one.where.padEnd(where)}  ${one.name.padEnd(name)}  ${one.version.padEnd(version)}  ${one.licence}`,
    );
  }
  const complaints = objections(shipped);
  for (const complaint of complaints) console.error(complaint);
  process.exitCode = complaints.length > 0 ? 1 : 0;
}

void main();
