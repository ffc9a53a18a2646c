import type { BuiltIn } from '../builtIn';
import { DIVIDED_BY_ZERO, isError, NUM, VALUE, type Scalar, type Value } from '../values';
import { define, numeric, type Given } from './define';
import { numbersIn, numbersOf, sumOf } from './numbers';

// Money over time. Definitions: ISO/IEC 29500-1:2016, 18.17.7; the annuity equation is that of PV there.

/** What one paid each period comes to after so many, and what one kept comes to. */
const growth = (rate: number, periods: number): number => (1 + rate) ** periods;
const annuity = (rate: number, periods: number, atStart: number): number =>
  rate === 0 ? periods : ((growth(rate, periods) - 1) / rate) * (1 + rate * atStart);

const atStartOf = (type = 0): number => (type === 0 ? 0 : 1);

const payment = (rate: number, periods: number, present: number, future = 0, type = 0): Scalar =>
  periods === 0 ? NUM : -(present * growth(rate, periods) + future) / annuity(rate, periods, atStartOf(type));

const futureValue = (rate: number, periods: number, paid = 0, present = 0, type = 0): number =>
  0 - present * growth(rate, periods) - paid * annuity(rate, periods, atStartOf(type));

const presentValue = (rate: number, periods: number, paid = 0, future = 0, type = 0): number =>
  -(future + paid * annuity(rate, periods, atStartOf(type))) / growth(rate, periods);

const periodCount = (rate: number, paid: number, present: number, future = 0, type = 0): Scalar => {
  if (rate === 0) return paid === 0 ? NUM : -(present + future) / paid;
  const each = paid * (1 + rate * atStartOf(type));
  const ratio = (each - future * rate) / (each + present * rate);
  return ratio <= 0 || rate <= -1 ? NUM : Math.log(ratio) / Math.log1p(rate);
};

/** Interest of one period; the rest of the payment pays back. */
function interest(
  rate: number,
  period: number,
  periods: number,
  present: number,
  future = 0,
  type = 0,
): Scalar {
  if (period < 1 || period >= periods + 1) return NUM;
  const paid = payment(rate, periods, present, future, type);
  if (typeof paid !== 'number') return paid;
  if (atStartOf(type) === 1 && period === 1) return 0;
  const before = futureValue(rate, period - 1, paid, present, type);
  return (before * rate) / (1 + rate * atStartOf(type));
}

const repayment = (
  rate: number,
  period: number,
  periods: number,
  ...rest: [number, number?, number?]
): Scalar => {
  const [paid, part] = [payment(rate, periods, ...rest), interest(rate, period, periods, ...rest)];
  return typeof paid === 'number' && typeof part === 'number' ? paid - part : isError(part) ? part : NUM;
};

const cumulated =
  (of: typeof interest) =>
  (rate: number, periods: number, present: number, first: number, last: number, type: number): Scalar => {
    const [from, to] = [Math.ceil(first), Math.floor(last)];
    if (rate <= 0 || periods <= 0 || present <= 0 || from < 1 || to < from || to > periods) return NUM;
    if (type !== 0 && type !== 1) return NUM;
    let sum = 0;
    for (let period = from; period <= to; period++) {
      const part = of(rate, period, periods, present, 0, type);
      if (typeof part !== 'number') return part;
      sum += part;
    }
    return sum;
  };

/**
 * A rate at which `worth` is nothing: Newton's method from the guess, then halving between two signs around it.
 * @throws ErrorValue #NUM! where none is found
 */
function rateWhere(worth: (rate: number) => number, guess: number): number {
  let rate = guess;
  for (let n = 0; n < 100; n++) {
    const value = worth(rate);
    if (value === 0) return rate;
    const width = Math.max(1e-7, Math.abs(rate) * 1e-7);
    const slope = (worth(rate + width) - worth(rate - width)) / (2 * width);
    const next = rate - value / slope;
    if (!Number.isFinite(next) || next <= -1) break;
    if (Math.abs(next - rate) <= 1e-15 * Math.max(1, Math.abs(next))) return next;
    if (n > 20 && Math.abs(next - rate) <= 1e-13 * Math.max(1, Math.abs(next))) return next;
    rate = next;
  }
  return halved(worth);
}

const RATES = [-0.9999, -0.9, -0.5, -0.2, 0, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 100, 1000];

function halved(worth: (rate: number) => number): number {
  const spans = RATES.slice(1).map((to, at) => [RATES[at]!, to] as const);
  const exact = RATES.filter((rate) => worth(rate) === 0);
  if (exact.length === 1) return exact[0]!;
  const crossing = spans.filter(([from, to]) => worth(from) * worth(to) < 0);
  // Several rates would do: which one a sheet finds cannot be told.
  if (crossing.length !== 1) throw NUM;
  let [from, to] = crossing[0]!;
  for (let n = 0; n < 200; n++) {
    const middle = (from + to) / 2;
    if (worth(from) * worth(middle) <= 0) to = middle;
    else from = middle;
  }
  return (from + to) / 2;
}

const rate = (periods: number, paid: number, present: number, future = 0, type = 0, guess = 0.1): Scalar =>
  periods <= 0 ? NUM : rateWhere((one) => futureValue(one, periods, paid, present, type) - future, guess);

const worthOf = (rate: number, flows: readonly number[], first: number): number =>
  sumOf(flows.map((flow, at) => flow / growth(rate, at + first)));

/** Money must go both out and in. */
const hasBothSigns = (flows: readonly number[]): boolean =>
  flows.some((one) => one > 0) && flows.some((one) => one < 0);

const internalRate = (given: Given): Value => {
  const flows = numbersIn(given.context, [given.all[0]]);
  if (!hasBothSigns(flows)) return NUM;
  return rateWhere((one) => worthOf(one, flows, 0), given.has(1) ? given.number(1) : 0.1);
};

const modifiedRate = (given: Given): Value => {
  const flows = numbersIn(given.context, [given.all[0]]);
  if (!flows.some((flow) => flow < 0)) return DIVIDED_BY_ZERO;
  const [paid, earned] = [given.number(1), given.number(2)];
  const n = flows.length;
  const out = sumOf(flows.map((flow, at) => (flow < 0 ? flow / growth(paid, at) : 0)));
  const into = sumOf(flows.map((flow, at) => (flow > 0 ? flow * growth(earned, n - 1 - at) : 0)));
  return (into / -out) ** (1 / (n - 1)) - 1;
};

/** Flows and their days, in years from the first. @throws ErrorValue */
function datedFlows(given: Given, at: number): { flows: number[]; years: number[] } {
  const [flows, days] = [numbersOf(given.list(at)), numbersOf(given.list(at + 1)).map(Math.floor)];
  if (flows.length !== days.length || flows.length === 0) throw NUM;
  if (days.some((day) => day < days[0]!)) throw NUM;
  return { flows, years: days.map((day) => (day - days[0]!) / 365) };
}

const datedWorth = (rate: number, { flows, years }: { flows: number[]; years: number[] }): number =>
  sumOf(flows.map((flow, at) => flow / growth(rate, years[at]!)));

const datedRate = (given: Given): Value => {
  const dated = datedFlows(given, 0);
  if (!hasBothSigns(dated.flows)) return NUM;
  return rateWhere((one) => datedWorth(one, dated), given.has(2) ? given.number(2) : 0.1);
};

const doubleDeclining = (cost: number, salvage: number, life: number, period: number, factor = 2): Scalar => {
  if (cost < 0 || salvage < 0 || life <= 0 || period < 1 || period > life || factor <= 0) return NUM;
  if (!Number.isInteger(period)) return NUM;
  const share = Math.min(factor / life, 1);
  let left = cost;
  let lost = 0;
  for (let n = 1; n <= period; n++) {
    lost = Math.max(0, Math.min(left * share, left - salvage));
    left -= lost;
  }
  return lost;
};

const fixedDeclining = (cost: number, salvage: number, life: number, period: number, months = 12): Scalar => {
  if (cost < 0 || salvage < 0 || life <= 0 || period < 1 || months < 1 || months > 12) return NUM;
  if (period > life + Number(months < 12)) return NUM;
  if (cost === 0) return 0;
  const share = Math.round((1 - (salvage / cost) ** (1 / life)) * 1000) / 1000;
  let lost = (cost * share * months) / 12;
  let total = lost;
  for (let n = 2; n <= period; n++) {
    lost = n > life ? ((cost - total) * share * (12 - months)) / 12 : (cost - total) * share;
    total += lost;
  }
  return lost;
};

export const money: readonly BuiltIn[] = [
  numeric('PMT', [3, 5], payment),
  numeric('FV', [3, 5], futureValue),
  numeric('PV', [3, 5], presentValue),
  numeric('NPER', [3, 5], periodCount),
  numeric('IPMT', [4, 6], interest),
  numeric('PPMT', [4, 6], repayment),
  numeric('CUMIPMT', [6, 6], cumulated(interest)),
  numeric('CUMPRINC', [6, 6], cumulated(repayment)),
  numeric('RATE', [3, 6], rate),
  define('NPV', [2, 255], 'value range', (given) => {
    const rate = given.number(0);
    if (rate === -1) return DIVIDED_BY_ZERO;
    const flows = numbersIn(given.context, given.all.slice(1));
    return flows.length === 0 ? VALUE : worthOf(rate, flows, 1);
  }),
  define('IRR', [1, 2], 'range value', internalRate),
  define('MIRR', [3, 3], 'range value value', modifiedRate),
  define('XNPV', [3, 3], 'value block block', (given) => {
    const rate = given.number(0);
    return rate <= -1 ? NUM : datedWorth(rate, datedFlows(given, 1));
  }),
  define('XIRR', [2, 3], 'block block value', datedRate),
  numeric('SLN', [3, 3], (cost, salvage, life) => (life === 0 ? DIVIDED_BY_ZERO : (cost - salvage) / life)),
  numeric('SYD', [4, 4], (cost, salvage, life, period) =>
    life <= 0 || period < 1 || period > life || salvage < 0
      ? NUM
      : ((cost - salvage) * (life - period + 1) * 2) / (life * (life + 1)),
  ),
  numeric('DDB', [4, 5], doubleDeclining),
  numeric('DB', [4, 5], fixedDeclining),
  numeric('EFFECT', [2, 2], (nominal, times) =>
    nominal <= 0 || times < 1 ? NUM : growth(nominal / Math.trunc(times), Math.trunc(times)) - 1,
  ),
  numeric('NOMINAL', [2, 2], (effective, times) =>
    effective <= 0 || times < 1 ? NUM : Math.trunc(times) * (growth(effective, 1 / Math.trunc(times)) - 1),
  ),
  numeric('RRI', [3, 3], (periods, from, to) =>
    periods <= 0 || from === 0 || to / from < 0 ? NUM : (to / from) ** (1 / periods) - 1,
  ),
  numeric('PDURATION', [3, 3], (rate, from, to) =>
    rate <= 0 || from <= 0 || to <= 0 ? NUM : Math.log(to / from) / Math.log1p(rate),
  ),
  numeric('ISPMT', [4, 4], (rate, period, periods, present) =>
    periods === 0 ? DIVIDED_BY_ZERO : -present * rate * (1 - period / periods),
  ),
];
