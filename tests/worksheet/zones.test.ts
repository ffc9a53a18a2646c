import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { beforeAll, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';

// Zones that catch different mistakes: west of Greenwich, a quarter of an hour off, a day that was left out of the
// calendar (Apia had no 30 December 2011), and a summer time of half an hour. Locales that write 1.234,5 and whose
// small I has no dot.

const ZONES = ['UTC', 'America/Sao_Paulo', 'Asia/Kathmandu', 'Pacific/Apia', 'Australia/Lord_Howe'];
/** The zone a process starts in matters to what is worked out while its modules load. */
const STARTS = [
  { locale: 'en_US.UTF-8', zone: 'UTC' },
  { locale: 'de_DE.UTF-8', zone: 'Pacific/Apia' },
  { locale: 'tr_TR.UTF-8', zone: 'America/Sao_Paulo' },
];

interface Heard {
  readonly surroundings: string;
  readonly answers: readonly [string, ...unknown[]][];
}

async function heardFrom({ locale, zone }: (typeof STARTS)[number]): Promise<Heard[]> {
  const program = join(__dirname, 'everyAnswer.ts');
  const { stdout } = await promisify(execFile)(process.execPath, ['--import', 'tsx', program, ...ZONES], {
    env: { ...process.env, TZ: zone, LC_ALL: locale, LANG: locale },
    maxBuffer: 2 ** 30,
  });
  return stdout
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Heard);
}

let heard: Heard[];
beforeAll(async () => {
  heard = (await Promise.all(STARTS.map(heardFrom))).flat();
}, 120_000);

test('the surroundings differ, so that equal answers mean something', () => {
  expect(heard).toHaveLength(STARTS.length * ZONES.length);
  const offsets = ['0', '180', '-345', '-780', '-660'];
  const written = [
    ['en-US', '1,234.5'],
    ['de-DE', '1.234,5'],
    ['tr-TR', '1.234,5'],
  ];
  expect(heard.map(({ surroundings }) => surroundings)).toEqual(
    written.flatMap((words) => offsets.map((offset) => [offset, ...words].join(' '))),
  );
});

test('every function and every calendar word is the same in every time zone and locale', () => {
  const [first, ...others] = heard;
  expect(new Set(first!.answers.map(([name]) => name)).size).toBeGreaterThan(catalogue.length);
  for (const { answers } of others) expect(answers).toEqual(first!.answers);
});
