import { describe, expect, test } from '@jest/globals';
import { byCause, type Faulty } from '../../../src/hosts/pane/causes';

const faulty = (cell: string, code: string, reason = '', formula?: string): Faulty => {
  const [sheet, address] = cell.split('!') as [string, string];
  return { place: { sheet, address }, code, reason, words: `${code} ${reason}`, ...(formula && { formula }) };
};
const causes = (...cells: Faulty[]): string[][] =>
  byCause(cells).map(({ places }) => places!.map(({ sheet, address }) => `${sheet}!${address}`));

describe('byCause(faulty) makes one finding of the cells that one thing spoils', () => {
  test.each<[string, Faulty[], string[][]]>([
    ['none of none', [], []],
    [
      'the columns of a row that one bad date spoils',
      [
        faulty('Lots!I45', '#VALUE!', 'inoculated must be a date; it is "12 Jan 2026" (row 38)'),
        faulty('Lots!J45', '#VALUE!', 'inoculated must be a date; it is "12 Jan 2026" (row 38)'),
        faulty('Picks!C9', '#VALUE!', 'inoculated must be a date; it is "12 Jan 2026" (row 38)'),
      ],
      [['Lots!I45', 'Lots!J45', 'Picks!C9']],
    ],
    [
      'rows that differ in their figures alone',
      [
        faulty('A!B2', '#VALUE!', 'moisture must be below 100%; it is 62 (row 1)'),
        faulty('A!B3', '#VALUE!', 'moisture must be below 100%; it is 63.5 (row 2)'),
      ],
      [['A!B2', 'A!B3']],
    ],
    [
      'labels that differ are two',
      [
        faulty('A!B2', '#N/A', 'strain: "Alder 3" is not in strains (row 1)'),
        faulty('A!B3', '#N/A', 'strain: "Alder 4" is not in strains (row 2)'),
      ],
      [['A!B2'], ['A!B3']],
    ],
    [
      'another error for the same reason is another',
      [faulty('A!B2', '#N/A', 'no row'), faulty('A!B3', '#VALUE!', 'no row')],
      [['A!B2'], ['A!B3']],
    ],
    [
      'what only passes an error on, over other sheets and over another cell',
      [
        faulty('Sums!B1', '#VALUE!', '', '=A1+1'),
        faulty('Sums!A1', '#VALUE!', '', "=SUM('Grow log'!C2:C9)"),
        faulty('Grow log!C4', '#VALUE!', 'mass must be above 0; it is -1', '=PINSET.BIOEFFICIENCY(A4,2,0.6)'),
      ],
      [['Grow log!C4', 'Sums!A1', 'Sums!B1']],
    ],
    [
      'errors without a reason that have nothing to do with each other',
      [faulty('A!B2', '#DIV/0!', '', '=1/C2'), faulty('A!B3', '#DIV/0!', '', '=1/C3')],
      [['A!B2'], ['A!B3']],
    ],
    [
      'two that refer to each other, neither being lost',
      [faulty('A!B2', '#REF!', '', '=B3'), faulty('A!B3', '#REF!', '', '=B2')],
      [['A!B2'], ['A!B3']],
    ],
  ])('%s', (_what, cells, wanted) => {
    expect(causes(...cells)).toEqual(wanted);
  });

  test('no cell is lost and none is told twice, whatever refers to what', () => {
    const cells = Array.from({ length: 60 }, (_, n) =>
      faulty(`A!B${n + 1}`, '#VALUE!', n % 7 === 0 ? `reason "${n}"` : '', `=B${((n * 17) % 60) + 1}+C1`),
    );
    const told = causes(...cells).flat();
    expect([...told].sort()).toEqual(cells.map(({ place }) => `A!${place.address}`).sort());
  });
});
