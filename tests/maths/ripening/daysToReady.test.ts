import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { normalQuantile } from '../../../src/maths/loading/fates';
import { daysBy, daysSpread, waitingCurve, type Waits } from '../../../src/maths/ripening/daysToReady';
import { standardDeviation } from '../../../src/maths/shared/statistics';
import { expectFault } from '../expectFault';

interface Lot {
  readonly days: number;
  readonly isReady: boolean;
}

const waitsOf = (lots: readonly Lot[]): Waits => ({
  ready: lots.filter(({ isReady }) => isReady).map(({ days }) => days),
  waiting: lots.filter(({ isReady }) => !isReady).map(({ days }) => days),
});

/** `6 6+`: ready at 6; still waiting at 6. */
function waits(text: string): Waits {
  return waitsOf(
    text.split(' ').map((one) => ({ days: Number.parseFloat(one), isReady: !one.endsWith('+') })),
  );
}

// Weeks in remission, + still in remission: Freireich, E. J. et al. (1963) Blood 21:699–716, as listed by Gehan (1965)
// Biometrika 52:203–223.
const SIX_MP = waits('6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+');
const CONTROL = waits('1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23');
// Weeks to relapse of acute myelogenous leukaemia: Miller, R. G. (1981) Survival Analysis, p. 49.
const AML_MAINTAINED = waits('9 13 13+ 18 23 28+ 31 34 45+ 48 161+');
const AML_NOT = waits('5 5 8 8 12 16+ 23 27 30 33 43 45');

describe('waitingCurve(waits) is the Kaplan–Meier estimate with Greenwood’s error', () => {
  // The 6-MP arm is the worked example of most textbooks, among them Le, C. T. (2003) Introductory Biostatistics,
  // example 11.1 and table 11.1, and Kleinbaum & Klein, Survival Analysis, ch. 2. Survival and error as printed by SAS
  // PROC LIFETEST (0.8571/0.0764, 0.8067/0.0869, 0.7529/0.0963, …): half a unit of the fourth decimal.
  test('reproduces the 6-MP arm of Freireich (1963) to its printed digits', () => {
    const printed = [
      [6, 21, 3, 0.8571, 0.0764],
      [7, 17, 1, 0.8067, 0.0869],
      [10, 15, 1, 0.7529, 0.0963],
      [13, 12, 1, 0.6902, 0.1068],
      [16, 11, 1, 0.6275, 0.1141],
      [22, 7, 1, 0.5378, 0.1282],
      [23, 6, 1, 0.4482, 0.1346],
    ];
    const curve = waitingCurve(SIX_MP);
    expect(curve.map(({ days, atRisk, ready }) => [days, atRisk, ready])).toEqual(
      printed.map((row) => row.slice(0, 3)),
    );
    curve.forEach(({ waiting, standardError }, i) => {
      expect(waiting).toBeCloseTo(printed[i]![3]!, 4);
      expect(standardError).toBeCloseTo(printed[i]![4]!, 4);
    });
  });

  // R 4.2.2, package survival 3.5-3: summary(survfit(…, conf.type = "log-log")).
  test.each([
    {
      data: '6-MP',
      lots: SIX_MP,
      rows: [
        [6, 0.857143, 0.0763604, 0.619718, 0.951552],
        [13, 0.690196, 0.1068147, 0.43161, 0.849066],
        [23, 0.448179, 0.1345915, 0.188052, 0.680143],
      ],
    },
    {
      data: 'AML, maintained',
      lots: AML_MAINTAINED,
      rows: [
        [9, 0.909091, 0.0866784, 0.5080802, 0.986674],
        [31, 0.490909, 0.1641933, 0.1673309, 0.7534],
        [48, 0.184091, 0.1534927, 0.0117385, 0.525015],
      ],
    },
    {
      data: 'AML, not maintained',
      lots: AML_NOT,
      rows: [
        [5, 0.8333333, 0.1075829, 0.48171494, 0.955509],
        [43, 0.0972222, 0.0918664, 0.00574631, 0.348904],
      ],
    },
  ])('agrees with R on $data', ({ lots, rows }) => {
    const curve = waitingCurve(lots);
    for (const [days, waiting, error, low, high] of rows) {
      const step = curve.find((one) => one.days === days)!;
      expect(step.waiting).toBeCloseTo(waiting!, 6);
      expect(step.standardError).toBeCloseTo(error!, 6);
      expect(step.band!.low).toBeCloseTo(low!, 6);
      expect(step.band!.high).toBeCloseTo(high!, 6);
    }
  });

  const someWaits = fc.array(fc.record({ days: fc.integer({ min: 1, max: 40 }), isReady: fc.boolean() }), {
    minLength: 1,
    maxLength: 60,
  });

  test('never rises, ends at 0 only where nobody waits longer, and ignores the order of lots', () => {
    fc.assert(
      fc.property(someWaits, (lots) => {
        const curve = waitingCurve(waitsOf(lots));
        curve.forEach(({ waiting }, i) => {
          expect(waiting).toBeLessThan(curve[i - 1]?.waiting ?? 1);
          expect(waiting).toBeGreaterThanOrEqual(0);
        });
        const longest = Math.max(...lots.map(({ days }) => days));
        const allReadyAtLast = lots.every(({ days, isReady }) => days < longest || isReady);
        expect((curve.at(-1)?.waiting ?? 1) === 0).toBe(allReadyAtLast);
        expect(waitingCurve(waitsOf([...lots].reverse()))).toEqual(curve);
      }),
    );
  });

  // An independent method: Efron's redistribution to the right. Each lot starts with mass 1/n; a waiting lot's mass
  // is shared out over all longer ones (Efron, B. (1967) The two sample problem with censored data).
  test('agrees with redistributing the mass of waiting lots to the right', () => {
    fc.assert(
      fc.property(someWaits, (lots) => {
        const sorted = [...lots].sort((a, b) => a.days - b.days || Number(b.isReady) - Number(a.isReady));
        const mass = sorted.map(() => 1 / sorted.length);
        const readyMass = new Map<number, number>();
        sorted.forEach(({ days, isReady }, i) => {
          if (isReady) {
            readyMass.set(days, (readyMass.get(days) ?? 0) + mass[i]!);
          } else {
            const later = sorted.length - i - 1;
            for (let j = i + 1; j < sorted.length; j++) mass[j]! += mass[i]! / later;
          }
        });
        let waiting = 1;
        for (const step of waitingCurve(waitsOf(lots))) {
          waiting -= readyMass.get(step.days)!;
          expect(step.waiting).toBeCloseTo(waiting, 10);
        }
      }),
    );
  });

  test('without waiting lots is the plain share, with the binomial error', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 2, maxLength: 50 }), (days) => {
        for (const step of waitingCurve({ ready: days, waiting: [] })) {
          const share = days.filter((one) => one > step.days).length / days.length;
          expect(step.waiting).toBeCloseTo(share, 12);
          expect(step.standardError).toBeCloseTo(Math.sqrt((share * (1 - share)) / days.length), 10);
        }
      }),
    );
  });

  test.each([-1, NaN, Infinity])('refuses %p days', (days) => {
    const details = { from: 0, given: days };
    expectFault(
      () => waitingCurve({ ready: [3, days], waiting: [] }),
      ['ready', 'outside', details, { index: 1 }],
    );
    expectFault(
      () => waitingCurve({ ready: [], waiting: [days] }),
      ['waiting', 'outside', details, { index: 0 }],
    );
  });
});

describe('daysBy(share, curve) reads off days and their 95% interval', () => {
  // R 4.2.2, package survival 3.5-3: quantile(survfit(…, conf.type = "log-log"), c(.1, .5, .9)); NA is undefined.
  test.each([
    { data: '6-MP', lots: SIX_MP, share: 0.1, gives: [6, 6, 10] },
    { data: '6-MP', lots: SIX_MP, share: 0.5, gives: [23, 13, undefined] },
    { data: '6-MP', lots: SIX_MP, share: 0.9, gives: [undefined, undefined, undefined] },
    { data: 'control', lots: CONTROL, share: 0.1, gives: [2, 1, 3] },
    { data: 'control', lots: CONTROL, share: 0.5, gives: [8, 4, 11] },
    { data: 'control', lots: CONTROL, share: 0.9, gives: [17, 12, undefined] },
    { data: 'AML, maintained', lots: AML_MAINTAINED, share: 0.1, gives: [13, 9, 18] },
    { data: 'AML, maintained', lots: AML_MAINTAINED, share: 0.5, gives: [31, 13, undefined] },
    { data: 'AML, maintained', lots: AML_MAINTAINED, share: 0.9, gives: [undefined, 34, undefined] },
    { data: 'AML, not maintained', lots: AML_NOT, share: 0.5, gives: [23, 5, 33] },
    { data: 'AML, not maintained', lots: AML_NOT, share: 0.9, gives: [43, 30, undefined] },
    { data: 'half exactly, from 7 to 9', lots: waits('5 7 9 11'), share: 0.5, gives: [8, 5, undefined] },
    {
      data: 'half exactly, from 9 to 13',
      lots: waits('5 7 9 11+ 13 14'),
      share: 0.5,
      gives: [11, 5, undefined],
    },
    { data: 'one lot', lots: waits('9'), share: 0.5, gives: [9, undefined, undefined] },
    { data: 'all waiting', lots: waits('9+ 10+ 13+'), share: 0.5, gives: [undefined, undefined, undefined] },
  ])('$data, share $share: $gives', ({ lots, share, gives }) => {
    const { days, from, to } = daysBy(share, waitingCurve(lots));
    expect([days, from, to]).toEqual(gives);
  });

  test('without waiting lots the median is the ordinary median', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 99 }), { minLength: 1, maxLength: 40 }), (days) => {
        const sorted = [...days].sort((a, b) => a - b);
        const [low, high] = [sorted[(days.length - 1) >> 1]!, sorted[days.length >> 1]!];
        const curve = waitingCurve({ ready: days, waiting: [] });
        expect(daysBy(0.5, curve).days).toBeCloseTo((low + high) / 2, 9);
      }),
    );
  });

  test('a lot that waits longer never brings the median forward', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ days: fc.integer({ min: 1, max: 40 }), isReady: fc.boolean() }), {
          minLength: 1,
          maxLength: 30,
        }),
        (lots) => {
          const median = (some: readonly Lot[]): number =>
            daysBy(0.5, waitingCurve(waitsOf(some))).days ?? Infinity;
          expect(median([...lots, { days: 41, isReady: false }])).toBeGreaterThanOrEqual(median(lots));
        },
      ),
    );
  });

  test.each([0, 1, NaN])('refuses a share of %p', (share) => {
    expectFault(() => daysBy(share, []), ['share', 'outside', { above: 0, below: 1, given: share }]);
  });
});

describe('daysSpread(curve) is the standard deviation between lots', () => {
  test('without waiting lots it is that of the sample', () => {
    expect(daysSpread(waitingCurve(CONTROL))).toBeCloseTo(standardDeviation(CONTROL.ready), 12);
  });

  test('lots that wait less long than the rest widen nothing: a normal sample of which a fifth waits keeps its spread', () => {
    // 99 points of the normal distribution with mean 70 and standard deviation 5, every fifth one watched for half its time.
    const days = Array.from({ length: 99 }, (_, n) => 70 + 5 * normalQuantile((n + 1) / 100));
    const lots = days.map((one, n) => ({ days: n % 5 === 0 ? one / 2 : one, isReady: n % 5 !== 0 }));
    expect(daysSpread(waitingCurve(waitsOf(lots)))).toBeGreaterThan(4.5);
    expect(daysSpread(waitingCurve(waitsOf(lots)))).toBeLessThan(5.5);
  });

  test('where the longest still waits it is told from the points at 10% and 90%', () => {
    const days = Array.from({ length: 99 }, (_, n) => 70 + 5 * normalQuantile((n + 1) / 100));
    const lots = days.map((one, n) => ({ days: one, isReady: n < 94 }));
    expect(daysSpread(waitingCurve(waitsOf(lots)))).toBeCloseTo(5, 1);
  });

  test('nothing is told of one ready lot, or where too many wait', () => {
    expect(daysSpread(waitingCurve(waits('70 60+')))).toBeUndefined();
    expect(daysSpread(waitingCurve(SIX_MP))).toBeUndefined();
  });
});
