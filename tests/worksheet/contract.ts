import { beforeAll, describe, expect, test } from '@jest/globals';
import {
  cellError,
  isCellError,
  plainValues,
  type Block,
  type Cell,
  type CellError,
  type Grid,
} from '../../src/worksheet/cells/cell';
import { mayBeLeftOut } from '../../src/worksheet/cells/arguments';
import { FAMILIES, type Family } from '../../src/worksheet/constants';
import { described } from '../../src/worksheet/described';
import { exampleGrid } from '../../src/worksheet/examples';
import type { DescribedFunction } from '../../src/worksheet/words';
import { evaluate, prepared } from './prepared';
import { broken, frozen } from './promises';

// The promises every worksheet function keeps, checked for all of them from their definitions alone.

type Given = (Grid | null)[];

function firstCall(f: DescribedFunction): Given {
  const [example] = f.examples;
  if (!example)
    throw new Error(`${f.name} has no example: add one to its words in src/worksheet/${f.family}`);
  return example.arguments.map(exampleGrid);
}

function changed(given: Given, position: number, grid: Grid | null): Given {
  const result = [...given];
  while (result.length <= position) result.push(null);
  result[position] = grid;
  return result;
}

const REF = cellError('#REF!');
const HOSTILE: [string, Grid][] = [
  ['a blank', [[null]]],
  ['0', [[0]]],
  ['empty text', [['']]],
  ['text', [['surprise']]],
  ['text that looks like a number', [['12.5']]],
  ['text that looks like a formula', [['=HYPERLINK("x")']]],
  ['TRUE', [[true]]],
  ['an error cell', [[REF]]],
  ['a negative number', [[-7]]],
  ['a huge number', [[1e308]]],
  ['the smallest number', [[5e-324]]],
  ['infinity', [[Infinity]]],
  ['minus infinity', [[-Infinity]]],
  ['a number that is none', [[NaN]]],
  ['a date before 1900', [[-1]]],
  ['a date after 9999', [[2958466]]],
  ['a row', [[1, 2, 3]]],
  ['a column', [[1], [2], [3]]],
  ['a column of another length', [[1], [2], [3], [4], [5]]],
  ['a block', Array.from({ length: 2 }, () => [1, 2])],
  ['a column with one of each', [[1], ['a'], [null], [true], [REF], [NaN], [-1]]],
  ['headers without rows', [['strain', 'lot', 'mass']]],
];

/** Tests the promises for every function of a family. */
export function promisesOf(family: Family): void {
  const all = described.filter((f) => f.family === family).map((f) => [f.name, f] as const);
  describe.each(all)('%s', (name, f) => {
    beforeAll(() => prepared(f));

    test('is described: name, summary, arguments, sources, examples and faults', () => {
      expect(name).toMatch(/^[A-Z]{3,}$/);
      expect(FAMILIES).toContain(f.family);
      expect(f.summary.length).toBeGreaterThan(20);
      expect(f.summary.length).toBeLessThanOrEqual(120);
      expect(f.notes.length).toBeGreaterThan(0);
      expect(f.sources.length).toBeGreaterThan(0);
      expect(f.faults.length).toBeGreaterThan(0);
      expect(f.examples.length).toBeGreaterThan(0);
      for (const { meaning } of f.arguments) {
        expect(meaning.length).toBeGreaterThan(5);
        expect(meaning.length).toBeLessThanOrEqual(110);
      }
      const meanings = f.arguments.flatMap((argument) =>
        argument.shape === 'table'
          ? Object.entries(argument.columns).map(([header, { meaning }]) => [
              `${argument.name}, ${header}`,
              meaning,
            ])
          : [],
      );
      const said = [
        ...meanings,
        ...[...f.notes, ...f.sources, ...f.questions].map((words) => ['words', words]),
        ...f.examples.map(({ title }) => ['title of an example', title]),
        ...f.faults.map(({ says }) => ['what a fault says', says]),
      ];
      expect(said.filter(([, words]) => words !== undefined && words.trim().length < 3)).toEqual([]);
      expect(f.questions.length).toBeGreaterThan(0);
      const optional = f.arguments.map(mayBeLeftOut);
      expect(optional.lastIndexOf(false)).toBeLessThan(
        optional.includes(true) ? optional.indexOf(true) : Infinity,
      );
    });

    test.each(f.examples.map((example) => [example.title, example] as const))(
      'example: %s',
      (_title, example) => {
        const got = plainValues(evaluate(f, example.arguments.map(exampleGrid)));
        const wanted = exampleGrid(example.gives);
        expect(got.map((row) => row.length)).toEqual(wanted.map((row) => row.length));
        got.forEach((row, r) =>
          row.forEach((cell, c) => {
            const want = wanted[r]![c];
            const near =
              typeof want === 'number' &&
              typeof cell === 'number' &&
              Math.abs(cell - want) <= 10 ** -(example.digits ?? 10) * Math.max(1e-6, Math.abs(want));
            expect(near ? want : cell).toEqual(want);
          }),
        );
      },
    );

    test.each(f.faults.map((fault) => [fault.says, fault] as const))('fault: %s', (_says, fault) => {
      const errors = plainValues(evaluate(f, fault.arguments.map(exampleGrid)))
        .flat()
        .filter((cell): cell is CellError => isCellError(cell));
      expect(errors.map(({ code }) => code)).toContain(fault.code);
      expect(errors.map(({ reason }) => reason).join('\n')).toContain(fault.says);
      expect(fault.remedy.length).toBeGreaterThan(5);
    });

    describe.each(f.arguments.map((argument, position) => [argument.name, position, argument] as const))(
      'argument %s',
      (_name, position, argument) => {
        test('survives whatever its cells may hold', () => {
          const complaints = HOSTILE.flatMap(([what, grid]) => {
            const complaint = broken(evaluate(f, frozen(changed(firstCall(f), position, grid))), [REF]);
            return complaint === undefined ? [] : [`${what}: ${complaint}`];
          });
          expect(complaints).toEqual([]);
        });

        test('takes a blank as null, as 0 and as empty text alike', () => {
          const call = (blank: Cell): Block => evaluate(f, changed(firstCall(f), position, [[blank]]));
          expect(call(0)).toEqual(call(null));
          expect(call('')).toEqual(call(null));
        });

        if (mayBeLeftOut(argument)) {
          test('left out, has its usual value, as one blank setting or table has and a blank in a column has not', () => {
            const [leftOut, blank] = [null, [[null]]].map((grid) =>
              evaluate(f, changed(firstCall(f), position, grid)),
            );
            expect(argument.shape === 'column' ? leftOut : blank).toEqual(leftOut);
            const errors = plainValues(leftOut!).flat().filter(isCellError);
            expect(errors.filter(({ place }) => place?.argument === argument.name)).toEqual([]);
          });
        } else {
          test('left out, is a fault that names it', () => {
            const [first] = evaluate(f, changed(firstCall(f), position, null)).rows[0]!;
            expect((first as CellError).reason).toMatch(
              new RegExp(`^${argument.name} is needed but left out`),
            );
          });
        }
      },
    );

    test('gives the same twice and leaves its inputs as they were', () => {
      const given = frozen(firstCall(f));
      expect(evaluate(f, given)).toEqual(evaluate(f, given));
    });

    test('refuses more arguments than it has', () => {
      const given = firstCall(f);
      while (given.length <= f.arguments.length) given.push([[1]]);
      expect(evaluate(f, given).rows[0]![0]).toHaveProperty(
        'reason',
        expect.stringMatching(/takes at most \d+ arguments/),
      );
    });

    test('answers for a whole sheet of 1,048,576 rows', () => {
      const given = firstCall(f);
      f.arguments.forEach(({ shape }, k) => {
        if (shape === 'column' && given[k]) given[k] = [[given[k][0]![0]!]];
      });
      const long = Math.max(
        0,
        f.arguments.findIndex(({ shape }) => shape !== 'setting'),
      );
      const blank = new Array<Cell>(given[long]![0]!.length).fill(null);
      given[long] = given[long]!.concat(new Array<Cell[]>(1_048_576 - given[long]!.length).fill(blank));
      const { rows } = evaluate(f, given);
      expect(rows.length > 0 && (rows.length === 1_048_576 || rows.length < 1000)).toBe(true);
    });
  });

  const besideRows = all.filter(
    ([, f]) => f.calculates !== 'whole' && f.arguments.some(({ shape }) => shape === 'column'),
  );

  if (besideRows.length === 0) return;

  describe.each(besideRows)('%s, an answer beside each row', (_name, f) => {
    const position = f.arguments.findIndex(({ shape }) => shape === 'column');
    const callWith = (cells: readonly Cell[]): Block => {
      const given = firstCall(f);
      f.arguments.forEach(({ shape }, k) => {
        if (shape === 'column' && given[k]) given[k] = [[given[k][0]![0]!]];
      });
      given[position] = cells.map((cell) => [cell]);
      return evaluate(f, given);
    };

    test('gives an error cell back as that same error', () => {
      const good = firstCall(f)[position]![0]![0]!;
      const { rows } = callWith([good, REF, good]);
      expect((rows[1] ?? rows[0])![0]).toMatchObject({ code: REF.code });
    });
  });
}
