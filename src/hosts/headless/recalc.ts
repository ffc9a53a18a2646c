import { type Format, isCellError } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import { openProven, type ProvenWorkbook } from '../engine/openWorkbook';
import { areSame, isPinset as callsPinset, reasonOf, StoredBlocks, type Kept } from '../engine/proof';
import type { CellContent, CellName, WorkbookContent } from '../engine/workbook';
import { addressOf, placeOf } from '../xlsx/address';
import { isFormula } from '../xlsx/content';
import { withoutSpillsOf } from '../xlsx/formula';
import { patchWorkbook, type Change } from '../xlsx/patch';
import { readWorkbook } from '../xlsx/read';
import { CommandFault, type Output, type Status } from './command';
import { aboutFile, bytesOf, targetOf, writeWhole } from './files';
import { keptLines, placeText } from './kept';
import {
  causesOf,
  faultsIn,
  faultText,
  jsonValue,
  namesText,
  rowText,
  shownResult,
  type Fault,
  type Shown,
} from './shown';
import { jsonText, oneLine } from './terminal';

export interface RecalcOptions {
  readonly out: string | undefined;
  /** Results in place of Pinset's formulas. */
  readonly asValues: boolean;
  /** Whether the file's stored results may be older than what they were calculated from. */
  readonly changed: boolean;
  readonly json: boolean;
}

/** One formula of the workbook and what came of it. */
export interface Calculated {
  readonly sheet: string;
  readonly cell: CellContent;
  readonly formula: string;
  readonly isPinset: boolean;
  readonly shown: Shown;
  readonly faults: readonly Fault[];
  /** Why it keeps the result stored in the file, where it does. */
  readonly kept: (Kept & { readonly functions: readonly string[] }) | undefined;
  /** A formula that keeps its stored result and that this result depends on. */
  readonly restsOn: CellName | undefined;
  /** Whether the result is not the one the file stores. */
  readonly isNew: boolean;
}

/** Calculates a workbook, reports on Pinset's formulas and, where asked, writes a copy with the new results. */
export async function recalc(path: string, options: RecalcOptions, output: Output): Promise<Status> {
  if (options.asValues && options.out === undefined) {
    throw new CommandFault('--values needs --out RESULT.xlsx, the file to write');
  }
  const target = options.out === undefined ? undefined : await targetOf(options.out);
  const bytes = await bytesOf(path);
  const { changes, status, results, remarks } = await worked(path, bytes, options);
  // First, so that a file that cannot be patched gives its one sentence and no results.
  if (target !== undefined) {
    const patched = aboutFile(path, () => patchWorkbook(bytes, changes));
    await writeWhole(target, patched);
  }
  for (const line of results) output.out(line);
  for (const line of remarks) output.error(line);
  return status;
}

/** What a calculation came to. */
interface Worked {
  readonly changes: readonly Change[];
  readonly status: Status;
  readonly results: readonly string[];
  readonly remarks: readonly string[];
}

/** Calculates, and lets go of the calculation: a large file leaves no room for it beside its copy. */
async function worked(path: string, bytes: Uint8Array, options: RecalcOptions): Promise<Worked> {
  const content = aboutFile(path, () => readWorkbook(bytes));
  const proven = await openProven(options.changed ? { ...content, isStale: true } : content);
  const { count, told, changes } = gathered(calculated(content, proven), options);
  const ours = told.filter(({ isPinset }) => isPinset);
  const results = options.json
    ? [...told.map(jsonLine), jsonText({ summary: summaryOf(count, told, proven) })]
    : ours.map((one) => textLine(one, content.dateSystem));
  const remarks = options.json
    ? []
    : [...(ours.length === 0 ? [withoutPinset(count)] : []), ...keptLines(count, told)];
  const status = ours.some(({ faults, kept }) => faults.length > 0 || kept) ? 1 : 0;
  return { changes, status, results, remarks };
}

/** Of all formulas what is told and what is written: a large file has many of which there is nothing to say. */
function gathered(
  formulas: Iterable<Calculated>,
  { out, asValues }: RecalcOptions,
): { readonly count: number; readonly told: readonly Calculated[]; readonly changes: readonly Change[] } {
  let count = 0;
  const told: Calculated[] = [];
  const all: Calculated[] = [];
  const changes: Change[] = [];
  for (const one of formulas) {
    count++;
    if (one.isPinset || one.kept || one.restsOn) told.push(one);
    if (asValues) all.push(one);
    else if (out !== undefined) for (const change of newResult(one)) changes.push(change);
  }
  return { count, told, changes: asValues ? valueChanges(all) : changes };
}

function* calculated(content: WorkbookContent, { workbook, proof }: ProvenWorkbook): Generator<Calculated> {
  const kept = new Map(proof.kept.map((one) => [placeText(one.sheet, one.address), one]));
  const whyKept = (sheet: string, address: string, what: string): Calculated['kept'] => {
    const { functions, why } = kept.get(placeText(sheet, address)) ?? {
      functions: workbook.functionsOf(sheet, address),
      why: { because: 'lacking' as const, what },
    };
    return { ...why, functions };
  };
  for (const one of content.sheets) {
    const { name: sheet, cells } = one;
    const stored = new StoredBlocks(one);
    for (const cell of cells) {
      if (!isFormula(cell)) continue;
      const formula = cell.written ?? cell.formula ?? '=?';
      const result = workbook.result(sheet, cell.address);
      const shown = shownResult(workbook, sheet, cell.address, result);
      const { unsupported } = result;
      yield {
        sheet,
        cell,
        formula,
        isPinset: callsPinset(cell),
        shown,
        faults: faultsIn(shown, cell.address),
        kept: unsupported === undefined ? undefined : whyKept(sheet, cell.address, unsupported),
        restsOn: result.restsOn,
        isNew: !areSame(shown.rows, stored.of(cell)),
      };
    }
  }
}

/** Pinset's formulas are always written, so that Excel can calculate them; others only where their result is new. */
const newResult = ({ sheet, cell, shown, kept, isPinset, isNew }: Calculated): Change[] =>
  kept === undefined && (isPinset || isNew) ? [{ sheet, address: cell.address, values: shown.rows }] : [];

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
    // A result that could not be calculated may be old: it is not made to last.
    if (isPinset && one.kept) return [];
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

function textLine(one: Calculated, dateSystem: DateSystem): string {
  const { sheet, cell, formula, shown, faults, kept, restsOn } = one;
  const { rows, formats } = shown;
  const [height, width] = [rows.length, rows[0]!.length];
  const first = rows[0]![0]!;
  const fields = [placeText(sheet, cell.address), oneLine(formula)];
  if (height === 1 && width === 1) {
    fields.push(isCellError(first) ? faultText(first) : rowText([first], formats[0]!, dateSystem).join(''));
  } else {
    fields.push(`${height} × ${width}: ${rowText(rows[0]!, formats[0]!, dateSystem).join(', ')}`);
    if (faults.length > 0) fields.push(faultsText(one));
  }
  // Where the file stores none, the error says so.
  if (kept && cell.value !== null)
    fields.push(`not calculated, the file's own result is kept: ${reasonOf(kept)}`);
  if (restsOn)
    fields.push(`depends on ${placeText(restsOn.sheet, restsOn.address)}, which keeps its stored result`);
  return fields.map(oneLine).join('\t');
}

/** `2 of 60 rows fault: 2 in D3, D9: #VALUE! fresh: a mass above 0 needed, got "none"` */
function faultsText({ cell, shown, faults }: Calculated): string {
  const rows = new Set(faults.map(({ cell: address }) => placeOf(address)!.row)).size;
  const causes = causesOf(faults, cell.address).map(
    ({ cells, text }) => `${cells.length > 1 ? `${cells.length} in ` : ''}${namesText(cells)}: ${text}`,
  );
  return `${rows} of ${shown.rows.length} rows ${rows === 1 ? 'faults' : 'fault'}: ${causes.join('; ')}`;
}

function jsonLine({ sheet, cell, formula, shown, faults, kept, restsOn }: Calculated): string {
  const { rows } = shown;
  const single = rows.length === 1 && rows[0]!.length === 1;
  const [fault] = faults;
  return jsonText({
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
    ...(kept && {
      kept: kept.because,
      reason: reasonOf(kept),
      functions: kept.functions,
      ...(kept.because === 'other result' && { calculated: jsonValue(kept.here) }),
    }),
    ...(restsOn && { dependsOn: { sheet: restsOn.sheet, cell: restsOn.address } }),
  });
}

const summaryOf = (count: number, told: readonly Calculated[], { proof }: ProvenWorkbook) => ({
  formulas: count,
  pinset: told.filter(({ isPinset }) => isPinset).length,
  provenByFile: proof.proven,
  provenByTable: proof.believed,
  kept: told.filter(({ kept }) => kept).length,
  dependOnKept: told.filter(({ restsOn }) => restsOn).length,
});

function withoutPinset(count: number): string {
  const others =
    count === 0
      ? 'it has no others either'
      : `${count === 1 ? 'its one formula is' : `its ${count} formulas are`} built-in`;
  return `This workbook has no Pinset formulas; ${others}.`;
}
