import { Package, WorkbookFileError } from './package';
import { partsOf } from './parts';
import { element, prefixAt, spliced, walk, type Edit } from './xml';

/** A column of a sheet and how wide it is to be, in characters of the file's usual font. */
export interface ColumnWidth {
  readonly sheet: string;
  /** From 0. */
  readonly column: number;
  readonly width: number;
}

interface Run {
  readonly from: number;
  readonly to: number;
  readonly attributes: Readonly<Record<string, string>>;
}

/**
 * The file with some columns of other widths (ISO/IEC 29500-1, 18.3.1.13). What else it says of columns stays.
 * @throws WorkbookFileError where it has no such sheet
 */
export function withWidths(bytes: Uint8Array, widths: readonly ColumnWidth[]): Uint8Array {
  if (widths.length === 0) return bytes;
  const file = Package.open(bytes);
  const { sheets } = partsOf(file);
  const changes = new Map<string, string>();
  for (const name of new Set(widths.map(({ sheet }) => sheet))) {
    const part = sheets.find((sheet) => sheet.name === name)?.part;
    if (part === undefined) throw new WorkbookFileError(`the workbook has no sheet ${name}`);
    const wanted = new Map(
      widths.filter(({ sheet }) => sheet === name).map(({ column, width }) => [column, width]),
    );
    changes.set(part, withColumns(file.text(part), part, wanted));
  }
  return file.with(changes);
}

function withColumns(text: string, part: string, wanted: ReadonlyMap<number, number>): string {
  const runs: Run[] = [];
  let start: number | undefined;
  let end = 0;
  let data: { start: number; prefix: string } | undefined;
  walk(text, part, {
    open(name, attributes, at) {
      if (name === 'cols') start = at;
      if (name === 'col') {
        runs.push({ from: Number(attributes['min']) - 1, to: Number(attributes['max']) - 1, attributes });
      }
      if (name === 'sheetData') data = { start: at, prefix: prefixAt(text, at) };
    },
    close(name, _, at) {
      if (name === 'cols') end = at;
    },
    text: () => undefined,
  });
  if (!data) return text;
  const { prefix } = data;
  const columns = [...apart(runs, wanted)].map(({ from, to, attributes }) =>
    element(`${prefix}col`, { ...attributes, min: from + 1, max: to + 1 }),
  );
  const edit: Edit = {
    start: start ?? data.start,
    end: start === undefined ? data.start : end,
    text: element(`${prefix}cols`, {}, ...columns),
  };
  return spliced(text, [edit]);
}

/** The runs of columns, those with a width of their own apart from the rest of their run. */
function apart(runs: readonly Run[], wanted: ReadonlyMap<number, number>): Run[] {
  const wide = ({ attributes }: { attributes: Run['attributes'] }, column: number): Run => ({
    from: column,
    to: column,
    attributes: { ...attributes, width: String(wanted.get(column)), customWidth: '1' },
  });
  const known = new Set<number>();
  const split = runs.flatMap((run): Run[] => {
    const own = [...wanted.keys()].filter((column) => column >= run.from && column <= run.to);
    const pieces: Run[] = [];
    let from = run.from;
    for (const column of own.sort((a, b) => a - b)) {
      known.add(column);
      if (column > from) pieces.push({ ...run, from, to: column - 1 });
      pieces.push(wide(run, column));
      from = column + 1;
    }
    return from <= run.to ? [...pieces, { ...run, from }] : pieces;
  });
  const added = [...wanted.keys()].filter((column) => !known.has(column));
  return [...split, ...added.map((column) => wide({ attributes: {} }, column))].sort(
    (a, b) => a.from - b.from,
  );
}
