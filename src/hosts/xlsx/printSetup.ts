import { parseA1Ref, type ReferenceA1Xlsx } from '@borgar/fx/xlsx';
import { COLUMNS, ROWS, type Area } from './address';
import { cut } from './formula';
import { Package } from './package';
import { isTrue, partsOf } from './parts';
import { walkSheet } from './sheet';
import { child, childrenOf } from './xml';

// What a file says of a sheet on paper: ISO/IEC 29500-1, 18.2.6 (names of print areas and titles), 18.3.1.63 (pageSetup)
// and 18.3.1.65 (pageSetUpPr).

/** Rows or columns from one to another, counted from 0. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface PrintSetup {
  /** Each begins a page; whole columns reach to the end of the sheet. None: all that the sheet holds. */
  readonly areas: readonly Area[];
  /** Rows and columns that are repeated on each page. */
  readonly titleRows?: Span;
  readonly titleColumns?: Span;
  /** How the paper lies, where the file says it. */
  readonly orientation?: 'portrait' | 'landscape';
  /** Whether all columns go on one page, however small that makes them. */
  readonly fitsWidth: boolean;
}

/** How a file prints a sheet. Areas and titles that are broken, or that a formula works out, count for nothing. */
export function readPrintSetup(bytes: Uint8Array, sheet: string): PrintSetup {
  const file = Package.open(bytes);
  const { root, sheets, allSheets } = partsOf(file);
  const at = String(allSheets.indexOf(sheet));
  // Some libraries write a name for each area.
  const named = (name: string): Area[] =>
    childrenOf(child(root, 'definedNames'), 'definedName')
      .filter(
        ({ attributes }) => attributes['name']?.toLowerCase() === name && attributes['localSheetId'] === at,
      )
      .flatMap(({ text }) => areasIn(text, sheet));
  const titles = named('_xlnm.print_titles');
  const rows = titles.find(({ left, right }) => left === 0 && right === COLUMNS - 1);
  const columns = titles.find(({ top, bottom }) => top === 0 && bottom === ROWS - 1);
  const part = sheets.find(({ name }) => name === sheet)?.part;
  return {
    areas: named('_xlnm.print_area'),
    ...(rows && { titleRows: { from: rows.top, to: rows.bottom } }),
    ...(columns && { titleColumns: { from: columns.left, to: columns.right } }),
    ...(part === undefined ? { fitsWidth: false } : pageOf(file.text(part), part)),
  };
}

/** The cells of a list such as `'Shed 1'!$A:$D,'Shed 1'!$F$1:$G$9`; none where it is no list. */
function areasIn(list: string, sheet: string): Area[] {
  const areas: Area[] = [];
  for (const { type, value } of cut(list)) {
    const reference = type.startsWith('range')
      ? (parseA1Ref(value) as ReferenceA1Xlsx | undefined)
      : undefined;
    if (reference && 'range' in reference) {
      const { top, left, bottom, right } = reference.range;
      const isHere = (reference.sheetName || sheet).toLowerCase() === sheet.toLowerCase();
      if (!isHere) continue;
      areas.push({ top: top ?? 0, left: left ?? 0, bottom: bottom ?? ROWS - 1, right: right ?? COLUMNS - 1 });
    } else if (/^func/.test(type)) {
      return [];
    }
  }
  return areas;
}

function pageOf(text: string, part: string): Pick<PrintSetup, 'orientation' | 'fitsWidth'> {
  let setup: Readonly<Record<string, string>> = {};
  let isFitted = false;
  walkSheet(text, part, {
    cell: () => undefined,
    other(name, attributes) {
      if (name === 'pageSetup') setup = attributes;
      if (name === 'pageSetUpPr') isFitted = isTrue(attributes['fitToPage']);
    },
  });
  const { orientation, fitToWidth = '1' } = setup;
  return {
    ...((orientation === 'portrait' || orientation === 'landscape') && { orientation }),
    fitsWidth: isFitted && fitToWidth === '1',
  };
}
