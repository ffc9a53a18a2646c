import { join } from 'node:path';
import { beforeAll, expect, test } from '@jest/globals';
import { ASKED_FOR, differences, heardFrom, type Heard } from '../surroundings';

let heard: Heard[];
beforeAll(async () => {
  heard = await heardFrom(join(__dirname, 'everyReading.ts'));
}, 300_000);

test('the surroundings are those asked for', () => {
  expect(heard.map(({ surroundings }) => surroundings)).toEqual(ASKED_FOR);
});

test('what is read from a workbook, calculated, said and written is the same in every time zone and locale', () => {
  const first = heard[0]!;
  expect(first.answers.length).toBeGreaterThan(100);
  expect(differences(heard)).toEqual([]);
});

// Serials that spreadsheet programs show for these moments: 46110 is 29 March 2026 in the system from 1900, and 40907
// is 30 December 2011, a day that Apia's calendar never had.
test('and it is right', () => {
  const read = heard[0]!.answers[0] as { sheets: { cells: { address: string; value: unknown }[] }[] };
  const serials = read.sheets.map(({ cells }) => cells.find(({ address }) => address === 'A1')!.value);
  expect(serials.slice(0, 4)).toEqual([46110 + 2.5 / 24, 46320 + 2.5 / 24, 46117 + 1.75 / 24, 40907.5]);
  expect(serials.slice(5, 8)).toEqual([46082, 46082.25, 46082 + 15 / 1440]);
});
