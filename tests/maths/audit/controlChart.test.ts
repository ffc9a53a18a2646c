import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  individualsChart,
  movingRangeChart,
  proportionsChart,
  type Sample,
} from '../../../src/maths/audit/controlChart';
import { expectFault, type Refusal } from '../expectFault';

// NIST/SEMATECH e-Handbook 6.3.2.2, flow rate of ten batches
const FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
// NIST/SEMATECH e-Handbook 6.3.3.2, defective chips on 30 wafers of 50 (counts from memory; their sum of 347 gives the
// published mean of 0.2313)
const WAFERS = [
  12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6,
];

describe('individualsChart(values) gives centre, limits and broken run rules', () => {
  test('has the limits published for the flow rates', () => {
    for (const point of individualsChart(FLOW)) {
      expect(point.centre).toBeCloseTo(50.81, 10);
      expect(point.high).toBeCloseTo(55.8041, 4);
      expect(point.low).toBeCloseTo(45.8159, 4);
    }
  });

  test('finds no flow rate beyond the limits, as published', () => {
    expect(individualsChart(FLOW).flatMap(({ broken }) => broken)).toEqual([]);
  });

  // Values chosen so that the rule can be read off by hand: a moving range of 2 between neighbours makes sigma about
  // 1.8 before the run begins.
  const calm = [9, 11, 9, 11, 9, 11, 9, 11, 9, 11];
  test.each([
    ['one point far up', [...calm, 30], 10, 'above +3 sigma'],
    ['one point far down', [...calm, -10], 10, 'below -3 sigma'],
    [
      'two of three well up',
      [...calm, ...calm, 14.5, 10.1, 14.5],
      22,
      '2 of the last 3 points above +2 sigma',
    ],
    [
      'four of five up',
      [...calm, ...calm, ...calm, 13, 13, 13, 9.9, 13],
      34,
      '4 of the last 5 points above +1 sigma',
    ],
    [
      'eight on one side from the first',
      [...Array<number>(8).fill(10.6), ...calm],
      7,
      '8 consecutive points above the centre',
    ],
    [
      'eight on one side',
      [...calm, ...calm, 9.4, 9.4, 9.4, 9.4, 9.4, 9.4, 9.4, 9.4],
      27,
      '8 consecutive points below the centre',
    ],
  ])('names the run rule of %s', (_what, values, at, rule) => {
    expect(individualsChart(values)[at]!.broken).toContain(rule);
  });

  // Seven readings above, one on the centre and seven below: by hand, no run is eight long.
  test('a point on the centre line ends a run, though the mean is off by its last bit', () => {
    const broken = Array.from({ length: 400 }, (_, i) => {
      const [centre, apart] = [(i % 20) / 10 + 0.1, Math.floor(i / 20) / 100 + 0.01];
      const readings = [
        ...Array<number>(7).fill(centre + apart),
        centre,
        ...Array<number>(7).fill(centre - apart),
      ];
      return individualsChart(readings).flatMap((point) => point.broken);
    });
    expect(broken.flat().filter((rule) => rule.startsWith('8 consecutive'))).toEqual([]);
  });

  test('equal values break no rule and have limits without width', () => {
    const points = individualsChart([5, 5, 5, 5, 5, 5, 5, 5, 5]);
    expect(points.flatMap(({ broken }) => broken)).toEqual([]);
    expect(points[0]).toMatchObject({ centre: 5, low: 5, high: 5 });
  });

  test('turns over when the values do', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 2, maxLength: 60 }), (values) => {
        const up = individualsChart(values).map(({ broken }) => broken.length);
        const down = individualsChart(values.map((value) => -value)).map(({ broken }) => broken.length);
        expect(down).toEqual(up);
      }),
    );
  });

  test('refuses fewer than two values', () => {
    const tooFew = (found: number): Refusal => ['values', 'tooFew', { least: 2, things: 'readings', found }];
    expectFault(() => individualsChart([]), tooFew(0));
    expectFault(() => individualsChart([4]), tooFew(1));
    expectFault(() => movingRangeChart([4]), tooFew(1));
  });
});

describe('movingRangeChart(values) gives the chart of neighbours’ distances', () => {
  test('has the published centre and limit of the flow rates', () => {
    const points = movingRangeChart(FLOW);
    expect(points[0]!.plotted).toBeUndefined();
    expect(points[1]!.plotted).toBeCloseTo(2, 12);
    expect(points[1]!.centre).toBeCloseTo(1.8778, 4);
    // 3.267 × 1.8778
    expect(points[1]!.high).toBeCloseTo(6.1347, 4);
  });

  test('marks a jump and nothing else', () => {
    const points = movingRangeChart([10, 11, 10, 11, 10, 11, 10, 30, 31, 30, 31, 30]);
    expect(points.map(({ broken }) => broken.length)).toEqual([0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0]);
  });
});

describe('proportionsChart(samples) gives the chart of shares', () => {
  test('has the published centre, limits and points out of the wafers', () => {
    const points = proportionsChart(WAFERS.map((lost) => ({ lost, size: 50 })));
    expect(points[0]!.centre).toBeCloseTo(0.2313, 4);
    expect(points[0]!.high).toBeCloseTo(0.4102, 4);
    expect(points[0]!.low).toBeCloseTo(0.0524, 4);
    const out = points.flatMap(({ broken }, i) => (broken.includes('above +3 sigma') ? [i + 1] : []));
    expect(out).toEqual([15, 23]);
  });

  // Montgomery, D. C., Runger, G. C., Applied Statistics and Probability for Engineers, table 16-4: 800 of 20 × 100, limits 0.25 and 0.55
  test('has the limits of a textbook example of 20 samples of 100', () => {
    const points = proportionsChart(new Array<Sample>(20).fill({ lost: 40, size: 100 }));
    expect(points[0]!.high).toBeCloseTo(0.55, 2);
    expect(points[0]!.low).toBeCloseTo(0.25, 2);
  });

  test('limits lie within 0 and 1, and none lost anywhere breaks no rule', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 50 }), fc.integer({ min: 50, max: 80 })), {
          minLength: 1,
        }),
        (pairs) => {
          const points = proportionsChart(pairs.map(([lost, size]) => ({ lost, size })));
          expect(
            points.every(({ low, high, centre }) => 0 <= low && low <= centre && centre <= high && high <= 1),
          ).toBe(true);
        },
      ),
    );
    const none = proportionsChart(new Array<Sample>(2).fill({ lost: 0, size: 10 }));
    expect(none.flatMap(({ broken }) => broken)).toEqual([]);
  });

  test.each<[Sample, Refusal]>([
    [
      { lost: 11, size: 10, at: 5 },
      ['values', 'outside', { to: 10, given: 11, what: 'the size of the sample' }, { at: 5 }],
    ],
    [{ lost: 1.5, size: 10 }, ['values', 'outside', { from: 0, whole: true, given: 1.5 }]],
    [{ lost: 0, size: 0, at: 2 }, ['sizes', 'outside', { from: 1, whole: true, given: 0 }, { at: 2 }]],
  ])('refuses %p', (sample, refusal) => {
    expectFault(() => proportionsChart([{ lost: 1, size: 10 }, sample]), refusal);
  });
});
