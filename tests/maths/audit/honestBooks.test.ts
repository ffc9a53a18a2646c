import { describe, expect, test } from '@jest/globals';
import { audited } from './books/audits';
import { containerFarm } from './books/containerFarm';
import { crewFarm } from './books/crewFarm';
import { bagFarm, shelfFarm, type Book } from './books/farms';
import { cellarFarm, logFarm } from './books/heldOutFarms';
import { plantGroup, plantSingles } from './books/slips';
import { tunnelFarm } from './books/tunnelFarm';

// What is honest in a book and looks like a slip, and what a book's habits hide.

/** All masses of a book times a factor, under the same header. */
function scaled(book: Book, factor: number): Book {
  const times = <T>(mass: T): T | number =>
    typeof mass === 'number' ? Number((mass * factor).toPrecision(6)) : mass;
  return {
    ...book,
    picks: book.picks.map((pick) => ({ ...pick, mass: times(pick.mass) })),
    lots: book.lots.map((lot) => ({ ...lot, blockMass: times(lot.blockMass) })),
  };
}

describe('yieldAudit of honest books', () => {
  test('days after a day off, when all has grown for longer, are hardly ever taken for pounds', () => {
    const groups = [1, 2, 3].flatMap((seed) =>
      audited(crewFarm(0.35, seed)).filter(({ cause }) => cause === 'group'),
    );
    // Each book has some sixty Mondays and eight days after a holiday.
    expect(groups.length).toBeLessThanOrEqual(1);
  });

  test.each<[string, number, number, string, number]>([
    ['all that grew in four days without picking', 0.35, 20010, 'J30-5', 71.95],
    ['a whole flush picked late', 0.45, 20007, 'J28-3', 93.65],
    ['the first of a flush that goes on after the book', 0.35, 20004, 'B67-2', 6.6],
  ])('%s is no slipped decimal', (_what, scatter, seed, lot, mass) => {
    const book = crewFarm(scatter, seed);
    const { row } = book.picks.find((pick) => pick.lot === lot && pick.mass === mass)!;
    expect(audited(book).filter((finding) => finding.row === row && finding.table === 'harvests')).toEqual(
      [],
    );
  });

  test.each([
    [120_002, 298, 28],
    [120_005, 126, 102],
  ])(
    'a first flush that left next to nothing for the later ones is no slipped decimal',
    (seed, row, mass) => {
      const book = tunnelFarm(0.45, seed);
      expect(book.picks.find((pick) => pick.row === row)!.mass).toBe(mass);
      expect(audited(book).filter((finding) => finding.row === row && finding.table === 'harvests')).toEqual(
        [],
      );
    },
  );

  test('a visit a week off its lot’s rhythm is no wrong date', () => {
    const book = tunnelFarm(0.35, 9610);
    const row = book.picks.find(({ lot, date }) => lot === '42A5' && date === 45_604)!.row;
    expect(audited(book).filter((finding) => finding.row === row && finding.cause === 'date')).toEqual([]);
  });

  test.each([5, 0.2, 2.20462, 1000])(
    'rows typed twice are the same rows where all masses are %d times as much',
    (factor) => {
      const twice = (book: Book): number[] =>
        audited(book)
          .filter(({ cause }) => cause === 'twice')
          .map(({ row }) => row);
      const { book } = plantSingles(bagFarm(0.35, 7001), 2, 7001);
      expect(twice(book)).not.toHaveLength(0);
      expect(twice(scaled(book, factor))).toEqual(twice(book));
    },
  );

  test('a flush that is still due when the book ends is not missing, though strains expects it sooner', () => {
    const book = shelfFarm(0.35, 8103);
    const days = book.picks.map(({ date }) => date as number).sort((a, b) => a - b);
    const today = days[Math.floor(days.length / 4)]!;
    const cut: Book = {
      ...book,
      picks: book.picks.filter(({ date }) => (date as number) <= today),
      lots: book.lots.filter(({ loaded }) => (loaded as number) <= today),
      strains: new Map(
        [...book.strains].map(([label, strain]) => [label, { ...strain, flushGap: strain.flushGap! - 10 }]),
      ),
    };
    expect(audited(cut).filter(({ cause }) => cause === 'flush missing')).toEqual([]);
  });
});

test('of lots without their last flush one that gave a third before it was thrown out, and the others are asked about', () => {
  const book = shelfFarm(0.25, 8103);
  const lastOf = (lot: string): number =>
    Math.max(...book.picks.filter((pick) => pick.lot === lot).map(({ flush }) => Number(flush)));
  const [poor, ...ordinary] = [40, 41, 44].map((at) => book.lots[at]!.lot);
  const picks = book.picks
    .filter(({ lot, flush }) => !([poor, ...ordinary].includes(lot) && flush === lastOf(lot)))
    .map((pick) => (pick.lot === poor ? { ...pick, mass: 0.3 * Number(pick.mass) } : pick));
  const missing = audited({ ...book, picks }).filter(({ cause }) => cause === 'flush missing');
  expect(missing.map(({ lot }) => lot).sort()).toEqual(ordinary.sort());
});

test('a mass that fits neither as it is typed nor as it was corrected is told once', () => {
  // One visit took thirty times what is usual of its lot: a tenth of it is three times too much, and so back and forth.
  const book = tunnelFarm(0.35, 94_004);
  const { row } = book.picks.find(({ lot, mass }) => lot === '19A6' && mass === 9.2)!;
  const lots = new Set<string>();
  const picks = book.picks.map((pick) => {
    if (pick.row % 97 > 0 || pick.row === row || lots.has(pick.lot)) return pick;
    lots.add(pick.lot);
    return { ...pick, mass: 10 * Number(pick.mass) };
  });
  const rows = audited({ ...book, picks })
    .filter(({ cause }) => cause === 'mass')
    .map((finding) => finding.row);
  expect(rows.length).toBeGreaterThan(5);
  expect(new Set(rows).size).toBe(rows.length);
});

describe('yieldAudit of one lot that is far from the others', () => {
  test('a block mass in kilograms in a book of grams is one finding, and none of its picks', () => {
    const book = containerFarm(0.25, 61_001);
    const { lot, row, blockMass } = book.lots.find((one) => one.lot === 'K4-04-1')!;
    const lots = book.lots.map((one) =>
      one.lot === lot ? { ...one, blockMass: Number(blockMass) / 1000 } : one,
    );
    expect(audited({ ...book, lots }).filter((finding) => finding.lot === lot)).toMatchObject([
      { cause: 'block mass', row, slip: 'kilograms', corrected: blockMass },
    ]);
  });

  test.each([30, 300])('a lot whose masses are all %d times as much has no slipped decimals', (factor) => {
    const book = containerFarm(0.25, 61_001);
    const lot = 'K4-04-1';
    const picks = book.picks.map((pick) =>
      pick.lot === lot ? { ...pick, mass: Number((factor * Number(pick.mass)).toPrecision(4)) } : pick,
    );
    const causes = audited({ ...book, picks }).filter((finding) => finding.lot === lot);
    expect(causes.map(({ cause }) => cause)).toEqual(['efficiency']);
  });
});

describe('yieldAudit of books with habits', () => {
  test('a picker in pounds is found though nearly all picks of some lots are hers', () => {
    const { book, slips } = plantGroup(cellarFarm(0.35, 7001), true, 401);
    const [group] = audited(book);
    expect(group).toMatchObject({ cause: 'group', slip: 'pounds' });
    expect(group!.rows.length).toBeGreaterThan(0.95 * slips[0]!.rows.length);
  });

  test('a moisture that no block has is wrong, though a few lots are nearly as dry as what was meant', () => {
    const book = logFarm(0.25, 7050);
    const lot = book.lots.find(({ moisture }) => moisture === 0.42)!;
    const lots = book.lots.map((one) => (one === lot ? { ...one, moisture: 0.042 } : one));
    expect(audited({ ...book, lots })).toMatchObject([
      { cause: 'moisture', row: lot.row, slip: 'decimal left', corrected: 0.42 },
    ]);
  });

  test('a corrected mass has the digits that a scale shows', () => {
    const masses = [1, 2, 3].flatMap((seed) =>
      audited(plantSingles(shelfFarm(0.25, seed), 3, seed).book)
        .filter(({ cause, slip }) => cause === 'mass' && slip?.startsWith('decimal'))
        .map(({ corrected }) => String(corrected)),
    );
    expect(masses.length).toBeGreaterThan(10);
    expect(masses.filter((mass) => mass.length > 6)).toEqual([]);
  });
});
