import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { cpus } from 'node:os';
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';
import type { Measurement } from './measure';

// `npm run bench [name …]`: every *.bench.ts here, or those whose name holds one of the words given.

async function main(wanted: readonly string[]): Promise<void> {
  const files = readdirSync(__dirname)
    .filter((file) => file.endsWith('.bench.ts'))
    .filter((file) => wanted.length === 0 || wanted.some((word) => file.includes(word)));
  if (files.length !== 1) {
    // Each in a process of its own: what ran before it would change how its loops are compiled.
    for (const file of files) {
      const { status } = spawnSync(process.execPath, ['--import', 'tsx', __filename, file], {
        stdio: 'inherit',
      });
      process.exitCode = process.exitCode || (status ?? 1);
    }
    return;
  }
  console.log(
    `${files[0]!}: Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}`,
  );
  for (const file of files) {
    const bench = (await import(pathToFileURL(join(__dirname, file)).href)) as {
      measurements?(): Measurement[] | Promise<Measurement[]>;
      /** Figures that are no ratio, a line each. */
      figures?(): Promise<string[]>;
    };
    for (const line of (await bench.figures?.()) ?? []) console.log(line);
    for (const m of (await bench.measurements?.()) ?? []) {
      const limit = m.atMost === undefined ? '' : `  (promised: at most ${m.atMost})`;
      console.log(
        `${m.ratio.toFixed(2).padStart(8)} ×  ${m.what}: ${m.milliseconds.toFixed(2)} ms against ` +
          `${m.baseMilliseconds.toFixed(2)} ms, ${m.against}${limit}`,
      );
      if (m.atMost !== undefined && !(m.ratio <= m.atMost)) process.exitCode = 1;
    }
  }
}

void main(process.argv.slice(2));
