import { randomUUID } from 'node:crypto';
import { readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { type Format, isCellError } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import { openWorkbook } from '../engine/openWorkbook';
import type { CalculatingWorkbook, CellContent, WorkbookContent } from '../engine/workbook';
import { addressOf, placeOf } from '../xlsx/address';
import { callsPinset, withoutSpillsOf } from '../xlsx/formula';
import { WorkbookFileError } from '../xlsx/package';
import { patchWorkbook, type Change } from '../xlsx/patch';
import { readWorkbook } from '../xlsx/read';
import { CommandFault, oneLine, type Output, type Status } from './command';
import { faultsIn, faultText, jsonValue, rowText, shownResult, type Fault, type Shown } from './shown';

export interface RecalcOptions {
  readonly out: string | undefined;
  /** Results in place of Pinset's formulas. */
  readonly asValues: boolean;
  readonly json: boolean;
}

/** One formula of the workbook and what came of it. */
interface Calculated {
  readonly sheet: string;
  readonly cell: CellContent;
  readonly formula: string;
  readonly isPinset: boolean;
  readonly shown: Shown;
  readonly faults: readonly Fault[];
  /** What the calculation lacks for it: the result is then the one stored in the file. */
  readonly lacking: string | undefined;
}

/** Calculates a workbook, reports on Pinset's formulas and, where asked, writes a copy with the new results. */
export async function recalc(path: string, options: RecalcOptions, output: Output): Promise<Status> {
  if (options.asValues && options.out === undefined) {
    throw new CommandFault('--values needs --out RESULT.xlsx, the file to write');
  }
  if (options.out !== undefined) await checkTarget(options.out);
  const bytes = await bytesOf(path);
  const content = aboutFile(path, () => readWorkbook(bytes));
  const workbook = await openWorkbook(content);
  const formulas = [...calculated(content, workbook)];

  // First, so that a file that cannot be patched gives its one sentence and no results.
  if (options.out !== undefined) {
    const changes = options.asValues ? valueChanges(formulas) : formulas.flatMap(newResult);
    const patched = aboutFile(path, () => patchWorkbook(bytes, changes));
    await writeWhole(options.out, patched);
  }

  let faulty = false;
  for (const formula of formulas) {
    if (formula.lacking !== undefined) output.error(keptText(formula, formula.lacking));
    if (!formula.isPinset) continue;
    faulty ||= formula.faults.length > 0;
    output.out(options.json ? jsonLine(formula) : textLine(formula, content.dateSystem));
  }
  return faulty ? 1 : 0;
}

function* calculated(content: WorkbookContent, workbook: CalculatingWorkbook): Generator<Calculated> {
  for (const { name: sheet, cells } of content.sheets) {
    for (const cell of cells) {
      if (cell.formula === undefined && cell.unsupported === undefined) continue;
      const formula = cell.written ?? cell.formula ?? '=?';
      const result = workbook.result(sheet, cell.address);
      const shown = shownResult(workbook, sheet, cell.address, result);
      yield {
        sheet,
        cell,
        formula,
        isPinset: callsPinset(formula),
        shown,
        faults: faultsIn(shown, cell.address),
        lacking: result.unsupported,
      };
    }
  }
}

const newResult = ({ sheet, cell, shown, lacking }: Calculated): Change[] =>
  lacking === undefined ? [{ sheet, address: cell.address, values: shown.rows }] : [];

/**
 * Constants in place of Pinset's formulas. Other formulas stay, but `I8#` on a result that spills no longer becomes the
 * range it covers.
 */
function valueChanges(formulas: readonly Calculated[]): Change[] {
  const key = (sheet: string, address: string): string => `${sheet}!${address}`.toLowerCase();
  const covered = new Map(
    formulas
      .filter(({ isPinset }) => isPinset)
      .map(({ sheet, cell: { address }, shown: { rows } }) => {
        const { row, column } = placeOf(address)!;
        const area = {
          top: row,
          left: column,
          bottom: row + rows.length - 1,
          right: column + rows[0]!.length - 1,
        };
        return [key(sheet, address), area];
      }),
  );
  return formulas.flatMap((one): Change[] => {
    const { sheet, cell, formula, isPinset, shown } = one;
    const place = { sheet, address: cell.address, values: shown.rows };
    if (isPinset) return [{ ...place, formula: null, formats: columnFormats(shown) }];
    const fixed = withoutSpillsOf(formula, sheet, (other, first) =>
      covered.get(key(other, addressOf(first))),
    );
    return fixed === formula ? newResult(one) : [{ ...place, formula: fixed }];
  });
}

/** The format of each column's numbers: that of the first that has one. */
const columnFormats = ({ formats }: Shown): Format[] =>
  formats[0]!.map(
    (_, column) => formats.map((row) => row[column]!).find((format) => format !== 'plain') ?? 'plain',
  );

/** `'Block plan'!B7`, quoted where a formula would have to. */
const placeText = (sheet: string, address: string): string =>
  `${/^[\p{L}_][\p{L}\p{N}_.]*$/u.test(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`}!${address}`;

const keptText = ({ sheet, cell, formula }: Calculated, lacking: string): string =>
  `${placeText(sheet, cell.address)} keeps its stored result: ${oneLine(formula)} needs ${oneLine(lacking)}, ` +
  'which the calculation here lacks';

function textLine({ sheet, cell, formula, shown, faults }: Calculated, dateSystem: DateSystem): string {
  const { rows, formats } = shown;
  const [height, width] = [rows.length, rows[0]!.length];
  const first = rows[0]![0]!;
  const single = height === 1 && width === 1;
  const fields = [placeText(sheet, cell.address), oneLine(formula)];
  if (single) {
    fields.push(isCellError(first) ? faultText(first) : rowText([first], formats[0]!, dateSystem).join(''));
  } else {
    fields.push(`${height} × ${width}: ${rowText(rows[0]!, formats[0]!, dateSystem).join(', ')}`);
    const [fault] = faults;
    if (fault) {
      const count = faults.length === 1 ? '1 fault' : `${faults.length} faults, the first`;
      fields.push(`${count} in ${fault.cell}: ${faultText(fault.error)}`);
    }
  }
  return fields.map(oneLine).join('\t');
}

function jsonLine({ sheet, cell, formula, shown, faults, lacking }: Calculated): string {
  const { rows } = shown;
  const single = rows.length === 1 && rows[0]!.length === 1;
  const [fault] = faults;
  return JSON.stringify({
    sheet,
    cell: cell.address,
    formula,
    ...(single ? { value: jsonValue(rows[0]![0]!) } : { values: rows.map((row) => row.map(jsonValue)) }),
    ...(fault && { error: fault.error.code, reason: fault.error.reason }),
    ...(fault &&
      !single && {
        faults: faults.map(({ cell: address, error: { code, reason } }) => ({
          cell: address,
          error: code,
          reason,
        })),
      }),
    ...(lacking !== undefined && { kept: lacking }),
  });
}

async function bytesOf(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (fault) {
    throw new CommandFault(`${path}: ${systemReason(fault)}`);
  }
}

function aboutFile<T>(path: string, read: () => T): T {
  try {
    return read();
  } catch (fault) {
    throw fault instanceof WorkbookFileError ? new CommandFault(`${path}: ${fault.message}`) : fault;
  }
}

async function checkTarget(path: string): Promise<void> {
  const [target, folder] = await Promise.all([kindOf(path), kindOf(dirname(path))]);
  if (target === 'folder') throw new CommandFault(`${path}: this is a folder, a file to write is needed`);
  if (folder !== 'folder') throw new CommandFault(`${path}: there is no folder ${dirname(path)}`);
}

async function kindOf(path: string): Promise<'folder' | 'file' | undefined> {
  try {
    return (await stat(path)).isDirectory() ? 'folder' : 'file';
  } catch {
    return undefined;
  }
}

/** Writes beside the file and moves it into place, so that what stood there is never half overwritten. */
async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const draft = join(dirname(path), `.pinset-${randomUUID()}`);
  try {
    await writeFile(draft, bytes);
    await rename(draft, path);
  } catch (fault) {
    await rm(draft, { force: true });
    throw new CommandFault(`${path}: ${systemReason(fault)}`);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'this is a folder, an .xlsx file is needed',
  EACCES: 'this may not be opened',
  EPERM: 'this may not be opened',
  EBUSY: 'another program has the file open',
  ENOSPC: 'the disk is full',
};

const systemReason = (fault: unknown): string =>
  REASONS[(fault as NodeJS.ErrnoException).code ?? ''] ?? (fault as Error).message;
