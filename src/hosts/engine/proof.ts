import { type Cell, type CellError, isCellError } from '../../worksheet/cells/cell';
import { addressOf, areaOf, cellsIn, placeOf, type Area } from '../xlsx/address';
import { isFormula } from '../xlsx/content';
import { callsPinset } from '../xlsx/formula';
import { accuracyOf, isSameNumber } from './sameNumber';
import type { CellContent, CellName, ProvableWorkbook, SheetContent, WorkbookContent } from './workbook';

// The file proves the engine. Each formula is calculated from the results the file stores for what it refers to. Where
// that gives what the file stores for the formula itself, the engine is proven on it, and its later results count.
//
// The file's result is old, and so no evidence against the engine, where
//   1. the file says so: it asks for a full calculation on opening, was saved before its calculation was complete, or
//      whoever opens it says so;
//   2. a formula it refers to has no stored result, or is a call of Pinset whose stored result is not what Pinset
//      gives: the formula may have been calculated from another one;
//   3. the result changes with time or chance: TODAY, RAND;
//   4. it is an error. An error passes through any function, right or wrong, and programs store #NAME? for functions
//      that they lack.
// Such a formula counts, as one without a stored result does, only if a table of known results proves the engine on
// all its functions. A file that holds 0 for all its formulas but arrays, where other results ought to be, stores none:
// libraries, and programs that save what libraries wrote, put 0 where nothing was calculated. Such programs calculate
// arrays on opening even where they leave other formulas alone; a file that asks to be calculated was saved by none.
//
// Every other formula keeps the file's result and is named. That a constant was changed without a calculation leaves no
// trace in a file: then too the result is kept, never replaced on a guess.

/** Why a formula keeps what the file stores for it. */
export type Kept =
  /** The engine gives `here` from the stored values. */
  | { readonly because: 'other result'; readonly here: Cell }
  /** The engine cannot calculate it: it lacks `what`. */
  | { readonly because: 'lacking'; readonly what: string }
  /** The file proves nothing about it, and no table proves the engine on `functions`. */
  | { readonly because: 'unproven'; readonly functions: readonly string[] };

/** A formula and what the file holds for it. */
export interface StoredFormula extends CellName {
  readonly cell: CellContent;
}

/** A formula that keeps what the file stores for it. */
export interface KeptFormula extends StoredFormula {
  readonly functions: readonly string[];
  readonly why: Kept;
}

/** What the file's own results say about the engine. */
export interface Proof {
  /** Formulas that give what the file stores for them. */
  readonly proven: number;
  /** Formulas the file proves nothing about, on whose functions a table proves the engine. */
  readonly believed: number;
  /** Those among them for which the file stores a result. */
  readonly givingWay: readonly StoredFormula[];
  readonly kept: readonly KeptFormula[];
}

/** Functions whose results change though nothing they refer to does. */
const CHANGING: ReadonlySet<string> = new Set([
  'TODAY',
  'NOW',
  'RAND',
  'RANDBETWEEN',
  'RANDARRAY',
  'CELL',
  'INFO',
]);

/**
 * Tries every formula of a workbook but calls of Pinset. `isProven` tells on which functions a table proves the
 * engine. Nothing is changed: the caller lets the workbook keep what is to be kept.
 */
export function proofOf(
  workbook: ProvableWorkbook,
  content: WorkbookContent,
  isProven: (name: string) => boolean,
): Proof {
  const old = oldPinsetResults(workbook, content);
  const givingWay: StoredFormula[] = [];
  const kept: KeptFormula[] = [];
  let [proven, believed] = [0, 0];
  for (const sheet of content.sheets) {
    const stored = new StoredBlocks(sheet);
    for (const cell of sheet.cells) {
      if (!isFormula(cell) || isPinset(cell)) continue;
      const formula = { sheet: sheet.name, address: cell.address, cell };
      const verdict = tried(workbook, formula, stored, content.isStale === true, old, isProven);
      if (verdict === 'proven') proven++;
      else if (verdict === 'believed') {
        believed++;
        if (cell.value !== null) givingWay.push(formula);
      } else {
        const functions = workbook.functionsOf(sheet.name, cell.address);
        kept.push({ ...formula, functions, why: verdict });
      }
    }
  }
  return { proven, believed, givingWay, kept };
}

/**
 * Whether what the file stores for its formulas are no results but zeros in their place. Ends at the first result that
 * says otherwise, so that it costs little in any other file.
 */
export function isNeverCalculated(
  workbook: ProvableWorkbook,
  content: WorkbookContent,
  isProven: (name: string) => boolean,
): boolean {
  const hasOnlyZeros = content.sheets.every(({ cells }) =>
    cells.every((cell) => !cell.value || typeof cell.value === 'boolean' || !isPlain(cell)),
  );
  if (!hasOnlyZeros) return false;
  // A file that asks to be calculated says itself that its zeros are no results.
  const isZero = zerosOf(content);
  if (content.isStale === true) return content.sheets.some(({ cells }) => cells.some(isZero));
  const none = new OldResults();
  return content.sheets.some((sheet) => {
    const stored = new StoredBlocks(sheet);
    return sheet.cells.some((cell) => {
      if (!isZero(cell)) return false;
      const formula = { sheet: sheet.name, address: cell.address, cell };
      const verdict = tried(workbook, formula, stored, false, none, isProven);
      return typeof verdict === 'object' && verdict.because === 'other result';
    });
  });
}

/** A workbook whose zeros are no results. */
export function withoutZeros(content: WorkbookContent): WorkbookContent {
  const isZero = zerosOf(content);
  return {
    ...content,
    sheets: content.sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((cell) => (isZero(cell) ? { ...cell, value: null } : cell)),
    })),
  };
}

/** Which cells may hold 0 in the place of a result. */
const zerosOf =
  ({ isStale }: WorkbookContent) =>
  (cell: CellContent): boolean =>
    cell.value === 0 && (isPlain(cell) || (isStale === true && isArrayOfOne(cell)));

const isPlain = (cell: CellContent): boolean =>
  isFormula(cell) && !isPinset(cell) && cell.spill === undefined;

/** Libraries give an array the one cell of its formula: they do not know the size of its result. */
const isArrayOfOne = (cell: CellContent): boolean =>
  cell.spill !== undefined && cellsIn(areaOf(cell.spill)!) === 1 && !isPinset(cell);

function tried(
  workbook: ProvableWorkbook,
  { sheet, address, cell }: StoredFormula,
  stored: StoredBlocks,
  isStale: boolean,
  old: OldResults,
  isProven: (name: string) => boolean,
): 'proven' | 'believed' | Kept {
  const functions = workbook.functionsOf(sheet, address);
  if (cell.value === null) {
    // Nothing to compare with: it is calculated once, for good.
    const what = workbook.lacking(sheet, address);
    if (what !== undefined) return { because: 'lacking', what };
    return believedFor(functions, isProven);
  }
  const trial = workbook.evaluateFromStored(sheet, address);
  if (trial.unsupported !== undefined) return { because: 'lacking', what: trial.unsupported };
  if (!trial.lacksStored) {
    const [here, ofFile] = [trial.block ?? [[trial.value]], stored.of(cell)];
    const isError = isCellError(cell.value);
    const accuracy = accuracyOf(functions);
    if (areSame(here, ofFile, accuracy)) {
      if (!isError) return 'proven';
    } else {
      const isOld =
        isStale ||
        (isError && isNoResult(cell.value)) ||
        functions.some((name) => CHANGING.has(name)) ||
        workbook.areasOf(sheet, address).some((area) => old.meet(area));
      if (!isOld) return { because: 'other result', here: firstOther(here, ofFile, accuracy) };
    }
  }
  return believedFor(functions, isProven);
}

function believedFor(functions: readonly string[], isProven: (name: string) => boolean): 'believed' | Kept {
  const unproven = functions.filter((name) => !isProven(name));
  return unproven.length === 0 ? 'believed' : { because: 'unproven', functions: unproven };
}

/** Why a formula keeps its stored result, as the end of a sentence about it. */
export function reasonOf(why: Kept): string {
  switch (why.because) {
    case 'lacking':
      return why.what;
    case 'other result':
      return `this calculation gives ${wordOf(why.here)} instead`;
    case 'unproven':
      return `no known results prove this calculation on ${why.functions.join(', ')}`;
  }
}

function wordOf(cell: Cell): string {
  if (isCellError(cell)) return cell.code;
  if (typeof cell === 'number') return String(Number(cell.toPrecision(15)));
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return cell === null ? 'a blank' : `“${cell.length > 40 ? `${cell.slice(0, 40)}…` : cell}”`;
}

export const isPinset = ({ written, formula }: CellContent): boolean => callsPinset(written ?? formula ?? '');

/** Errors that tell of the program that saved the file, or of cells around the formula, not of its result. */
const isNoResult = ({ code, reason }: CellError): boolean =>
  code === '#NAME?' || code === '#BUSY!' || code === '#SPILL!' || reason !== '';

type Rows = readonly (readonly Cell[])[];

/** Whether two results are the same on a sheet, which keeps fifteen digits, or as far as `accuracy` goes. */
export const areSame = (one: Rows, other: Rows, accuracy = 0): boolean =>
  one.length === other.length &&
  one.every(
    (row, r) =>
      row.length === other[r]!.length && row.every((cell, c) => isSame(cell, other[r]![c]!, accuracy)),
  );

function isSame(one: Cell, other: Cell, accuracy: number): boolean {
  if (typeof one === 'number' && typeof other === 'number') return isSameNumber(one, other, accuracy);
  if (isCellError(one) && isCellError(other)) return one.code === other.code;
  // Inside a block a file stores a blank where the result has empty text.
  return one === other || ((one ?? '') === '' && (other ?? '') === '');
}

const firstOther = (here: Rows, ofFile: Rows, accuracy: number): Cell =>
  here.flatMap((row, r) => row.filter((cell, c) => !isSame(cell, ofFile[r]?.[c] ?? null, accuracy)))[0] ??
  here[0]![0]!;

/** What a sheet stores for formulas, the cells that a result fills included. */
export class StoredBlocks {
  private values: Map<string, Cell> | undefined;

  constructor(private readonly sheet: SheetContent) {}

  of({ address, value, spill }: CellContent): Rows {
    const area = spill === undefined ? undefined : areaOf(spill);
    if (!area || cellsIn(area) === 1) return [[value]];
    this.values ??= new Map(this.sheet.cells.map((cell) => [cell.address, cell.value]));
    const values = this.values;
    return Array.from({ length: area.bottom - area.top + 1 }, (_, down) =>
      Array.from({ length: area.right - area.left + 1 }, (__, right) => {
        const at = addressOf({ row: area.top + down, column: area.left + right });
        return at === address ? value : (values.get(at) ?? null);
      }),
    );
  }
}

/** Cells whose stored results are known to be old. */
class OldResults {
  private readonly areas = new Map<string, Area[]>();

  add(sheet: string, area: Area): void {
    const areas = this.areas.get(sheet);
    if (areas) areas.push(area);
    else this.areas.set(sheet, [area]);
  }

  meet({ sheet, ...area }: Area & { sheet: string }): boolean {
    return this.areas.get(sheet)?.some((one) => overlap(one, area)) === true;
  }
}

const overlap = (one: Area, other: Area): boolean =>
  one.top <= other.bottom && one.bottom >= other.top && one.left <= other.right && one.right >= other.left;

/** Calls of Pinset whose stored results are not what Pinset gives: the formulas are ours, and ours is right. */
function oldPinsetResults(workbook: ProvableWorkbook, content: WorkbookContent): OldResults {
  const old = new OldResults();
  for (const sheet of content.sheets) {
    const stored = new StoredBlocks(sheet);
    for (const cell of sheet.cells) {
      if (!isFormula(cell) || !isPinset(cell)) continue;
      const trial = workbook.evaluateFromStored(sheet.name, cell.address);
      if (trial.unsupported !== undefined) continue;
      if (areSame(trial.block ?? [[trial.value]], stored.of(cell))) continue;
      const place = placeOf(cell.address);
      const area = (cell.spill === undefined ? undefined : areaOf(cell.spill)) ?? (place && areaAt(place));
      if (area) old.add(sheet.name, area);
    }
  }
  return old;
}

const areaAt = ({ row, column }: { row: number; column: number }): Area => ({
  top: row,
  left: column,
  bottom: row,
  right: column,
});
