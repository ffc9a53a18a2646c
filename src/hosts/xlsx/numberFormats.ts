import { addressOf } from './address';
import { Package, WorkbookFileError } from './package';
import { onlyPart, partsOf } from './parts';
import { patchWorkbook, type Change } from './patch';
import { walkSheet } from './sheet';
import { CellStyles } from './styles';
import { spliced, withAttribute, type Edit } from './xml';

/** The number format that a cell is to have, as files write it. */
export interface NumberFormat {
  readonly sheet: string;
  readonly address: string;
  readonly code: string;
}

/**
 * The file with other number formats in some cells (ISO/IEC 29500-1, 18.8.30). What the cells hold and how they look
 * otherwise stays. @throws WorkbookFileError where it has no such sheet
 */
export function withNumberFormats(bytes: Uint8Array, formats: readonly NumberFormat[]): Uint8Array {
  if (formats.length === 0) return bytes;
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const part = onlyPart(parts, 'styles');
  if (part === undefined)
    throw new WorkbookFileError('the workbook has no styles to put number formats into');
  const styles = new CellStyles(file.text(part), part);
  const changes = new Map<string, string>();
  const blank: Change[] = [];
  for (const name of new Set(formats.map(({ sheet }) => sheet))) {
    const sheet = parts.sheets.find((one) => one.name === name)?.part;
    if (sheet === undefined) throw new WorkbookFileError(`the workbook has no sheet ${name}`);
    const wanted = new Map(formats.filter((one) => one.sheet === name).map((one) => [one.address, one.code]));
    const text = file.text(sheet);
    const edits: Edit[] = [];
    walkSheet(text, sheet, {
      cell: (cell) => {
        const address = addressOf(cell);
        const code = wanted.get(address);
        if (code === undefined) return;
        wanted.delete(address);
        const style = Number(cell.attributes['s'] ?? 0);
        const other = styles.inFormat(style, code);
        if (other !== style) edits.push(withAttribute(text, cell, 's', String(other)));
      },
    });
    if (edits.length > 0) changes.set(sheet, spliced(text, edits));
    for (const [address, numberFormat] of wanted) {
      blank.push({ sheet: name, address, formula: null, values: [[null]], numberFormat });
    }
  }
  const changed = styles.changed();
  if (changed !== undefined) changes.set(part, changed);
  const styled = changes.size === 0 ? bytes : file.with(changes);
  return blank.length === 0 ? styled : patchWorkbook(styled, blank);
}
