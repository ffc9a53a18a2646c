import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { loadHighs } from '../../../src/maths/shared/highs';
import type { LinearSolver } from '../../../src/maths/shared/linearProgram';
import { cheapestMix } from '../../../src/maths/substrate/cheapestMix';
import type { Candidate, NamedLimit, Need } from '../../../src/maths/substrate/mixProgram';
import { expectFault, type Refusal } from '../expectFault';

const candidate = (name: string, cost: number, changes: Partial<Candidate> = {}): Candidate => ({
  name,
  cost,
  moisture: 0,
  lowest: 0,
  highest: 1,
  ...changes,
});
const need = (name: string, content: Need['content'], lowest?: number, highest?: number): Need => ({
  name,
  content,
  lowest,
  highest,
});

/** The solver by the simplex method, as the function uses it, and by the interior point method. */
let solvers: { readonly simplex: LinearSolver; readonly interior: LinearSolver };
beforeAll(async () => {
  const simplex = await loadHighs();
  solvers = { simplex, interior: { solve: (program) => simplex.solve(program, 'interior') } };
});
const both = (check: (solver: LinearSolver) => void): void =>
  Object.values(solvers).forEach((solver) => check(solver));

describe('cheapestMix(candidates, needs, solver) gives published optima', () => {
  // A least-cost feed ration in textbooks on optimisation: corn 30.5, limestone 10 and soybean meal 90 cents a kg;
  // calcium 0.8 to 1.2%, protein 22% or more, fibre 5% or less. Printed: 65% corn, 3% limestone, 32% soybean meal at
  // $0.4916 a kg; the digits beyond solve protein = 22%, calcium = 1.2% by hand.
  test('corn, limestone and soybean meal: 65, 3 and 32% at 0.4916', () => {
    both((solver) => {
      const mix = cheapestMix(
        [candidate('corn', 0.305), candidate('limestone', 0.1), candidate('soybean meal', 0.9)],
        [
          need('calcium', [0.001, 0.38, 0.002], 0.008, 0.012),
          need('protein', [0.09, 0, 0.5], 0.22),
          need('fibre', [0.02, 0, 0.08], undefined, 0.05),
        ],
        solver,
      );
      expect(mix.ingredients.map(({ level }) => level.toFixed(2))).toEqual(['0.65', '0.03', '0.32']);
      expect(mix.costOfDry).toBeCloseTo(0.4916, 4);
      expect(mix.needs.map(({ limit }) => limit)).toEqual(['highest', 'lowest', undefined]);
    });
  });

  // Dantzig (1963) Linear Programming and Extensions, §3.4: an alloy of 30% lead, 30% zinc, 40% tin from nine on the
  // market; 0.6 of B and 0.4 of D at 4.98
  test('an alloy from nine: 0.6 of B and 0.4 of D at 4.98', () => {
    const price = [4.1, 4.3, 5.8, 6, 7.6, 7.5, 7.3, 6.9, 7.3];
    const lead = [0.1, 0.1, 0.4, 0.6, 0.3, 0.3, 0.3, 0.5, 0.2];
    const zinc = [0.1, 0.3, 0.5, 0.3, 0.3, 0.4, 0.2, 0.4, 0.3];
    const tin = [0.8, 0.6, 0.1, 0.1, 0.4, 0.3, 0.5, 0.1, 0.5];
    both((solver) => {
      const mix = cheapestMix(
        price.map((cost, i) => candidate('ABCDEFGHI'[i]!, cost)),
        [need('lead', lead, 0.3, 0.3), need('zinc', zinc, 0.3, 0.3), need('tin', tin, 0.4, 0.4)],
        solver,
      );
      const shares = mix.ingredients.map(({ level }) => level);
      [0, 0.6, 0, 0.4, 0, 0, 0, 0, 0].forEach((share, i) => expect(shares[i]).toBeCloseTo(share, 8));
      expect(mix.costOfDry).toBeCloseTo(4.98, 8);
    });
  });

  // R package limSolve, help page of its `Blending` data: shares 0.5909, 0.1364 and 0.2727 of a filler
  test('two feeds and a filler: 0.5909, 0.1364, 0.2727', () => {
    both((solver) => {
      const mix = cheapestMix(
        [candidate('one', 40), candidate('two', 60), candidate('filler', 0)],
        [
          need('A', [100, 200, 0], 80),
          need('B', [50, 150, 0], 50),
          need('C', [40, 10, 0], 25),
          need('D', [10, 0, 0], 5),
        ],
        solver,
      );
      [0.5909, 0.1364, 0.2727].forEach((share, i) => expect(mix.ingredients[i]!.level).toBeCloseTo(share, 4));
    });
  });
});

/** Substrates: a cheap woody base, richer supplements, all with water in them. */
const WOOD = [
  candidate('oak sawdust', 0.05, { moisture: 0.35 }),
  candidate('beech chip', 0.08, { moisture: 0.15 }),
  candidate('wheat bran', 0.34, { moisture: 0.12 }),
  candidate('soy hulls', 0.29, { moisture: 0.1 }),
  candidate('millet', 0.6, { moisture: 0.12 }),
];
const CARBON = [0.488, 0.485, 0.45, 0.43, 0.44];
const NITROGEN = [0.0016, 0.002, 0.027, 0.019, 0.02];
const needsOf = (nitrogen: number, ratio: number, moisture: number): Need[] => [
  need('nitrogen', NITROGEN, nitrogen),
  { name: 'C:N', content: CARBON, per: NITROGEN, lowest: ratio, highest: undefined },
  need('moisture', 'moisture', undefined, moisture),
];

describe('prices and limits', () => {
  // Costs after a small move of one limit, solved afresh, against the worth reported.
  test.each([
    ['a lowest nitrogen', (by: number) => needsOf(0.008 + by, 20, 0.5), 0],
    ['a highest moisture', (by: number) => needsOf(0.008, 20, 0.2 + by), 2],
    [
      'a highest C:N',
      (by: number) => [{ name: 'C:N', content: CARBON, per: NITROGEN, lowest: undefined, highest: 45 + by }],
      0,
    ],
    ['a lowest C:N', (by: number) => needsOf(0.008, 40 + by, 0.5), 1],
  ] as [string, (by: number) => Need[], number][])(
    'the worth of %s is what moving it costs',
    (what, needs, n) => {
      // Bran given away would be the cheapest of all, were it not too rich in nitrogen.
      const candidates = WOOD.map((one, i) =>
        what === 'a lowest C:N' && i === 2 ? { ...one, cost: 0 } : one,
      );
      both((solver) => {
        const step = 1e-4 * (needs(0)[n]!.lowest ?? needs(0)[n]!.highest!);
        const cost = (by: number): number => cheapestMix(candidates, needs(by), solver).costOfDry;
        const { worth, limit } = cheapestMix(candidates, needs(0), solver).needs[n]!;
        const slope = (cost(step) - cost(-step)) / (2 * step);
        expect(limit).toBeDefined();
        expect(slope).not.toBe(0);
        expect(worth! / slope).toBeCloseTo(1, 3);
      });
    },
  );

  test('an unused ingredient enters just below the price reported, and not above it', () => {
    both((solver) => {
      const needs = needsOf(0.008, 20, 0.5);
      const mix = cheapestMix(WOOD, needs, solver);
      const unused = mix.ingredients.flatMap(({ entersAt }, i) =>
        typeof entersAt === 'number' ? [{ entersAt, i }] : [],
      );
      expect(unused.length).toBeGreaterThan(0);
      for (const { entersAt, i } of unused) {
        const at = (cost: number): number =>
          cheapestMix(
            WOOD.map((one, k) => (k === i ? { ...one, cost } : one)),
            needs,
            solver,
          ).ingredients[i]!.level;
        expect(entersAt).toBeLessThanOrEqual(WOOD[i]!.cost);
        expect(at(entersAt - 0.001)).toBeGreaterThan(0);
        expect(at(entersAt + 0.001)).toBe(0);
      }
    });
  });

  test('both methods agree, every need is kept and no kept mix at random is cheaper', () => {
    const randomShares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(
        fc.double({ min: 0.004, max: 0.015, noNaN: true }),
        fc.double({ min: 0.15, max: 0.4, noNaN: true }),
        randomShares,
        (nitrogen, moisture, weights) => {
          const needs = needsOf(nitrogen, 20, moisture);
          const mix = cheapestMix(WOOD, needs, solvers.simplex);
          expect(cheapestMix(WOOD, needs, solvers.interior).costOfDry / mix.costOfDry).toBeCloseTo(1, 7);
          expect(mix.ingredients.reduce((sum, { level }) => sum + level, 0)).toBeCloseTo(1, 9);
          expect(mix.needs[0]!.level).toBeGreaterThan(nitrogen - 1e-9);
          expect(mix.needs[2]!.level).toBeLessThan(moisture + 1e-9);
          const sum = weights.reduce((total, weight) => total + weight, 0);
          fc.pre(sum > 0);
          const shares = weights.map((weight) => weight / sum);
          const over = (values: readonly number[]): number =>
            values.reduce((total, v, i) => total + v * shares[i]!, 0);
          const wet = over(WOOD.map((one) => 1 / (1 - one.moisture)));
          const kept =
            over(NITROGEN) >= nitrogen && 1 - 1 / wet <= moisture && over(CARBON) / over(NITROGEN) >= 20;
          const cost = over(WOOD.map((one) => one.cost / (1 - one.moisture)));
          expect(kept ? cost : Infinity).toBeGreaterThanOrEqual(mix.costOfDry - 1e-9);
        },
      ),
    );
  });

  test.each([[1e-9], [1e-3], [1e6]])('the unit of money and of contents does not matter: %p', (factor) => {
    both((solver) => {
      const plain = cheapestMix(WOOD, needsOf(0.008, 20, 0.3), solver);
      const scaled = cheapestMix(
        WOOD.map((one) => ({ ...one, cost: one.cost * factor })),
        [
          need(
            'nitrogen',
            NITROGEN.map((held) => held * factor),
            0.008 * factor,
          ),
          ...needsOf(0.008, 20, 0.3).slice(1),
        ],
        solver,
      );
      scaled.ingredients.forEach(({ level }, i) => expect(level).toBeCloseTo(plain.ingredients[i]!.level, 8));
      expect(scaled.costOfDry / factor).toBeCloseTo(plain.costOfDry, 8);
      expect(scaled.needs[0]!.worth).toBeCloseTo(plain.needs[0]!.worth!, 6);
      expect(scaled.needs[2]!.worth! / factor).toBeCloseTo(plain.needs[2]!.worth!, 6);
    });
  });

  test('shares keep to their own limits and name them', () => {
    both((solver) => {
      const limited = WOOD.map((one, i) => ({
        ...one,
        ...(i === 1 && { lowest: 0.1 }),
        ...(i === 2 && { highest: 0.15 }),
      }));
      const mix = cheapestMix(limited, [need('nitrogen', NITROGEN, 0.008)], solver);
      expect(mix.ingredients.map(({ limit }) => limit)).toEqual([
        undefined,
        'lowest',
        'highest',
        undefined,
        undefined,
      ]);
      expect(mix.ingredients[1]!.level).toBeCloseTo(0.1, 9);
      expect(mix.costAsReceived).toBeLessThan(mix.costOfDry);
    });
  });
});

describe('where more limits are reached than it takes to fix the mix', () => {
  // By hand: plain alone holds just 1% and costs 0.10. With a unit of rich at most 1.25 of lean may come in for 2.25 of
  // plain, which saves 2.25 × 0.10 − 1.25 × 0.05 = 0.1625. A solver's own price for rich was 0.10 or 0.1625, by the row.
  const CORNER = [
    { name: 'plain', cost: 0.1, held: 0.01 },
    { name: 'rich', cost: 0.4, held: 0.02 },
    { name: 'lean', cost: 0.05, held: 0.002 },
  ];
  const corner = (rows: typeof CORNER, solver: LinearSolver) =>
    cheapestMix(
      rows.map(({ name, cost }) => candidate(name, cost)),
      [
        need(
          'nitrogen',
          rows.map(({ held }) => held),
          0.01,
        ),
      ],
      solver,
    );

  test('the price at which an ingredient enters is right in whatever order the rows are', () => {
    const orders = [
      [0, 1, 2],
      [0, 2, 1],
      [1, 0, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ];
    for (const order of orders) {
      both((solver) => {
        const rows = order.map((i) => CORNER[i]!);
        const { ingredients } = corner(rows, solver);
        const of = (name: string) => ingredients[rows.findIndex((one) => one.name === name)]!;
        expect(of('plain').level).toBeCloseTo(1, 9);
        expect(of('rich').entersAt).toBeCloseTo(0.1625, 9);
      });
    }
  });

  test('the worth is that of a rise, where a rise and a fall cost different sums', () => {
    both((solver) => {
      const cost = (least: number): number =>
        cheapestMix(
          CORNER.map(({ name, cost: price }) => candidate(name, price)),
          [
            need(
              'nitrogen',
              CORNER.map(({ held }) => held),
              least,
            ),
          ],
          solver,
        ).costOfDry;
      const rise = (cost(0.0101) - cost(0.01)) / 0.0001;
      const fall = (cost(0.01) - cost(0.0099)) / 0.0001;
      expect(rise / fall).toBeGreaterThan(2);
      expect(corner(CORNER, solver).needs[0]!.worth! / rise).toBeCloseTo(1, 6);
    });
  });

  // Small whole figures make corners at which many limits meet; the price is checked by solving again on both sides.
  const small = fc.integer({ min: 1, max: 4 });
  const farms = fc.record({
    rows: fc.array(fc.record({ cost: small, held: small, ash: small }), { minLength: 3, maxLength: 5 }),
    least: small,
    most: fc.integer({ min: 2, max: 4 }),
  });
  test('an unused ingredient is in no mix just above its price and in the cheapest just below it', () => {
    fc.assert(
      fc.property(farms, ({ rows, least, most }) => {
        const needs = [
          need(
            'held',
            rows.map(({ held }) => held),
            least,
          ),
          need(
            'ash',
            rows.map(({ ash }) => ash),
            undefined,
            most,
          ),
        ];
        const candidates = rows.map(({ cost }, i) => candidate(`ingredient ${i}`, cost));
        fc.pre(rows.some(({ held, ash }) => held >= least && ash <= most));
        const { ingredients } = cheapestMix(candidates, needs, solvers.simplex);
        const unused = ingredients.flatMap(({ entersAt }, i) => (entersAt === undefined ? [] : [i]));
        const isUsedAt = (i: number, cost: number): boolean =>
          cheapestMix(
            candidates.map((one, k) => (k === i ? { ...one, cost } : one)),
            needs,
            solvers.simplex,
          ).ingredients[i]!.level > 0;
        // One that never enters is not used at next to nothing either.
        const around = unused.map((i) => {
          const price = ingredients[i]!.entersAt;
          return price === null
            ? [false, !isUsedAt(i, 0.001)]
            : [isUsedAt(i, price! + 0.001), isUsedAt(i, price! - 0.001)];
        });
        expect(around).toEqual(unused.map(() => [false, true]));
      }),
    );
  });

  test('the same rows in another order give the same mix, even where several cost the same', () => {
    fc.assert(
      fc.property(farms, ({ rows, least }) => {
        const named = rows.map((row, i) => ({ ...row, name: `ingredient ${i}` }));
        fc.pre(rows.some(({ held }) => held >= least));
        const mix = (list: typeof named) =>
          cheapestMix(
            list.map(({ name, cost }) => candidate(name, cost)),
            [
              need(
                'held',
                list.map(({ held }) => held),
                least,
              ),
            ],
            solvers.simplex,
          ).ingredients;
        expect([...mix([...named].reverse())].reverse()).toEqual(mix(named));
      }),
    );
  });
});

describe('the limits of the ingredients themselves have a worth', () => {
  const limited = (changes: readonly Partial<Candidate>[]) =>
    WOOD.map((one, i) => ({ ...one, ...changes[i] }));
  const mixOf = (candidates: readonly Candidate[], solver: LinearSolver) =>
    cheapestMix(candidates, [need('nitrogen', NITROGEN, 0.008)], solver);

  // Costs after a small move of the limit, solved afresh, against the worth reported.
  test.each([
    ['a lowest', 1, (by: number) => limited([{}, { lowest: 0.1 + by }])],
    ['a highest', 2, (by: number) => limited([{}, {}, { highest: 0.15 + by }])],
    ['a fixed share', 4, (by: number) => limited([{}, {}, {}, {}, { lowest: 0.1 + by, highest: 0.1 + by }])],
  ] as const)('the worth of %s is what moving it costs', (_what, i, candidates) => {
    both((solver) => {
      const slope =
        (mixOf(candidates(1e-4), solver).costOfDry - mixOf(candidates(-1e-4), solver).costOfDry) / 2e-4;
      expect(slope).not.toBe(0);
      expect(mixOf(candidates(0), solver).ingredients[i]!.worth! / slope).toBeCloseTo(1, 6);
    });
  });

  test('a limit that no mix could follow says so, and one that is not reached has none', () => {
    both((solver) => {
      const mix = cheapestMix(
        [candidate('a', 1), candidate('b', 2)],
        [need('x', [0.01, 0.02], 0.02), need('y', [1, 1], undefined, 5)],
        solver,
      );
      expect(mix.needs.map(({ limit, worth }) => [limit, worth])).toEqual([
        ['lowest', null],
        [undefined, undefined],
      ]);
    });
  });

  test('an ingredient with a highest of 0 stays out and has no price at which it enters', () => {
    both((solver) => {
      const mix = mixOf(limited([{}, { highest: 0 }]), solver);
      expect(mix.ingredients[1]).toMatchObject({ level: 0, limit: 'highest', entersAt: undefined });
    });
  });

  test('an ingredient that no mix has room for never enters', () => {
    both((solver) => {
      const mix = cheapestMix(
        [candidate('a', 1), candidate('b', 2)],
        [need('x', [0, 1], undefined, 0)],
        solver,
      );
      expect(mix.ingredients[1]!.entersAt).toBeNull();
    });
  });
});

describe('needs that cannot be met name a smallest set of limits that clash', () => {
  const limit = (name: string, end: NamedLimit['end'], at: number): NamedLimit => ({ name, end, at });
  const expectClash = (
    candidates: readonly Candidate[],
    needs: readonly Need[],
    ...limits: NamedLimit[]
  ): void =>
    both((solver) =>
      expectFault(() => cheapestMix(candidates, needs, solver), ['needs', 'clash', { limits }]),
    );

  test('one limit beyond every ingredient', () => {
    expectClash(WOOD, needsOf(0.05, 20, 0.5), limit('nitrogen', 'lowest', 0.05));
  });

  test('two needs that exclude each other, and nothing else', () => {
    const needs = [...needsOf(0.015, 60, 0.5), need('ash', [0.01, 0.01, 0.06, 0.05, 0.03], undefined, 0.2)];
    expectClash(WOOD, needs, limit('nitrogen', 'lowest', 0.015), limit('C:N', 'lowest', 60));
  });

  test('a need and the limit of an ingredient', () => {
    const capped = WOOD.map((one, i) => ({ ...one, highest: i === 0 || i === 1 ? 1 : 0.1 }));
    expectClash(
      capped,
      [need('nitrogen', NITROGEN, 0.012)],
      limit('nitrogen', 'lowest', 0.012),
      ...['wheat bran', 'soy hulls', 'millet'].map((name) => limit(name, 'highest', 0.1)),
    );
  });

  test('five limits that clash only together, and no need that can be met', () => {
    const capped = WOOD.map((one) => ({ ...one, highest: 0.15 }));
    const limits = capped.map(({ name }) => limit(name, 'highest', 0.15));
    expectClash(capped, [need('nitrogen', NITROGEN, 0.002)], ...limits);
  });

  test('limits of ingredients that add up to too little', () => {
    const [oak, beech] = WOOD;
    expectClash(
      [
        { ...oak!, highest: 0.4 },
        { ...beech!, highest: 0.5 },
      ],
      [],
      limit('oak sawdust', 'highest', 0.4),
      limit('beech chip', 'highest', 0.5),
    );
  });
});

describe('what no blend can be made of is refused', () => {
  test.each<[Candidate[], Need[], Refusal]>([
    [[], [], ['ingredients', 'noIngredient']],
    [[candidate('a', -1)], [], ['ingredients, cost', 'outside', { from: 0, to: 1e9, given: -1 }]],
    [
      [candidate('a', 1, { moisture: 1 })],
      [],
      ['ingredients, moisture', 'outside', { from: 0, to: 0.999, given: 1 }],
    ],
    [
      [candidate('a', 1, { lowest: 0.6, highest: 0.5, at: 2 })],
      [],
      ['ingredients, highest', 'outside', { from: 0.6, what: 'the lowest', given: 0.5 }, { at: 2 }],
    ],
    [[candidate('a', 1)], [{ ...need('x', [1]), at: 3 }], ['needs', 'noLimit', {}, { at: 3 }]],
    [
      [candidate('a', 1)],
      [need('x', [1], 2, 1)],
      ['needs, highest', 'outside', { from: 2, what: 'the lowest', given: 1 }],
    ],
    [
      [candidate('a', 1)],
      [need('moisture', 'moisture', undefined, 60)],
      ['needs, moisture', 'outside', { from: 0, below: 1, given: 60 }],
    ],
    [
      [candidate('a', 1)],
      [need('x', [NaN], 1)],
      ['ingredients', 'outside', { from: 0, to: 1e9, given: NaN }],
    ],
  ])('refuses %#', (candidates, needs, refusal) => {
    both((solver) => expectFault(() => cheapestMix(candidates, needs, solver), refusal));
  });
});

test('without a solver the fault says what is missing', () => {
  expectFault(
    () => cheapestMix(WOOD, needsOf(0.008, 20, 0.5), null),
    ['needs', 'noSolver', { what: 'the cheapest mix' }],
  );
});
