import { describe, expect, test } from '@jest/globals';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { daysOffIn } from '../../../src/hosts/fit/pickLimit';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { bookWith, day, fittedBare, laidOut, opened, valuesOf, type Held } from './laidOut';

// How much can be picked in a day, and on which days nobody picks. Strains are invented.

type Rows = readonly (readonly Held[])[];
const bookWithNote = (note: Rows = []): Promise<Uint8Array> =>
  bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture', 'Inoculated'],
      ['L1', 'Blue larch', 40, 2, 0.6, '2026-03-02'],
    ],
    Strains: [
      ['Strain', 'Earliest', 'Best', 'Latest', 'First pick', 'Pick days', 'Efficiency'],
      ['Blue larch', 18, 24, 60, 6, 1, 0.5],
    ],
    Rooms: [['Room', 'Shelves', 'Blocks per shelf'], ['North', 4, 10], ...note],
    Orders: [
      ['Product', 'kg', 'Due'],
      ['Blue larch', 6, '2026-04-14'],
    ],
  });
const FIGURES = { today: '2026-03-30', days: 14 };
const calendarIn = async (note?: Rows) => {
  const fit = fittedBare(opened(await bookWithNote(note)), 'plan', { figures: FIGURES });
  return { fit, words: fit.questions.map(questionWords), rows: answersTemplate(fit).fill!['calendar'] };
};

test('a limit of picking is asked once where the book says none; none is an answer that the book keeps', async () => {
  const { words, rows } = await calendarIn();
  expect(words).toEqual(['How much can you pick in a day, in all rooms together? Write none for no limit']);
  expect(rows).toEqual([{ day: 'every day', 'pick limit': 'none', 'load limit': 'none' }]);
  const [fit] = await laidOut(await bookWithNote(), 'plan', { figures: FIGURES, fill: { calendar: rows! } });
  expect(fit.questions).toEqual([]);
});

test('days on which nobody picks are proposed, and the plan keeps to them', async () => {
  const { words, rows } = await calendarIn([[], ['We never pick on Sundays.']]);
  expect(words).toEqual([
    'Rooms!A4 says “We never pick on Sundays.”: Sunday off. How much can you pick in a day, in all rooms together? ' +
      'Write none for no limit, off for a day on which nobody picks',
  ]);
  expect(rows).toEqual([
    { day: 'every day', 'pick limit': 'none', 'load limit': 'none' },
    { day: 'Sunday', 'pick limit': 'off', 'load limit': 'none' },
  ]);
  const answers = { figures: FIGURES, fill: { calendar: rows! } };
  const [, prepared] = await laidOut(await bookWithNote(), 'plan', answers);
  const loads = valuesOf(prepared, 'LOADPLAN(')
    .slice(1)
    .filter(([, lot]) => lot === 'L1');
  expect(loads.length).toBeGreaterThan(0);
  // 5 April 2026 is a Sunday.
  for (const load of loads) expect((Number(load[6]) - day(4, 5)) % 7).not.toBe(0);
});

test('a limit and a day without picking in one sentence are told together', async () => {
  const { words, rows } = await calendarIn([[], ['two of us pick 25 kg a day max. No picking Sun']]);
  expect(words).toEqual([
    'Rooms!A4 says “two of us pick 25 kg a day max. No picking Sun”: 25 kg, Sunday off. How much can you pick in a day, in ' +
      'all rooms together? Write none for no limit, off for a day on which nobody picks',
  ]);
  expect(rows!.map((row) => row['pick limit'])).toEqual([25, 'off']);
});

describe('a sentence of days without picking', () => {
  test.each<[string, readonly string[]]>([
    ['no picking Mon', ['Monday']],
    ['We do not harvest Sat or Sun', ['Saturday', 'Sunday']],
    ['Sonntags wird nicht geerntet', ['Sunday']],
    ['Pas de récolte le dimanche', ['Sunday']],
    ['we pick every Sunday', []],
    ['no picking before Monday', []],
    ['never pick in the sun', []],
    ['No delivery on Mondays', []],
    ['No pick-ups on Sundays', []],
    ['Customer pickups only Sat', []],
    ['We only pick Mon, Wed and Fri', ['Tuesday', 'Thursday', 'Saturday', 'Sunday']],
    ['no picking, only cleaning on Mondays', []],
  ])('%s', (text, days) => {
    expect(daysOffIn(text)).toEqual(days);
  });
});

test('a limit is read in a sentence that says it behind a colon', async () => {
  const { words, rows } = await calendarIn([[], ['Most we can pick in a day: 40 kg (just the two of us)']]);
  expect(words[0]).toMatch(
    /^Rooms!A4 says “Most we can pick in a day: 40 kg \(just the two of us\)”: 40 kg\. /,
  );
  expect(rows!.map((row) => row['pick limit'])).toEqual([40]);
});

describe('limits of each day of the week', () => {
  const down: Rows = [
    ['Pickers'],
    ['Day', 'Max kg'],
    ['Mon', 45],
    ['Tue', '45'],
    ['Wed', 30],
    ['Thu', 45],
    ['Fri', 45],
    ['Sat', 25],
    ['Sun', 'off'],
  ];
  const across: Rows = [
    ['We can pick', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
    ['kg', 45, '45 kg', 30, 45, 45, 25, null],
  ];
  test.each([
    ['down', down, 'A6'],
    ['across', across, 'B4'],
  ] as const)('%s are proposed, and the plan keeps to them', async (_way, note, place) => {
    const { words, rows } = await calendarIn([[], ...note]);
    expect(words).toEqual([
      `Rooms!${place} has a limit for each day of the week: Monday 45, Tuesday 45, Wednesday 30, Thursday 45, Friday 45, ` +
        'Saturday 25, Sunday off. How much can you pick in a day, in all rooms together? Write none for no limit, off for a ' +
        'day on which nobody picks',
    ]);
    const answers = { figures: FIGURES, fill: { calendar: rows! } };
    const [, prepared] = await laidOut(await bookWithNote([[], ...note]), 'plan', answers);
    const limits = valuesOf(prepared, '"picks"')
      .slice(1, 8)
      .map((row) => row[4]);
    // 30 March 2026 is a Monday.
    expect(limits).toEqual([45, 45, 30, 45, 45, 25, 0]);
  });

  test.each<[string, Rows]>([
    ['of deliveries are none', [['Deliveries'], ...down.slice(1)]],
    ['of which one is a word are none', [...down.slice(0, 4), ['Wed', 'ask Jo'], ...down.slice(5)]],
    ['of four days are none', down.slice(0, 6)],
  ])('%s', async (_what, note) => {
    const { words } = await calendarIn([[], ...note]);
    expect(words.join(' ')).not.toContain('limit for each day of the week');
  });
});

test('a limit of 0 says that nobody picks; of loading there is none where nothing is said', async () => {
  const calendar = [
    { day: 'every day', 'pick limit': 40 },
    { day: 'Sunday', 'pick limit': 0 },
  ];
  const answers = { figures: FIGURES, fill: { calendar } };
  const [fit, prepared] = await laidOut(await bookWithNote(), 'plan', answers);
  expect(fit.questions).toEqual([]);
  const picks = valuesOf(prepared, '"picks"').slice(1);
  // 5 April 2026 is a Sunday.
  expect(picks.find(([date]) => date === day(4, 5))![4]).toBe(0);
  expect(picks.find(([date]) => date === day(4, 6))![4]).toBe(40);
});
