import { beforeAll, describe, expect, test } from '@jest/globals';
import { described } from '../../../src/worksheet/described';
import type { Example, DescribedFunction } from '../../../src/worksheet/words';
import { exampleCells } from '../../../src/hosts/pane/guide';
import { evaluate, prepared } from '../../worksheet/prepared';
import { titleInUnits } from '../../../src/hosts/pane/units';

const functionOf = (name: string): DescribedFunction => described.find((f) => f.name === name)!;
const cells = (name: string, position = 0): unknown[] => {
  const f = functionOf(name);
  return exampleCells(f, f.examples[position]!, 'us').map((grid) => grid.map((row) => [...row]));
};
const titled = (name: string, title: string): string =>
  titleInUnits(functionOf(name), { ...functionOf(name).examples[0]!, title }, 'us');

// A pound is 0.45359237 kg and a foot 0.3048 m exactly (international yard and pound agreement, 1959).
describe('an example in US units', () => {
  test('has its masses in pounds', () => {
    expect(titled('BIOEFFICIENCY', 'One block of 4.5 kg gave 1.2 kg')).toBe(
      'One block of 9.92 lb gave 2.65 lb',
    );
    expect(cells('BIOEFFICIENCY')).toContainEqual([[9.92]]);
  });

  test('has degrees Fahrenheit and feet where the function can be told so, and tells it', () => {
    expect(cells('DEWPOINT')).toEqual([[[60.8], [64.4]], [[0.85], [0.92]], [[null]], [['F']]]);
    expect(cells('BOILINGPOINT')).toEqual([[[0], [4921]], [['US']]]);
    expect(cells('STEAMTEMP')).toEqual([[[14.5], [14.5]], [[0], [4921]], [['US']]]);
    // 500 m³ an hour are 500 ÷ 0.0283168 cubic feet an hour.
    expect(cells('FOGWATER')[0]).toEqual([[17700]]);
  });

  test('has its z value in degrees Fahrenheit: 10 °C of difference are 18 °F, not 50', () => {
    expect(cells('LETHALITY')).toEqual([[[0], [15]], [[231.8], [231.8]], [[18]], [[249.8]], [['F']]]);
  });

  test('turns the temperatures of tables too, which the same unit rules', () => {
    const [headers, row] = cells('READYFROMLOG')[2] as readonly (readonly unknown[])[];
    expect(row![headers!.indexOf('best temp')]).toBe(77);
  });

  test('keeps what it has where it is in US units already, and where it cannot be told', () => {
    expect(cells('STEAMTEMP', 1)).toEqual([[[15], [15]], [[0], [5000]], [['US']]]);
    expect(cells('READYDATE')).not.toContainEqual([['F']]);
  });

  test('says so in its title', () => {
    expect(titled('LETHALITY', 'A come-up from 100 to 121.1 °C in 5 minutes')).toBe(
      'A come-up from 212 °F to 249.98 °F in 5 minutes',
    );
    expect(titled('STEAMPRESSURE', '121.1 °C at sea level and at 1,500 m, in bar')).toBe(
      '249.98 °F at sea level and at 4,921 ft, in psi',
    );
    expect(titled('FOGWATER', '500 m³/h from 5 °C at 80%')).toBe('17,700 ft³/h from 41 °F at 80%');
    expect(titled('READYDATE', 'Ripened at 20 °C, 3 m from the door')).toBe(
      'Ripened at 20 °C, 3 m from the door',
    );
  });
});

/** What the metric answer of each is in US units; the others give the same in both. */
const TURNED: Record<string, (answer: number, column: number) => number> = {
  // Minutes are minutes; the peak is a temperature.
  MINUTESABOVE: (answer, column) => (column === 2 ? answer * 1.8 + 32 : answer),
  STEAMTEMP: (c) => c * 1.8 + 32,
  BOILINGPOINT: (c) => c * 1.8 + 32,
  DEWPOINT: (c) => c * 1.8 + 32,
  WETBULB: (c) => c * 1.8 + 32,
  STEAMPRESSURE: (bar) => bar * 14.503773773,
  FOGWATER: (kg) => kg / 0.45359237,
};

const told = described
  .filter((f) => f.arguments.some(({ name }) => name === 'unit' || name === 'units'))
  .filter((f) => f.name !== 'SPAWNCHAIN')
  .flatMap((f) => f.examples.map((example): [string, DescribedFunction, Example] => [f.name, f, example]))
  .filter(([, f, example]) => {
    const at = f.arguments.findIndex(({ name }) => name === 'unit' || name === 'units');
    return (example.arguments[at] ?? null) === null;
  });

describe.each(told)('%s in US units', (name, f, example) => {
  beforeAll(() => prepared(f));
  test(`gives what it gives in metric units: ${example.title}`, () => {
    const answers = (units: 'metric' | 'us'): unknown[] =>
      evaluate(f, exampleCells(f, example, units)).rows.flat();
    const metric = answers('metric').map((cell, column) =>
      typeof cell === 'number' && TURNED[name] ? TURNED[name](cell, column) : cell,
    );
    const us = answers('us');
    expect(us).toHaveLength(metric.length);
    us.forEach((cell, i) => {
      const expected = metric[i];
      // Figures in US units are rounded, to three figures at the coarsest.
      const agrees =
        typeof cell === 'number' && typeof expected === 'number'
          ? Math.abs(cell - expected) <= 0.01 * Math.abs(expected)
          : cell === expected;
      expect([cell, expected, agrees]).toEqual([cell, expected, true]);
    });
  });
});
