import { catalogue } from '../../src/worksheet/catalogue';
import { compare, type Measurement } from './measure';

// A core logger of 100,000 readings in one call, against the same integral in a plain loop over numbers that were
// read and checked beforehand.

const READINGS = 100_000;

export function measurements(): Measurement[] {
  const lethality = catalogue.find(({ name }) => name === 'LETHALITY')!;
  const times = Array.from({ length: READINGS }, (_, i) => [i / 60]);
  const core = Array.from({ length: READINGS }, (_, i) => [105 + 16 * Math.sin(i / 9000)]);
  const minutes = Float64Array.from(times, ([minute]) => minute!);
  const celsius = Float64Array.from(core, ([reading]) => reading!);
  return [
    compare(
      'LETHALITY, a log of 100,000 readings in one call',
      () => lethality.evaluate([times, core]),
      'plain loop over prepared numbers',
      () => {
        let [total, before] = [0, 10 ** ((celsius[0]! - 121.1) / 10)];
        for (let i = 1; i < READINGS; i++) {
          const rate = 10 ** ((celsius[i]! - 121.1) / 10);
          const logarithm = (Math.LN10 / 10) * (celsius[i]! - celsius[i - 1]!);
          total += (logarithm === 0 ? rate : (rate - before) / logarithm) * (minutes[i]! - minutes[i - 1]!);
          before = rate;
        }
        return total;
      },
      6,
    ),
  ];
}
