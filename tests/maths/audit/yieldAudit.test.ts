import { describe, expect, test } from '@jest/globals';
import { USUAL_SETTINGS, yieldAudit, type AuditSettings } from '../../../src/maths/audit/yieldAudit';
import type { Finding, LotRecord, PickRecord, StrainFacts } from '../../../src/maths/audit/yieldRecords';
import { expectFault, type Refusal } from '../expectFault';
import { audited } from './books/audits';
import { bagFarm, marketFarm, shelfFarm, type Book } from './books/farms';
import { newScore, scoreBook } from './books/score';
import { plantGroup, plantMissing, plantSingles, plantTare } from './books/slips';

const strains = new Map<string, StrainFacts>([
  ['alder-3', { earliest: 63, firstPick: 7, pickDays: 5, flushGap: 18, flushes: 3, efficiency: 0.8 }],
]);

describe('each finding of yieldAudit', () => {
  // Two lots of Alder-3 (first pick on day 7, five days, 18 days apart) and what is wrong with one of them
  const LOADED = 46000;
  const lot: LotRecord = {
    row: 2,
    lot: 'A-101',
    strain: 'Alder-3',
    blocks: 50,
    blockMass: 2.5,
    moisture: 0.6,
    inoculated: LOADED - 77,
    loaded: LOADED,
    total: undefined,
  };
  const later: LotRecord = { ...lot, row: 3, lot: 'A-102' };
  const pick = (row: number, day: number, mass: number, flush: number, of = 'A-101'): PickRecord => ({
    row,
    lot: of,
    date: LOADED + day,
    mass,
    flush,
    blocks: 50,
    picker: '',
    scale: '',
    grade: '',
    crate: '',
  });
  // 40 kg from 50 kg dry: 24 in the first flush, 10 and 6 in the others
  const masses = [
    [7, 8, 1],
    [8, 8.5, 1],
    [9, 7.5, 1],
    [25, 5.2, 2],
    [26, 4.8, 2],
    [43, 3.1, 3],
    [44, 2.9, 3],
  ] as const;
  const picks = [
    ...masses.map(([day, mass, flush], i) => pick(i + 2, day, mass, flush)),
    ...masses.map(([day, mass, flush], i) => pick(i + 9, day + 1, mass + 0.4, flush, 'A-102')),
  ];
  const run = (
    changedPick: Partial<PickRecord> & { row: number },
    changedLot: Partial<LotRecord> = {},
    more: { picks?: PickRecord[]; lots?: LotRecord[] } = {},
  ): Finding[] =>
    yieldAudit(
      [
        ...picks.map((one) => (one.row === changedPick.row ? { ...one, ...changedPick } : one)),
        ...(more.picks ?? []),
      ],
      [{ ...lot, ...changedLot }, later, ...(more.lots ?? [])],
      strains,
      { ...USUAL_SETTINGS, unit: 'kg' },
    );
  const none = { row: 0 };

  test('finds nothing in a book without a slip', () => {
    expect(run(none)).toEqual([]);
  });

  test('takes a total that is the sum of its picks', () => {
    expect(run(none, { total: 40 })).toEqual([]);
  });

  test('takes a total that is rounded to its last digit', () => {
    // The picks weigh 40; the first is typed 0.45 heavier or 0.55.
    const first = picks[0]!;
    const heavier = (more: number): typeof first => ({ ...first, mass: Number(first.mass) + more });
    expect(run(heavier(0.45), { total: 40 })).toEqual([]);
    expect(run(heavier(0.75), { total: 40 })).toMatchObject([{ cause: 'total', expected: 40.75 }]);
  });

  test('takes none for a crop that failed', () => {
    expect(run({ row: 8, mass: 'none' })).toEqual([]);
  });

  test.each<[string, Parameters<typeof run>, Partial<Finding>]>([
    ['a blank lot', [{ row: 3, lot: '' }], { cause: 'lot missing', row: 3 }],
    [
      'a letter O for a nought',
      [{ row: 3, lot: 'A-1O1' }],
      { cause: 'lot spelling', row: 3, corrected: 'A-101' },
    ],
    ['a digit left out', [{ row: 7, lot: 'A-01' }], { cause: 'lot unknown', row: 7, corrected: 'A-101' }],
    ['two neighbours swapped', [{ row: 3, lot: 'A1-01' }], { row: 3, corrected: 'A-101' }],
    [
      'a lot twice',
      [none, {}, { lots: [{ ...lot, row: 9 }] }],
      { cause: 'lot twice', row: 9, table: 'lots' },
    ],
    ['a lot never loaded', [none, { loaded: undefined }], { cause: 'lot not loaded', row: 2, table: 'lots' }],
    [
      'a lot never picked',
      [none, {}, { lots: [{ ...lot, row: 4, lot: 'A-103', loaded: LOADED - 90, inoculated: LOADED - 170 }] }],
      { cause: 'lot not picked', row: 4, table: 'lots' },
    ],
    [
      'a mass as text',
      [{ row: 3, mass: '8,5' }],
      { cause: 'not a number', row: 3, corrected: 8.5, slip: 'text' },
    ],
    ['an error in a mass', [{ row: 3, mass: '#REF!' }], { cause: 'not a number', corrected: undefined }],
    ['a date as text', [{ row: 3, date: '2026-03-01' }], { cause: 'not a number', column: 'date' }],
    [
      'a moisture of 60',
      [none, { moisture: 60 }],
      { cause: 'out of range', column: 'moisture', corrected: 0.6, slip: 'percent' },
    ],
    ['no mass', [{ row: 3, mass: undefined }], { cause: 'mass missing', row: 3 }],
    ['a negative mass', [{ row: 3, mass: -8.5 }], { cause: 'mass negative', row: 3, corrected: 8.5 }],
    ['grams', [{ row: 3, mass: 8500 }], { cause: 'mass', row: 3, corrected: 8.5, slip: 'grams' }],
    [
      'a decimal to the right',
      [{ row: 3, mass: 85 }],
      { cause: 'mass', row: 3, corrected: 8.5, slip: 'decimal right' },
    ],
    ['a decimal to the left', [{ row: 3, mass: 0.85 }], { cause: 'mass', row: 3, slip: 'decimal left' }],
    ['no date', [{ row: 3, date: undefined }], { cause: 'date missing', row: 3 }],
    [
      'last year’s date',
      [{ row: 3, date: LOADED + 8 - 365 }],
      { cause: 'date', row: 3, corrected: LOADED + 8, slip: 'other year', wrong: 1 },
    ],
    [
      'next year’s date',
      [{ row: 8, date: LOADED + 44 + 365 }],
      { cause: 'date', row: 8, corrected: LOADED + 44, slip: 'other year' },
    ],
    [
      'a load before its inoculation',
      [none, { inoculated: LOADED + 5 }],
      { cause: 'inoculated', row: 2, table: 'lots', expected: LOADED - 63, sure: 1 },
    ],
    [
      'an unripe load without a pick',
      [none, {}, { lots: [{ ...lot, row: 4, lot: 'A-103', loaded: LOADED + 40, inoculated: LOADED + 10 }] }],
      { cause: 'unripe', row: 4, expected: LOADED + 87 },
    ],
    ['flush 2.5', [{ row: 5, flush: 2.5 }], { cause: 'out of range', row: 5, column: 'flush' }],
    ['flush 2 amid flush 1', [{ row: 3, flush: 2 }], { cause: 'flush', row: 3, corrected: 1 }],
    [
      'a pick typed twice',
      [none, {}, { picks: [pick(20, 8, 8.5, 1)] }],
      { cause: 'twice', row: 20, about: 3 },
    ],
    ['more blocks than loaded', [{ row: 3, blocks: 51 }], { cause: 'blocks over', row: 3 }],
    [
      'a total that is not the sum',
      [none, { total: 44 }],
      { cause: 'total', row: 2, table: 'lots', expected: 40 },
    ],
    [
      'a blank mass that the total tells',
      [{ row: 3, mass: undefined }, { total: 40 }],
      { cause: 'mass missing', row: 3, expected: 8.5 },
    ],
    [
      'no flush 2',
      [{ row: 5, flush: 3, date: LOADED + 45 }, {}, {}],
      { cause: 'flush missing', table: 'lots', row: 2, about: 2 },
    ],
    ['a strain not in strains', [none, { strain: 'Alder-4' }], { cause: 'not judged', value: 'Alder-4' }],
    ['no moisture', [none, { moisture: undefined }], { cause: 'not judged', column: 'moisture' }],
    ['no blocks', [none, { blocks: undefined }], { cause: 'not judged', column: 'blocks' }],
    ['no block mass', [none, { blockMass: undefined }], { cause: 'not judged', column: 'block mass' }],
  ])('%s', (what, [changedPick, changedLot, more], wanted) => {
    const without = what === 'no flush 2' ? { row: 6, flush: 3, date: LOADED + 42 } : undefined;
    const found = without
      ? yieldAudit(
          picks.map((one) =>
            one.row === changedPick.row
              ? { ...one, ...changedPick }
              : one.row === without.row
                ? { ...one, ...without }
                : one,
          ),
          [lot, later],
          strains,
        )
      : run(changedPick, changedLot, more);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject(wanted);
  });

  test('a lot loaded in the wrong month is one finding, in lots', () => {
    // 2025-12-09 typed as 2025-09-12
    const found = run(none, { loaded: LOADED - 88, inoculated: undefined });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({
      cause: 'load date',
      table: 'lots',
      row: 2,
      corrected: LOADED,
      slip: 'swapped date',
    });
  });

  test.each<[Partial<AuditSettings>, Refusal]>([
    [{ sureness: 80 }, ['settings, sureness', 'outside', { from: 0.01, to: 1, given: 80 }]],
    [{ lowestEfficiency: 0 }, ['settings, lowest efficiency', 'outside', { above: 0, given: 0 }]],
    [{ highestEfficiency: NaN }, ['settings, highest efficiency', 'outside', { above: 0, given: NaN }]],
  ])('refuses settings of %p', (settings, refusal) => {
    expectFault(() => yieldAudit(picks, [lot], strains, { ...USUAL_SETTINGS, ...settings }), refusal);
  });

  test('leaves its input as it was', () => {
    const frozen = picks.map((one) => Object.freeze(one));
    expect(() =>
      yieldAudit(Object.freeze(frozen), Object.freeze([Object.freeze(lot), Object.freeze(later)]), strains),
    ).not.toThrow();
  });
});

test('gives the same findings with the newest rows first', () => {
  const { book } = plantSingles(shelfFarm(0.35, 5), 2, 9);
  const findings = audited(book);
  const turned = audited({ ...book, picks: [...book.picks].reverse(), lots: [...book.lots].reverse() });
  const named = (all: readonly Finding[]): string[] =>
    all.map(({ table, row, cause }) => `${table} ${row} ${cause}`).sort();
  expect(named(turned)).toEqual(named(findings));
});

describe('what a book says of itself beside its figures', () => {
  const clean = marketFarm(0.35, 42);
  const changed = (row: number, change: Partial<PickRecord>): Book => ({
    ...clean,
    picks: clean.picks.map((pick) => (pick.row === row ? { ...pick, ...change } : pick)),
  });
  const of = (findings: readonly Finding[], row: number): Finding | undefined =>
    findings.find(({ table, rows }) => table === 'harvests' && rows.includes(row));

  test('nothing is wrong to begin with', () => {
    expect(audited(clean)).toEqual([]);
  });

  test('a date a month early is corrected to that of the rows around it', () => {
    const pick = clean.picks.find((one, at) => {
      const [before, after] = [clean.picks[at - 1], clean.picks[at + 1]];
      return at > 200 && before?.date === one.date && after?.date === one.date && one.grade === 'A';
    })!;
    const wrong = (pick.date as number) - 31;
    expect(of(audited(changed(pick.row, { date: wrong })), pick.row)).toMatchObject({
      cause: 'date',
      corrected: pick.date,
    });
  });

  test('a second grade without its first belongs to the lot that has a first without its second', () => {
    // Two lots of one strain with names one digit apart, both picked on one day in two grades.
    const isTwin = (a: string, b: string): boolean =>
      a !== b && a.slice(0, -1) === b.slice(0, -1) && a.slice(0, 2) === b.slice(0, 2);
    const second = clean.picks.filter(({ grade, mass }) => grade === 'B' && typeof mass === 'number');
    const [own, other] = second
      .flatMap((one) => second.map((two) => [one, two] as const))
      .find(([one, two]) => isTwin(one.lot, two.lot) && Math.abs(Number(one.date) - Number(two.date)) === 1)!;
    expect(of(audited(changed(own.row, { lot: other.lot })), own.row)).toMatchObject({
      cause: 'lot other',
      corrected: own.lot,
    });
  });

  test.each([
    ['shelves', shelfFarm],
    ['a market grower', marketFarm],
  ])('a picker who never takes the crate off is one finding of %s, with about its weight', (_name, farm) => {
    const { book, slips } = plantTare(farm(0.35, 77), 3);
    const findings = audited(book);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ cause: 'group', slip: 'crate', corrected: undefined });
    const added = findings[0]!.added!;
    expect(added / book.crate).toBeGreaterThan(0.75);
    expect(added / book.crate).toBeLessThan(1.3);
    expect(findings[0]!.rows.length).toBeGreaterThan(0.95 * slips[0]!.rows.length);
  });

  test('a row that fills a day left out in another lot belongs there, though it fits its own', () => {
    const book = shelfFarm(0.25, 31);
    const labels = new Set(book.lots.map(({ lot }) => lot));
    const beside = (lot: string): string => lot.slice(0, -1) + String((Number(lot.at(-1)) + 4) % 10);
    const isPicked = (lot: string, date: number): boolean =>
      book.picks.some((pick) => pick.lot === lot && pick.date === date);
    // A day within a flush here, and the day after a flush of a lot whose name is one digit away.
    const row = book.picks.find(({ lot, date }) => {
      const [day, other] = [date as number, beside(lot)];
      return (
        labels.has(other) &&
        isPicked(lot, day - 1) &&
        isPicked(lot, day + 1) &&
        isPicked(other, day - 1) &&
        !isPicked(other, day)
      );
    })!;
    const picks = book.picks.map((pick) => (pick === row ? { ...pick, lot: beside(row.lot) } : pick));
    expect(of(audited({ ...book, picks }), row.row)).toMatchObject({
      cause: 'lot other',
      corrected: row.lot,
    });
  });

  test('five picks of one picker’s day in pounds are told together, though both grades of a lot are among them', () => {
    const { book, slips } = plantGroup(marketFarm(0.45, 7007), false, 307);
    const [group] = audited(book);
    expect(group).toMatchObject({ cause: 'group', slip: 'pounds' });
    expect([...group!.rows].sort((a, b) => a - b)).toEqual([...slips[0]!.rows].sort((a, b) => a - b));
  });

  test.each<[string, Book, 'pounds' | 'grams', number]>([
    ['in pounds', shelfFarm(0.35, 77), 'pounds', 1 / 0.45359237],
    ['in grams', marketFarm(0.35, 77), 'grams', 1000],
  ])('a whole book %s under a header of kilograms is one finding', (_name, book, slip, factor) => {
    const picks = book.picks.map((pick) =>
      typeof pick.mass === 'number' ? { ...pick, mass: factor * pick.mass } : pick,
    );
    const findings = audited({ ...book, picks });
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ cause: 'book', slip, corrected: undefined });
    expect(Number(findings[0]!.value) / Number(findings[0]!.about)).toBeCloseTo(factor, 6);
  });

  test.each<[string, number]>([
    ['a poor farm with half of what its strains are said to yield', 0.5],
    ['a good one with a third more', 1.35],
  ])('%s has no book in another unit', (_name, factor) => {
    const book = shelfFarm(0.35, 77);
    const picks = book.picks.map((pick) =>
      typeof pick.mass === 'number' ? { ...pick, mass: factor * pick.mass } : pick,
    );
    expect(audited({ ...book, picks })).toEqual([]);
  });

  test('a picker who is honestly a fifth above the others has no crate', () => {
    const book: Book = {
      ...clean,
      picks: clean.picks.map((pick) =>
        pick.picker === 'Dan' && typeof pick.mass === 'number' ? { ...pick, mass: 1.2 * pick.mass } : pick,
      ),
    };
    expect(audited(book)).toEqual([]);
  });

  test.each<[string, Book]>([
    ['lots without load dates', { ...clean, lots: clean.lots.map((lot) => ({ ...lot, loaded: undefined })) }],
    ['lots without blocks', { ...clean, lots: clean.lots.map((lot) => ({ ...lot, blocks: undefined })) }],
  ])('%s are told as not judged, and nothing is made up about them', (_name, book) => {
    expect(audited(book).map(({ cause }) => cause)).toEqual(['not judged']);
  });
});

test('gives the most surely wrong first', () => {
  const sures = audited(plantSingles(shelfFarm(0.35, 5), 2, 9).book).map(({ wrong }) =>
    Number(wrong.toFixed(2)),
  );
  expect(sures).toEqual([...sures].sort((a, b) => b - a));
});

describe('yieldAudit names planted slips and leaves clean rows alone', () => {
  // The promise of the table in the README, on a few books so that it takes a second or two: `npm run bench audit` prints all.
  test.each([
    ['shelves', shelfFarm],
    ['bags', bagFarm],
  ])('%s', (_name, farm) => {
    const score = newScore();
    for (let seed = 1; seed <= 3; seed++) {
      const clean = farm(0.35, 500 + seed);
      scoreBook(score, plantSingles(clean, 2, seed), audited);
      scoreBook(score, plantMissing(clean, 2, seed), audited);
      scoreBook(score, plantGroup(clean, false, seed), audited);
      scoreBook(score, { book: clean, slips: [] }, audited);
    }
    const sure = [
      'decimal × 10',
      'decimal ÷ 10',
      'grams',
      'day and month swapped',
      'label unknown',
      'wrong block mass',
    ] as const;
    const [planted, named] = sure.reduce(
      ([all, right], kind) => {
        const tally = score.kinds.get(kind)!;
        return [all + tally.planted, right + tally.right];
      },
      [0, 0],
    );
    expect(planted).toBeGreaterThanOrEqual(30);
    expect(named / planted).toBeGreaterThanOrEqual(0.9);
    expect((1000 * score.alarms) / score.rows).toBeLessThanOrEqual(0.5);
  });
});
