import { beforeAll, describe, expect, test } from '@jest/globals';
import { blankPlaces, type BlankPlace } from '../../src/worksheet/cells/blanks';
import type { Cell } from '../../src/worksheet/cells/cell';
import { described } from '../../src/worksheet/described';
import { refusalOf } from '../../src/worksheet/wording/refusals';
import type { DescribedFunction } from '../../src/worksheet/words';
import { LIMITS } from './limits';
import { callOf, nameOf, names } from './places';
import { evaluate, prepared } from './prepared';

// Each limit of each place: what lies on it is taken, what lies past it is refused and the limit told. What is expected
// is read from the list, never from the declaration.

interface Line {
  readonly takes: string;
  readonly usual: string | undefined;
}

/** The lines that are written down for a place of a function. A cell of anything is judged by its function. */
function linesOf(f: DescribedFunction, place: BlankPlace): Line[] {
  if (place.kind.word === 'anything') return [];
  return Object.entries(LIMITS).flatMap(([takes, places]) =>
    places.flatMap((line) => {
      const [, name, usual, functions] = /^(.*?)(?: = (.*?))?(?: in ([A-Z ]+))?$/.exec(line)!;
      const isMeant = name === nameOf(place) && (functions?.split(' ').includes(f.name) ?? true);
      return isMeant ? [{ takes, usual }] : [];
    }),
  );
}

const LITTLE = 1e-5;
const HUGE = 1e12;
/** The first day after those that a sheet counts: 1 January 10000. */
const DATE = 'above 0 below 2958466';
/** Absolute zero in °F; nothing on a farm is hotter than 1,000 degrees. */
const TEMPERATURE = 'from -459.67 to 1000';

/** What lies on each limit of a line and inside, and what lies just past it. */
function cellsOf({ takes }: Line): {
  readonly taken: readonly { readonly cell: Cell; readonly reads: Cell }[];
  readonly refused: readonly number[];
  readonly told: readonly number[];
} {
  const numbers = takes.replace(/^date/, DATE).replace(/^temperature/, TEMPERATURE);
  const isWhole = takes.includes('whole');
  const taken: { cell: Cell; reads: Cell }[] = [];
  const take = (cell: Cell, reads: Cell = cell): void => void taken.push({ cell, reads });
  const refused: number[] = isWhole ? [1.5] : [];
  const told: number[] = [];
  for (const [, limit, figure] of numbers.matchAll(/(from|above|to|below) (-?[\d.]+)/g)) {
    const at = Number(figure);
    const past = isWhole ? 1 : Math.min(0.5, LITTLE * Math.max(1, Math.abs(at)));
    if (limit === 'from' || limit === 'to') {
      const out = limit === 'from' ? at - past : at + past;
      if (at !== 0) take(at);
      // 0 is as a blank.
      refused.push(out === 0 ? -1 : out);
    } else {
      take(limit === 'above' ? at + past : at - past);
      refused.push(at === 0 ? -past : at);
    }
    if (!/^(date|temperature)/.test(takes)) told.push(takes.startsWith('share') ? 100 * at : at);
  }
  // Where no limit is written down there is none.
  if (/number|whole/.test(numbers)) {
    if (!/\b(from|above)\b/.test(numbers)) take(-HUGE);
    if (!/\b(to|below)\b/.test(numbers)) take(HUGE);
  }
  for (const word of ['none', 'free', 'off']) {
    if (takes.includes(`or ${word}`)) take(word, 0);
  }
  if (takes.includes('or 0')) [0, null].forEach((blank) => take(blank, 0));
  if (takes.includes('or blank')) take(null);
  if (/^[\w ]+(\/[\w ]+)+/.test(takes))
    takes
      .replace(/ or .*/, '')
      .split('/')
      .forEach((word) => take(word));
  return { taken, refused, told };
}

/** Whether a call reads a place in one of its rows: an error there changes its answer. */
function isReadIn(f: DescribedFunction, { given, rows, spoiled }: ReturnType<typeof callOf>): boolean {
  const before = JSON.stringify(evaluate(f, given));
  return rows.some((row) => JSON.stringify(evaluate(f, spoiled(row))) !== before);
}

const isFigure = ({ kind }: BlankPlace): boolean => !['label', 'choice', 'anything'].includes(kind.word);

describe.each(described.map((f) => [f.name, f] as const))('%s', (_name, f) => {
  beforeAll(() => prepared(f));
  const figures = blankPlaces(f).flatMap((place) => {
    const [line] = linesOf(f, place);
    return line ? [{ place, line }] : [];
  });

  test('has every figure and every usual value written down once, as it is declared', () => {
    const usual = (place: BlankPlace): unknown => {
      const argument = f.arguments[place.position]!;
      if (argument.shape === 'table') return argument.columns[place.column!]!.fallback;
      return 'fallback' in argument ? argument.fallback : undefined;
    };
    const wanted = blankPlaces(f)
      .filter((place) => isFigure(place) || usual(place) !== undefined)
      .map((place) => [nameOf(place), usual(place) === undefined ? undefined : String(usual(place))]);
    const written = blankPlaces(f).flatMap((place) =>
      linesOf(f, place).map(({ usual: value }) => [nameOf(place), value]),
    );
    expect(wanted).toEqual(written);
  });

  test('takes what lies on a limit', () => {
    const wrong = figures.flatMap(({ place, line }) =>
      cellsOf(line).taken.flatMap(({ cell, reads }) => {
        const read = place.kind.accept(cell);
        return read === reads
          ? []
          : [`${nameOf(place)} reads ${JSON.stringify(cell)} as ${JSON.stringify(read)}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  test('refuses what lies past a limit and tells its limits, in a call of its function too', () => {
    const wrong = figures.flatMap(({ place, line }) => {
      const call = callOf(f, place);
      const { refused, told } = cellsOf(line);
      // What may take long is not called: plans read the tables that CHECKLOADS reads.
      const isRead = !f.takesLong && isReadIn(f, call);
      return refused.flatMap((cell) => {
        const said = refusalOf(place.kind, cell, { argument: nameOf(place) }, 1900);
        const figuresSaid = said.replace(/(\d),(?=\d{3})/g, '$1').match(/-?\d+(\.\d+)?/g);
        const isTold =
          place.kind.needed !== undefined || told.every((figure) => figuresSaid?.includes(String(figure)));
        const answer = isRead ? evaluate(f, call.with(cell)) : undefined;
        const isRefused = answer
          ? call.rows.some((row) => names(answer, place, row + 1))
          : place.kind.accept(cell) === undefined;
        return isTold && isRefused ? [] : [`${nameOf(place)} of ${cell}: ${said}`];
      });
    });
    expect(wrong).toEqual([]);
  });
});
