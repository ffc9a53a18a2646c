import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { run } from '../../../src/hosts/headless/command';
import { scriptOf } from '../../surroundings';
import { damagedFiles, type Damaged, HARMLESS, SHAPELESS_CELLS, SOUND } from './damagedFiles';

const COMMAND = scriptOf(join(__dirname, '../../../src/hosts/headless/pinset.js'));
const TELLS_MEMORY = join(__dirname, 'tellsMemory.js');
const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
afterAll(() => rmSync(folder, { recursive: true }));

const [FILE, TARGET] = [join(folder, 'book.xlsx'), join(folder, 'result.xlsx')];
/** A bound against hanging, not a promise of speed: the machine may be very busy. */
const MOST_SECONDS = 60;

interface Came {
  readonly status: number;
  readonly out: string[];
  readonly error: string[];
  readonly seconds: number;
}

async function recalculated(bytes: Uint8Array): Promise<Came> {
  writeFileSync(FILE, bytes);
  rmSync(TARGET, { force: true });
  const [out, error]: [string[], string[]] = [[], []];
  const start = performance.now();
  const status = await run(['recalc', FILE, '--out', TARGET], {
    out: (line) => void out.push(line),
    error: (line) => void error.push(line),
  });
  return { status, out, error, seconds: (performance.now() - start) / 1000 };
}

/** What is wrong with how a file was refused; undefined where nothing is. */
function complaintAbout({ status, out, error }: Omit<Came, 'seconds'>): string | undefined {
  if (status !== 2) return `status ${status}`;
  if (out.length > 0) return `results beside the refusal: ${out[0]}`;
  if (error.length !== 1) return `${error.length} lines`;
  const said = error[0]!;
  if (!said.startsWith(`pinset: ${FILE}: `) || said.includes('\n'))
    return `no sentence about the file: ${said}`;
  if (said.length > FILE.length + 250) return `too long: ${said}`;
  if (/undefined(?! entity)|null|NaN|\[object|not a function|Cannot|stack|RangeError|TypeError/.test(said))
    return `not for its owner: ${said}`;
  return existsSync(TARGET) ? 'a file was written' : undefined;
}

const files = damagedFiles();
/** Those that may take much memory: each is read by a program of its own, and there alone. */
const isHeavy = ({ what }: Damaged): boolean =>
  /promises 190000000|600,000|fills? the whole sheet|a thousand cells|1,200,000|entities 4 declared in xl\/workbook/.test(
    what,
  );
const heavy = files.filter(isHeavy);
let asEver: Came;

beforeAll(async () => {
  asEver = await recalculated(SOUND);
});

test('the workbook they are made from is sound, and there are two hundred of them and more', () => {
  expect(asEver).toMatchObject({
    status: 0,
    error: [
      '1 of 5 formulas keeps its stored result:',
      '  1 × another workbook ([1]Prices!$A$1), which the calculation here lacks: Lots!D5',
    ],
  });
  expect(asEver.out).toHaveLength(2);
  expect(files.length).toBeGreaterThanOrEqual(200);
  expect(new Set(files.map(({ what }) => what)).size).toBe(files.length);
});

test('each light one is refused in one sentence with status 2, or read with the results it had, in seconds', async () => {
  const complaints: string[] = [];
  let read = 0;
  for (const { what, bytes, outcome } of files.filter((file) => !isHeavy(file))) {
    const came = await recalculated(bytes);
    if (came.seconds > MOST_SECONDS) complaints.push(`${what}: ${came.seconds.toFixed(1)} s`);
    const same =
      came.status === 0 && came.out.join() === asEver.out.join() && came.error.join() === asEver.error.join();
    if (same) read++;
    const complaint = same && outcome === 'either' ? undefined : complaintAbout(came);
    if (complaint !== undefined) complaints.push(`${what}: ${complaint}`);
  }
  expect(complaints).toEqual([]);
  // Flipped bits of a picture, a macro or a date of packing hurt nothing that is read.
  expect(read).toBeGreaterThan(0);
  expect(readdirSync(folder).filter((name) => name.startsWith('.'))).toEqual([]);
}, 300_000);

describe('damage that hurts no result is read', () => {
  test.each(HARMLESS)('%s', async (_what, bytes) => {
    const { status, out, seconds } = await recalculated(bytes);
    expect([0, 1]).toContain(status);
    expect(out).toEqual(asEver.out);
    expect(seconds).toBeLessThan(MOST_SECONDS);
  });
});

describe('a value of no shape loses its cell, not the book', () => {
  test.each(SHAPELESS_CELLS)('%s', async (_what, bytes) => {
    const { status, out } = await recalculated(bytes);
    expect(status).toBe(1);
    expect(out[0]).toContain('1 of 3 rows faults: C2: #VALUE! ');
    expect(out.slice(1)).toEqual(asEver.out.slice(1));
  });
});

/** In bytes: the program itself takes 150 MB, and a part may unfold to 200 MB. */
const MOST_MEMORY = 800_000_000;

describe('as a program of its own with 512 MB of memory for its objects', () => {
  test('heavy ones are chosen', () => {
    expect(heavy).toHaveLength(12);
  });

  test.each(heavy.map(({ what, bytes }) => [what, bytes] as const))(
    '%s: one sentence, status 2',
    (_what, bytes) => {
      writeFileSync(FILE, bytes);
      rmSync(TARGET, { force: true });
      const memory = join(folder, 'memory');
      const { status, stdout, stderr } = spawnSync(
        process.execPath,
        ['--max-old-space-size=512', '--require', TELLS_MEMORY, COMMAND, 'recalc', FILE, '--out', TARGET],
        { encoding: 'utf8', timeout: MOST_SECONDS * 1000, env: { ...process.env, MEMORY_TO: memory } },
      );
      const lines = (text: string): string[] => (text === '' ? [] : text.trimEnd().split('\n'));
      expect(
        complaintAbout({ status: status ?? -1, out: lines(stdout), error: lines(stderr) }),
      ).toBeUndefined();
      expect(readFileSync(FILE)).toEqual(Buffer.from(bytes));
      expect(Number(readFileSync(memory, 'utf8'))).toBeLessThan(MOST_MEMORY);
    },
    90_000,
  );
});
