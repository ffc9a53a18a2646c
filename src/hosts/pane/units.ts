import { KILOGRAMS_A_POUND, METRES_A_FOOT, PASCALS_A_PSI } from '../../worksheet/constants';
import type { Cell } from '../../worksheet/cells/cell';
import type { Kind } from '../../worksheet/cells/kinds';
import type { DescribedFunction, Example, ExampleArgument } from '../../worksheet/words';

/** The units in which the examples are shown. The functions themselves take any unit of mass. */
export type Units = 'metric' | 'us';

const threeFigures = (number: number): number => Number(number.toPrecision(3));
const pounds = (kilograms: number): number => threeFigures(kilograms / KILOGRAMS_A_POUND);
const degrees = (celsius: number): number => Number((celsius * 1.8 + 32).toFixed(2));
const feet = (metres: number): number => Math.round(metres / METRES_A_FOOT);
const cubicFeet = (cubicMetres: number): number => threeFigures(cubicMetres / METRES_A_FOOT ** 3);
const psi = (bars: number): number => threeFigures((bars * 1e5) / PASCALS_A_PSI);

/** What US units make of a figure of each kind where a function has been told that it is given them. */
const WHERE_TOLD: Readonly<Record<string, (number: number) => number>> = {
  temperature: degrees,
  degrees: (celsius) => Number((celsius * 1.8).toFixed(2)),
  altitude: feet,
  airflow: cubicFeet,
  pressure: psi,
};

const US_CHOICES: readonly string[] = ['F', 'US'];

/** Where a function is told the unit of its figures, and what tells it that they are in US units. */
function toldAt(f: DescribedFunction): { readonly at: number; readonly us: string } | undefined {
  for (const [at, argument] of f.arguments.entries()) {
    if (argument.shape === 'table') continue;
    const us = Object.keys(argument.kind.choices ?? {}).find((choice) => US_CHOICES.includes(choice));
    if (us !== undefined) return { at, us };
  }
  return undefined;
}

/** Whether an example's figures can be shown in US units by telling the function so: it says nothing of units yet. */
const canBeTold = (f: DescribedFunction, example: Example): boolean => {
  const told = toldAt(f);
  return told !== undefined && (example.arguments[told.at] ?? null) === null;
};

/** An example's arguments, the one that tells of US units set where it can be. */
export function argumentsInUnits(
  f: DescribedFunction,
  example: Example,
  units: Units,
): readonly ExampleArgument[] {
  if (units === 'metric' || !canBeTold(f, example)) return example.arguments;
  const { at, us } = toldAt(f)!;
  return Array.from({ length: Math.max(at + 1, example.arguments.length) }, (_, i) =>
    i === at ? us : (example.arguments[i] ?? null),
  );
}

/**
 * How a cell of an example's argument reads in the units chosen: a mass in kilograms becomes pounds, and where the
 * function can be told of US units the figures that it takes in them are turned too.
 */
export function cellInUnits(
  f: DescribedFunction,
  example: Example,
  units: Units,
): (cell: Cell, kind: Kind<unknown>) => Cell {
  const isTold = canBeTold(f, example);
  return (cell, kind) => {
    if (units === 'metric' || typeof cell !== 'number') return cell;
    if (kind.word === 'mass') return pounds(cell);
    return isTold ? (WHERE_TOLD[kind.word]?.(cell) ?? cell) : cell;
  };
}

const FIGURE = String.raw`(\d[\d,]*(?:\.\d+)?)`;
const figure = (words: string): number => Number(words.replaceAll(',', ''));
const withCommas = (number: number): string => number.toLocaleString('en-US');

/** Words of an example's title that turn with its figures: `from 100 to 121.1 °C` becomes `from 212 to 249.98 °F`. */
const TOLD_WORDS: readonly (readonly [RegExp, (number: number) => number, string])[] = [
  [new RegExp(`${FIGURE} °C`, 'g'), degrees, ' °F'],
  [new RegExp(`${FIGURE} m(?![\\w³²])`, 'g'), feet, ' ft'],
  [new RegExp(`${FIGURE} m³/h`, 'g'), cubicFeet, ' ft³/h'],
  [new RegExp(`${FIGURE} bar\\b`, 'g'), psi, ' psi'],
];

/** An example's title in the units chosen: `4.5 kg` becomes `9.92 lb`. */
export function titleInUnits(f: DescribedFunction, example: Example, units: Units): string {
  const { title } = example;
  if (units === 'metric') return title;
  const inPounds = title.replace(
    new RegExp(`${FIGURE} kg\\b`, 'g'),
    (_, n: string) => `${pounds(figure(n))} lb`,
  );
  if (!canBeTold(f, example)) return inPounds;
  // The first of two temperatures has its unit behind the second.
  const spelled = inPounds.replace(new RegExp(`${FIGURE} to ${FIGURE} °C`, 'g'), '$1 °C to $2 °C');
  return TOLD_WORDS.reduce(
    (words, [pattern, turned, unit]) =>
      words.replace(pattern, (_, n: string) => `${withCommas(turned(figure(n)))}${unit}`),
    spelled,
  ).replace(/\bin bar\b/, 'in psi');
}
