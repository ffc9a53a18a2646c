import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { workbookOf } from '../hosts/xlsx/packages';
import { measured, median, type Measurement } from './measure';

// 100,000 formulas of everyday kinds, a quarter of them sums that grow row by row: read, calculated and written by the
// command, and by LibreOffice where this machine has it, both as programs of their own from start to end. The file comes
// as a spreadsheet program saves it, and as libraries write it: with zeros in place of results, or with none.

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

const STORED = {
  'the right results stored': (result: number) => `<v>${result}</v>`,
  'zeros stored': () => '<v>0</v>',
  'nothing stored': () => '',
} as const;
type Stored = keyof typeof STORED;

function bigWorkbook(stored: Stored): Uint8Array {
  const f = (ref: string, text: string, result: number): string =>
    `<c r="${ref}"><f>${text}</f>${STORED[stored](result)}</c>`;
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

/** Seconds of one run, from start to end, on the clock and of processor. */
interface Time {
  readonly clock: number;
  /** Undefined where the system does not tell. */
  readonly processor: number | undefined;
}

/** The time of one run; undefined where there is no such program. */
function timed(
  program: string,
  words: readonly string[],
  more: Readonly<Record<string, string>> = {},
): Time | undefined {
  const [start, before] = [performance.now(), processorOfChildren()];
  const { error, status, stderr } = spawnSync(program, words, { env: { ...process.env, ...more } });
  if (error) return undefined;
  if (status !== 0) throw new Error(`${program} ended with ${status}: ${String(stderr)}`);
  const after = processorOfChildren();
  return {
    clock: (performance.now() - start) / 1000,
    processor: before === undefined || after === undefined ? undefined : after - before,
  };
}

/** Seconds of processor that programs started from here have taken, as Linux tells in hundredths (proc(5), `stat`). */
function processorOfChildren(): number | undefined {
  try {
    const behindName = readFileSync('/proc/self/stat', 'utf8').split(') ').at(-1)!.split(' ');
    return (Number(behindName[13]) + Number(behindName[14])) / 100;
  } catch {
    return undefined;
  }
}

export function measurements(): Measurement[] {
  const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
  try {
    const profile = join(folder, 'profile');
    mkdirSync(join(profile, 'user'), { recursive: true });
    writeFileSync(join(profile, 'user/registrymodifications.xcu'), ALWAYS_CALCULATES);
    return Object.keys(STORED).flatMap((stored) => measuredOf(stored as Stored, folder, profile));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function measuredOf(stored: Stored, folder: string, profile: string): Measurement[] {
  const [file, memory] = [join(folder, 'big.xlsx'), join(folder, 'memory')];
  writeFileSync(file, bigWorkbook(stored));
  const ours = (): Time =>
    timed(
      process.execPath,
      ['-r', TELLS_MEMORY, COMMAND, 'recalc', file, '--out', join(folder, 'ours.xlsx')],
      {
        MEMORY_TO: memory,
      },
    )!;
  const theirs = (): Time | undefined =>
    timed('soffice', [
      `-env:UserInstallation=${pathToFileURL(profile).href}`,
      '--headless',
      '--convert-to',
      'xlsx',
      '--outdir',
      join(folder, 'theirs'),
      file,
    ]);
  const [times, baseTimes]: [Time[], Time[]] = [[], []];
  // The first run of either makes its caches.
  for (let run = -1; run < RUNS; run++) {
    const [time, baseTime] = [ours(), theirs()];
    if (run < 0) continue;
    times.push(time);
    if (baseTime) baseTimes.push(baseTime);
  }
  const what = `100,000 formulas, ${stored}, read, calculated and written by the command`;
  const megabytes = Number(readFileSync(memory, 'utf8')) / 1e6;
  const found = [measured(`${what}: megabytes`, megabytes, 'promised', MOST_MEGABYTES, 1)];
  if (baseTimes.length === 0) return found;
  // It ends well where it could not read the file, too.
  rmSync(join(folder, 'theirs/big.xlsx'));
  const ratio = (kind: string, of: (time: Time) => number): Measurement =>
    measured(
      `${what}, ${kind}`,
      1000 * median(times.map(of)),
      'by LibreOffice',
      1000 * median(baseTimes.map(of)),
      MOST_RATIO,
    );
  found.push(ratio('on the clock', ({ clock }) => clock));
  if (times[0]!.processor !== undefined) found.push(ratio('of processor', ({ processor }) => processor!));
  return found;
}
