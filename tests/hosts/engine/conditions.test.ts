import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { criterionOf } from '../../../src/hosts/engine/evaluator/functions/criteria';
import { Lacking } from '../../../src/hosts/engine/evaluator/lacking';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { CellContent } from '../../../src/hosts/engine/workbook';
import type { Cell } from '../../../src/worksheet/cells/cell';

// A column that conditions look through again is indexed. However it is looked through, the same cells meet them: the
// independent method asks of each cell by itself.

const ROWS = 70;
const TIMES = [1, 2, 3, 4, 5, 6, 7];
const word = fc.constantFrom(
  'oak',
  'Oak',
  'OAK ',
  'ash',
  'İvy',
  'a*',
  '5',
  '5.0',
  '05',
  '1/2',
  'TRUE',
  '',
  '<5',
);
const number = fc.constantFrom(0, -0, 5, 0.1 + 0.2, 0.3, -2, 45292, 1e15);
const cell: fc.Arbitrary<Cell> = fc.oneof(word, number, fc.boolean(), fc.constant(null));
const condition = fc.oneof(
  word,
  number,
  fc.boolean(),
  fc.constantFrom('=5', '<>oak', '>=0.3', 'o*', '=', '<>', '2024-01-01'),
);

const amountIn = (row: number): number => 2 ** (row % 40);
const NAMED = 'named';

/** What countries read differently is named. */
function orNamed(calculate: () => number): number | typeof NAMED {
  try {
    return calculate();
  } catch (fault) {
    if (fault instanceof Lacking) return NAMED;
    throw fault;
  }
}

test('COUNTIF, COUNTIFS and SUMIFS meet the same cells the first time and ever after', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(cell, { minLength: ROWS, maxLength: ROWS }),
      fc.array(cell, { minLength: ROWS, maxLength: ROWS }),
      condition,
      condition,
      async (first, second, wanted, further) => {
        const column = (letter: string, values: readonly Cell[]): CellContent[] =>
          values.map((value, row) => ({ address: `${letter}${row + 1}`, value }));
        const formulas = [
          `=COUNTIF(A1:A${ROWS},D1)`,
          `=COUNTIFS(A1:A${ROWS},D1,B1:B${ROWS},E1)`,
          `=SUMIFS(C1:C${ROWS},A1:A${ROWS},D1)`,
          '=SUMIF(A:A,D1,C:C)',
        ];
        const cells = [
          ...column('A', first),
          ...column('B', second),
          ...column(
            'C',
            first.map((_, row) => amountIn(row)),
          ),
          { address: 'D1', value: wanted },
          { address: 'E1', value: further },
          ...formulas.flatMap((formula, kind) =>
            TIMES.map((row) => ({ address: `${'FGHI'[kind]!}${row}`, value: null, formula })),
          ),
        ];
        const workbook = await openWorkbook({ dateSystem: 1900, sheets: [{ name: 'Lots', cells }] });
        const shown = [...'FGHI'].map((letter) =>
          TIMES.map((row) => workbook.result('Lots', `${letter}${row}`)),
        );
        const [one, other] = [criterionOf(wanted, 1900), criterionOf(further, 1900)];
        const met = (meets: (row: number) => boolean): number[] =>
          first.flatMap((_, row) => (meets(row) ? [row] : []));
        const isFirst = (row: number): boolean => one(first[row]!);
        const sum = (): number => met(isFirst).reduce((total, row) => total + amountIn(row), 0);
        const expected = [
          orNamed(() => met(isFirst).length),
          orNamed(() => met((row) => isFirst(row) && other(second[row]!)).length),
          orNamed(sum),
          orNamed(sum),
        ];
        expect(
          shown.map((results) =>
            results.map(({ value, unsupported }) => (unsupported === undefined ? value : NAMED)),
          ),
        ).toEqual(expected.map((value) => TIMES.map(() => value)));
      },
    ),
    { numRuns: 150 },
  );
});
