import { type Cell, isCellError } from '../../worksheet/cells/cell';
import type { EngineWorkbook } from '../engine/engineWorkbook';
import type { CellContent, WorkbookContent } from '../engine/workbook';
import { addressOf, areaOf } from '../xlsx/address';
import type { Change } from '../xlsx/patch';

type Stored = ReadonlyMap<string, CellContent>;

/** What of an open workbook differs from the file it came from: cells typed into, and results that came out new. */
export function changesSince(content: WorkbookContent, workbook: EngineWorkbook): Change[] {
  return content.sheets.flatMap(({ name, cells }) => {
    const stored: Stored = new Map(cells.map((cell) => [cell.address, cell]));
    return [...written(name, stored, workbook), ...cleared(name, stored, workbook)];
  });
}

/** Cells that differ from what the file has for them. */
function written(sheet: string, stored: Stored, workbook: EngineWorkbook): Change[] {
  return [...workbook.entries(sheet)].flatMap((entry): Change[] => {
    const { address, formula, value } = entry;
    if (entry.isKept) return [];
    const before = stored.get(address);
    if (formula === undefined) {
      const { numberFormat } = entry;
      const isSame = before && before.formula === undefined && before.spilledFrom === undefined;
      if (isSame && same(before.value, value)) return [];
      const formats = workbook.formatsFrom(sheet, address);
      return [
        {
          sheet,
          address,
          formula: null,
          values: [[value]],
          formats,
          ...(numberFormat !== undefined && { numberFormat }),
        },
      ];
    }
    const result = workbook.result(sheet, address);
    const values = result.block ?? [[result.value]];
    if (!entry.isStored) {
      return [{ sheet, address, formula, values, formats: workbook.formatsFrom(sheet, address) }];
    }
    return isStoredResult(before!, stored, values) ? [] : [{ sheet, address, values }];
  });
}

/** Cells of the file that hold nothing any more. */
function cleared(sheet: string, stored: Stored, workbook: EngineWorkbook): Change[] {
  const standing = new Set([...workbook.entries(sheet)].map(({ address }) => address));
  return [...stored.values()]
    .filter(({ address, formula, value, spilledFrom }) => {
      const held = formula !== undefined || value !== null;
      return held && spilledFrom === undefined && !standing.has(address);
    })
    .map(({ address }) => ({ sheet, address, formula: null, values: [[null]] }));
}

function isStoredResult(
  { address, spill }: CellContent,
  stored: Stored,
  values: readonly (readonly Cell[])[],
): boolean {
  const area = areaOf(spill ?? address)!;
  if (area.bottom - area.top + 1 !== values.length) return false;
  if (area.right - area.left + 1 !== values[0]!.length) return false;
  return values.every((row, r) =>
    row.every((value, c) => {
      const at = addressOf({ row: area.top + r, column: area.left + c });
      return same(stored.get(at)?.value ?? null, value);
    }),
  );
}

/** Empty text and a blank are stored alike. */
function same(left: Cell, right: Cell): boolean {
  if (isCellError(left) && isCellError(right)) return left.code === right.code;
  return (left ?? '') === (right ?? '');
}
