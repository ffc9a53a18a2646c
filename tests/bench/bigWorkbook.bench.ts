import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { workbookOf } from '../hosts/xlsx/packages';
import { measured, median, type Measurement } from './measure';

// 100,000 formulas of everyday kinds, a quarter of them sums that grow row by row: read, calculated and written by the
// command, and by LibreOffice where this machine has it, both as programs of their own from start to end.

const COMMAND = join(__dirname, '../../src/hosts/headless/pinset.js');
const TELLS_MEMORY = join(__dirname, '../hosts/headless/tellsMemory.js');
const ROWS = 25_000;
const RUNS = 3;
const MOST_RATIO = 2;
const MOST_MEGABYTES = 400;

/** LibreOffice keeps the results a file stores unless told otherwise. */
const ALWAYS_CALCULATES =
  '<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry">' +
  '<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">' +
  '<value>0</value></prop></item></oor:items>';

/** As a spreadsheet program saves it: every formula with its result. */
function bigWorkbook(): Uint8Array {
  const f = (ref: string, text: string, result: number): string =>
    `<c r="${ref}"><f>${text}</f><v>${result}</v></c>`;
  let [total, sum] = [0, 0];
  const rows = Array.from({ length: ROWS }, (_, at) => {
    const row = at + 1;
    const [a, b] = [20 + (row % 17), 2 + (row % 9)];
    const c = a > 25 ? b * 0.6 : b * 0.5;
    const d = Math.round((a / (b + 1)) * 100) / 100;
    total += d;
    sum += a;
    return (
      `<row r="${row}"><c r="A${row}"><v>${a}</v></c><c r="B${row}"><v>${b}</v></c>` +
      f(`C${row}`, `IF(A${row}&gt;25,B${row}*0.6,B${row}*0.5)`, c) +
      f(`D${row}`, `ROUND(A${row}/(B${row}+1),2)`, d) +
      f(`E${row}`, row === 1 ? 'D1' : `E${at}+D${row}`, total) +
      f(`F${row}`, `SUM(A$1:A${row})/MAX(1,C${row})`, sum / Math.max(1, c)) +
      '</row>'
    );
  });
  return workbookOf({ sheets: [{ name: 'Lots', data: `<sheetData>${rows.join('')}</sheetData>` }] });
}

/** Seconds of one run, from start to end; undefined where there is no such program. */
function seconds(
  program: string,
  words: readonly string[],
  more: Readonly<Record<string, string>> = {},
): number | undefined {
  const start = performance.now();
  const { error, status, stderr } = spawnSync(program, words, { env: { ...process.env, ...more } });
  if (error) return undefined;
  if (status !== 0) throw new Error(`${program} ended with ${status}: ${String(stderr)}`);
  return (performance.now() - start) / 1000;
}

export function measurements(): Measurement[] {
  const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
  try {
    const [file, memory, profile] = ['big.xlsx', 'memory', 'profile'].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    writeFileSync(file, bigWorkbook());
    mkdirSync(join(profile, 'user'), { recursive: true });
    writeFileSync(join(profile, 'user/registrymodifications.xcu'), ALWAYS_CALCULATES);
    const ours = (): number =>
      seconds(
        process.execPath,
        ['-r', TELLS_MEMORY, COMMAND, 'recalc', file, '--out', join(folder, 'ours.xlsx')],
        {
          MEMORY_TO: memory,
        },
      )!;
    const theirs = (): number | undefined =>
      seconds('soffice', [
        `-env:UserInstallation=${pathToFileURL(profile).href}`,
        '--headless',
        '--convert-to',
        'xlsx',
        '--outdir',
        join(folder, 'theirs'),
        file,
      ]);
    const [times, baseTimes]: [number[], number[]] = [[], []];
    // The first run of either makes its caches.
    for (let run = -1; run < RUNS; run++) {
      const [time, baseTime] = [ours(), theirs()];
      if (run < 0) continue;
      times.push(time);
      if (baseTime !== undefined) baseTimes.push(baseTime);
    }
    // It ends well where it could not read the file, too.
    if (baseTimes.length > 0) readFileSync(join(folder, 'theirs/big.xlsx'));
    const megabytes = Number(readFileSync(memory, 'utf8')) / 1e6;
    const what = '100,000 formulas read, calculated and written by the command';
    const size = measured(`${what}: megabytes`, megabytes, 'promised', MOST_MEGABYTES, 1);
    if (baseTimes.length === 0) return [size];
    return [
      size,
      measured(what, 1000 * median(times), 'by LibreOffice', 1000 * median(baseTimes), MOST_RATIO),
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}
