import { describe, expect, test } from '@jest/globals';
import type { BookContents, FormulaCell } from '../../../src/hosts/pane/book';
import { checkBook } from '../../../src/hosts/pane/check';

const book = (formulas: FormulaCell[], rest: Partial<BookContents> = {}): BookContents => ({
  dateSystem: 1900,
  formulas,
  tables: [{ name: 'Lots', sheet: 'Lots', firstRow: 4, lastRow: 80 }],
  ...rest,
});
const cell = (formula: string, address = 'H5', rest: Partial<FormulaCell> = {}): FormulaCell => ({
  sheet: 'Plan',
  address,
  formula,
  ...rest,
});
const kinds = (contents: BookContents, version = '0.1.0'): string[] =>
  checkBook(contents, version).map(({ kind }) => kind);

describe('checkBook(contents, version) finds what a grower should look at', () => {
  test('nothing in a sound workbook', () => {
    expect(
      kinds(
        book([
          cell('=PINSET.READYDATE(Lots[inoculated],Lots[strain],Strains[#All])'),
          cell('=SUM(A1:A3)', 'A4'),
        ]),
      ),
    ).toEqual([]);
  });

  test('a call that faults, with its reason and its place', () => {
    const faulty = cell('=PINSET.MIXWATER(A1,B1,C1)', 'D1', {
      error: '#VALUE!',
      reason: 'target: 0 up to less than 1 needed',
    });
    expect(checkBook(book([faulty, cell('=1/0', 'E1', { error: '#DIV/0!' })]), '0.1.0')).toEqual([
      {
        kind: 'fault',
        place: { sheet: 'Plan', address: 'D1' },
        places: [{ sheet: 'Plan', address: 'D1' }],
        formula: '=PINSET.MIXWATER(A1,B1,C1)',
        words: '#VALUE!: target: 0 up to less than 1 needed',
      },
    ]);
  });

  test.each([
    [
      '500 copies dragged down',
      500,
      (row: number) => `=PINSET.READYDATE(B${row},C${row},Strains!$A$1:$D$9)`,
      ['dragged'],
    ],
    ['19 copies', 19, (row: number) => `=PINSET.READYDATE(B${row},C${row},Strains!$A$1:$D$9)`, []],
    [
      '500 calls that differ',
      500,
      (row: number) => `=PINSET.READYDATE(B${row},C${row * 2},Strains!$A$1:$D$9)`,
      [],
    ],
  ])('%s', (_what, rows, formula, wanted) => {
    const formulas = Array.from({ length: rows }, (_, i) => cell(formula(i + 2), `D${i + 2}`));
    expect(kinds(book(formulas))).toEqual(wanted);
  });

  test('a clock inside a call, not one beside it', () => {
    expect(kinds(book([cell('=PINSET.STAGE(B2,TODAY(),C2,Stages[#All])')]))).toEqual(['volatile']);
    expect(kinds(book([cell('=TODAY()'), cell('=PINSET.STAGE(B2,$H$5,C2,"TODAY()")', 'H6')]))).toEqual([]);
  });

  test.each([
    ['=PINSET.BIOEFFICIENCY(Lots!B5:B60,2.5,0.6)', ['short']],
    ["=PINSET.BIOEFFICIENCY('Lots'!$B$4:$B$79,2.5,0.6)", ['short']],
    ['=PINSET.BIOEFFICIENCY(Lots!B5:B80,2.5,0.6)', []],
    ['=PINSET.BIOEFFICIENCY(Lots!B5:B200,2.5,0.6)', []],
    ['=PINSET.BIOEFFICIENCY(Lots!B30:B40,2.5,0.6)', []],
    ['=PINSET.BIOEFFICIENCY(Lots!B5,2.5,0.6)', []],
    ['=PINSET.BIOEFFICIENCY(B5:B60,2.5,0.6)', []],
  ])('a range that misses the last rows of its table: %s', (formula, wanted) => {
    expect(kinds(book([cell(formula)]))).toEqual(wanted);
  });

  test('a workbook that counts from 1904, and one saved with an older version', () => {
    expect(kinds(book([], { dateSystem: 1904 }))).toEqual(['dateSystem']);
    expect(kinds(book([], { savedWith: '0.9.1' }), '0.10.0')).toEqual(['version']);
    expect(kinds(book([], { savedWith: '0.10.0' }), '0.10.0')).toEqual([]);
  });

  test('an add-in that is older than the one that last saved the workbook', () => {
    const [finding, ...more] = checkBook(book([], { savedWith: '0.10.0' }), '0.9.1');
    expect(more).toEqual([]);
    expect(finding!.kind).toBe('version');
    expect(finding!.words).toContain('Pinset 0.10.0, and this is the older 0.9.1');
  });
});
