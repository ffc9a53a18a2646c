import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { spanIn } from '../../../src/hosts/fit/closures';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Rooms that are shut for some days, in the words of their row or of a note. Farm and strains are invented.

type Rows = readonly (readonly Held[])[];
const FIGURES: Answers = { figures: { today: '2026-03-30', days: 21 } };
const bookOf = (rooms: Rows, notes: Rows = []): Promise<Uint8Array> =>
  bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture', 'Inoculated'],
      ['L1', 'Blue larch', 40, 2, 0.6, '2026-03-02'],
    ],
    Strains: [
      ['Strain', 'Earliest', 'Best', 'Latest', 'First pick', 'Pick days', 'Efficiency'],
      ['Blue larch', 18, 24, 60, 6, 2, 0.5],
    ],
    Rooms: rooms,
    Orders: [
      ['Product', 'kg', 'Due'],
      ['Blue larch', 6, '2026-04-14'],
    ],
    ...(notes.length > 0 && { Notes: notes }),
  });
const NORTH: Rows = [
  ['Room', 'Shelves', 'Blocks per shelf', 'Away'],
  ['North', 4, 10, '6–12 Apr'],
  ['South', 2, 10, null],
];

test('a span of days in the row of a room is proposed as its closure, to which the plan keeps', async () => {
  const bytes = await bookOf(NORTH);
  const open = fitted(opened(bytes), 'plan', FIGURES);
  expect(open.questions.map(questionWords)).toEqual([
    'Rooms!D2 says “6–12 Apr” of North. Is it shut on these days? Correct them, and leave both days of a room blank if it is open',
  ]);
  const closures = answersTemplate(open).fill!['closures']!;
  expect(closures).toEqual([{ room: 'North', 'closed from': '2026-04-06', 'closed to': '2026-04-12' }]);
  const [, prepared] = await laidOut(bytes, 'plan', { ...FIGURES, fill: { closures } });
  const plan = valuesOf(prepared, 'LOADPLAN(');
  const loads = plan.slice(1).filter(([, lot]) => lot === 'L1');
  expect(loads.length).toBeGreaterThan(0);
  // On the shelves from the day of loading until the last pick: eight days.
  for (const [loaded, , , room] of loads)
    expect(room === 'North' && Number(loaded) <= day(4, 12) && Number(loaded) + 7 >= day(4, 6)).toBe(false);
  const written = withSheets(bytes, prepared.sheets);
  const workbook = await openWorkbook(readWorkbook(written));
  expect(workbook.result(prepared.answer, prepared.calls[0]!.address).block).toEqual(plan);
  const again = opened(written);
  expect(fitted(again, 'plan', keptAnswers(again, 'plan')).questions.map(questionWords)).toEqual([]);
});

test('a room that is said to be open is open', async () => {
  const fill = { closures: [{ room: 'North' }] };
  const [, prepared] = await laidOut(await bookOf(NORTH), 'plan', { ...FIGURES, fill });
  expect(
    valuesOf(prepared, 'LOADPLAN(')
      .slice(1)
      .some(([, , , room]) => room === 'North'),
  ).toBe(true);
});

test('a note that names the room says it too; one that names none does not', async () => {
  const rooms = NORTH.map((row) => row.slice(0, 3));
  const notes: Rows = [['South shut for a deep clean 28 March to 2 April'], ['Market closed 6-12 Apr']];
  const { questions } = fitted(opened(await bookOf(rooms, notes)), 'plan', FIGURES);
  expect(questions).toMatchObject([
    { kind: 'fill', rows: [{ room: 'South', 'closed from': '2026-03-28', 'closed to': '2026-04-02' }] },
  ]);
});

test('rooms that are told in sentences are proposed with the days on which a note says they are shut', async () => {
  const rooms: Rows = [['North – 4 shelves of 10'], ['South – 2 shelves of 10'], ['North closed 6-12 Apr']];
  const { questions } = fitted(opened(await bookOf(rooms)), 'plan', FIGURES);
  expect(questions).toMatchObject([
    {
      kind: 'fill',
      table: 'rooms',
      rows: [
        { room: 'North', shelves: 4, 'closed from': '2026-04-06', 'closed to': '2026-04-12' },
        { room: 'South', shelves: 2 },
      ],
    },
  ]);
  const rows = answersTemplate(fitted(opened(await bookOf(rooms)), 'plan', FIGURES)).fill!['rooms']!;
  const [, prepared] = await laidOut(await bookOf(rooms), 'plan', { ...FIGURES, fill: { rooms: rows } });
  for (const [loaded, , , room] of valuesOf(prepared, 'LOADPLAN(').slice(1))
    expect(room === 'North' && Number(loaded) <= day(4, 12) && Number(loaded) + 7 >= day(4, 6)).toBe(false);
});

describe('a span of days', () => {
  test.each<[string, readonly [string, string] | undefined]>([
    ['Away: 6–12 Apr', ['6 Apr', '12 Apr']],
    ['closed 6 Apr - 12 Apr', ['6 Apr', '12 Apr']],
    ['shut Apr 6-12, 2026', ['6 Apr 2026', '12 Apr 2026']],
    ['geschlossen 6. bis 12. April', ['6 April', '12 April']],
    ['closed 2026-04-06 to 2026-04-12', ['2026-04-06', '2026-04-12']],
    ['closed 6/4-12/4', ['6/4', '12/4']],
    ['4-6 shelves closed', undefined],
    ['closed for 2 weeks', undefined],
  ])('%s', (text, span) => {
    expect(spanIn(text)).toEqual(span);
  });
});
