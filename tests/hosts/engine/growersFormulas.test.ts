import { describe, expect, test } from '@jest/globals';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { builtIns } from '../../../src/hosts/engine/evaluator/functions';
import { FORMS } from '../../../src/hosts/engine/evaluator/forms';
import { prepareFunctions } from '../../../src/hosts/engine/evaluator/pinsetFunctions';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { CalculatingWorkbook, CellResult, WorkbookContent } from '../../../src/hosts/engine/workbook';
import { CHAPTERS, contentOf, placed, plain, wanted, type BookName, type Placed } from './conformance/table';

/** A farm's workbook as the workbench opens it: a file without stored results, so that nothing is kept of them. */
async function openInWorkbench({ sheets, ...content }: WorkbookContent): Promise<CalculatingWorkbook> {
  const workbook = new EngineWorkbook({
    ...content,
    sheets: sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((cell) => (cell.formula === undefined ? cell : { ...cell, value: null })),
    })),
  });
  await prepareFunctions(workbook.functionsUsed());
  workbook.calculate();
  return workbook;
}

/** Every engine that a host may calculate with: another is tried by adding it here. */
const ENGINES: Readonly<Record<string, (content: WorkbookContent) => Promise<CalculatingWorkbook>>> = {
  'the command': openWorkbook,
  'the workbench': openInWorkbench,
};

const shown = ({ value, block }: CellResult): unknown => block?.map((row) => row.map(plain)) ?? plain(value);

test('every formula is there once, with its source', () => {
  expect(placed.length).toBeGreaterThan(600);
  expect(new Set(placed.map(({ sheet, cell }) => `${sheet}!${cell.address}`)).size).toBe(placed.length);
  expect(CHAPTERS.filter(({ source }) => source.length < 20)).toEqual([]);
});

test('every function the evaluator has is in a formula of the table', async () => {
  const [farm, harvested] = [await openWorkbook(contentOf('farm')), await openWorkbook(contentOf('harvest'))];
  const met = new Set(
    placed.flatMap(({ book, sheet, cell }) =>
      (book === 'farm' ? farm : harvested).functionsOf(sheet, cell.address),
    ),
  );
  const STORED_SPELLINGS = ['ANCHORARRAY', 'SINGLE'];
  const all = [...builtIns.keys(), ...Object.keys(FORMS)];
  expect(all.filter((name) => !met.has(name))).toEqual(STORED_SPELLINGS);
  expect(builtIns.size).toBeGreaterThan(380);
});

describe.each(Object.entries(ENGINES))('formulas of growers calculated by %s', (engine, open) => {
  const opened = new Map<BookName, Promise<CalculatingWorkbook>>();
  const result = async ({ book, sheet, cell }: Placed): Promise<CellResult> => {
    const workbook = opened.get(book) ?? open(contentOf(book));
    opened.set(book, workbook);
    return (await workbook).result(sheet, cell.address);
  };

  test('are right or named, never wrong', async () => {
    const wrong: string[] = [];
    const lacking: string[] = [];
    for (const one of placed) {
      const got = await result(one);
      const [text] = one.row;
      if (got.unsupported !== undefined) lacking.push(`${text} (${got.unsupported})`);
      else if (JSON.stringify(shown(got)) !== JSON.stringify(wanted(one.row)))
        wrong.push(`${text} gives ${JSON.stringify(shown(got))}, not ${JSON.stringify(wanted(one.row))}`);
    }
    const right = placed.length - wrong.length - lacking.length;
    console.log(
      [`${engine}: ${right} right, ${lacking.length} named, ${wrong.length} wrong`, ...lacking].join('\n  '),
    );
    expect(wrong).toEqual([]);
  });
});
