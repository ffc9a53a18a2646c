import { parseA1Ref } from '@borgar/fx/xlsx';
import type { Caller } from '../../worksheet/call';
import type { DateSystem } from '../../worksheet/calendar';
import { catalogue } from '../../worksheet/catalogue';
import {
  cellError,
  isCellError,
  plainValues,
  type Block,
  type Cell,
  type ErrorCode,
  type Grid,
} from '../../worksheet/cells/cell';
import { ERROR_CODES, PREFIX } from '../../worksheet/constants';
import { sheetText } from '../fit/book';
import type { Solve } from '../worker/solver';
import { placeOf, type Area, type Place } from '../xlsx/address';
import {
  CannotWriteOut,
  cut,
  plainName,
  writtenOut,
  type Formula,
  type Standing,
  type Vocabulary,
} from '../xlsx/formula';
import { closing } from '../xlsx/variables';
import type { BookContents, FormulaCell } from './book';

// Why a cell shows an error is found by making its call again, from what the cells show now. A log of what calls
// answered would go astray: rows are inserted, sheets renamed, and a book that is opened again calculates nothing.

/** What the cells of a workbook show, and what the words in its formulas stand for. */
export interface CellsShown {
  readonly vocabulary: Vocabulary;
  /** The cells of an area, as far as any are filled; undefined where there is no such sheet. */
  readonly cells: (sheet: string, area: Area) => Grid | undefined;
  /** The cells that the formula at a place fills; undefined where it fills only its own. */
  readonly spill: (sheet: string, place: Place) => Area | undefined;
}

/** An argument that only the host itself could calculate. */
class NotReadable extends Error {}

type Call = (name: string, grids: readonly (Grid | undefined)[]) => Promise<Block>;

/** The calls of Pinset's functions in a formula, made again. */
class Again {
  constructor(
    private readonly at: Standing,
    private readonly shown: CellsShown,
    private readonly call: Call,
  ) {}

  /** The answer of each outermost call. @throws NotReadable */
  async answers(tokens: Formula): Promise<Block[]> {
    const answers: Block[] = [];
    for (let i = 0; i < tokens.length; i++) {
      if (!isOurs(tokens[i])) continue;
      const end = closing(tokens, i + 1);
      answers.push(await this.answer(tokens.slice(i, end + 1)));
      i = end;
    }
    return answers;
  }

  private async answer(tokens: Formula): Promise<Block> {
    return this.call(plainName(tokens[0]!.value).slice(PREFIX.length), await this.given(tokens));
  }

  /** What the arguments of a call hold. @throws NotReadable */
  async given(tokens: Formula): Promise<(Grid | undefined)[]> {
    const given: (Grid | undefined)[] = [];
    for (const one of argumentsOf(tokens.slice(2, -1))) given.push(await this.grid(one));
    return given;
  }

  private async grid(tokens: Formula): Promise<Grid | undefined> {
    const [first, second, ...more] = tokens;
    if (!first) return undefined;
    if (isOurs(first) && closing(tokens, 1) === tokens.length - 1)
      return plainValues(await this.answer(tokens));
    if (second && !(first.type === 'range' && second.value === '#' && more.length === 0)) {
      const isSigned = first.value === '-' && second.type === 'number' && more.length === 0;
      if (!isSigned) throw new NotReadable();
      return [[-Number(second.value)]];
    }
    switch (first.type) {
      case 'number':
        return [[Number(first.value)]];
      case 'string':
        return [[first.value.slice(1, -1).replaceAll('""', '"')]];
      case 'bool':
        return [[first.value.toUpperCase() === 'TRUE']];
      case 'error':
        return [[shownCell(first.value)]];
      case 'range':
      case 'range_beam':
        return this.range(first.value, second !== undefined);
      default:
        throw new NotReadable();
    }
  }

  private range(value: string, isSpill: boolean): Grid {
    const reference = parseA1Ref(value);
    if (!reference || !('range' in reference)) throw new NotReadable();
    const sheet = reference.sheetName || this.at.sheet;
    const { top, left, bottom, right } = reference.range;
    const area = { top: top ?? 0, left: left ?? 0, bottom: bottom ?? Infinity, right: right ?? Infinity };
    const first = { row: area.top, column: area.left };
    const grid = this.shown.cells(sheet, isSpill ? (this.shown.spill(sheet, first) ?? area) : area);
    if (!grid) throw new NotReadable();
    return grid;
  }
}

const isOurs = (token: Formula[number] | undefined): boolean =>
  token?.type === 'func' && plainName(token.value).startsWith(PREFIX);

/** What lies between the commas of a call, without the spaces around it. */
function argumentsOf(tokens: Formula): Formula[] {
  const found: Formula[number][][] = [[]];
  let depth = 0;
  for (const token of tokens) {
    if (token.type === 'operator' && '({'.includes(token.value)) depth++;
    if (token.type === 'operator' && ')}'.includes(token.value)) depth--;
    if (depth === 0 && token.type === 'operator' && token.value === ',') found.push([]);
    else if (token.type !== 'whitespace') found.at(-1)!.push(token);
  }
  return found;
}

const CODES: ReadonlySet<string> = new Set(ERROR_CODES);

/** A cell from what Excel says that it shows. */
export function shownCell(shown: unknown): Cell {
  if (typeof shown === 'number' || typeof shown === 'boolean') return shown;
  if (typeof shown !== 'string' || shown === '') return null;
  if (!isErrorCode(shown)) return shown;
  return cellError(CODES.has(shown) ? (shown as ErrorCode) : '#VALUE!');
}

export const isErrorCode = (shown: unknown): shown is string =>
  typeof shown === 'string' && /^#[A-Z0-9/_]+[!?]?$/.test(shown);

/** Whether a formula has lost cells that it referred to: whatever its cell shows, that is the reason. */
export const refersToDeleted = (formula: string): boolean =>
  cut(formula.replace(/^=/, '')).some(
    ({ type, value }) => type === 'error' && value.toUpperCase() === '#REF!',
  );

/**
 * The formulas of a workbook, each that shows an error with the reason as far as it can be found. What may take long is
 * asked of `solve`, so that the pane stays alive.
 */
export async function explained(
  contents: BookContents,
  caller: Caller,
  solve: Solve,
): Promise<readonly FormulaCell[]> {
  const { shown, dateSystem, formulas } = contents;
  if (!shown) return formulas;
  const call = callWith(caller, solve, dateSystem);
  const all: FormulaCell[] = [];
  for (const cell of formulas) {
    const wants = cell.error !== undefined && cell.reason === undefined && !refersToDeleted(cell.formula);
    all.push(wants ? { ...cell, ...(await reasonFor(cell, shown, call)) } : cell);
  }
  return all;
}

function callWith(caller: Caller, solve: Solve, dateSystem: DateSystem): Call {
  const { signal } = new AbortController();
  return async (name, grids) => {
    const long = catalogue.find((definition) => definition.name === name && definition.takesLong);
    if (long) return (await solve(long, grids, dateSystem, signal))!;
    await caller.ready([name]);
    return caller.call(name, grids, { dateSystem });
  };
}

/**
 * What the arguments of the first call of a function in a formula hold now: undefined where the formula does not call it,
 * `unreadable` where only the host could calculate one of them.
 */
export async function givenTo(
  name: string,
  cell: FormulaCell,
  { shown, dateSystem }: BookContents,
  caller: Caller,
  solve: Solve,
): Promise<readonly (Grid | undefined)[] | 'unreadable' | undefined> {
  if (!shown || !cut(cell.formula).some(calls(name))) return undefined;
  const at = { sheet: cell.sheet, place: placeOf(cell.address)! };
  try {
    const text = cell.formula.replace(/^=/, '');
    const tokens = cut(writtenOut(cut(text), at, { row: 0, column: 0 }, shown.vocabulary).formula);
    return await new Again(at, shown, callWith(caller, solve, dateSystem)).given(callOf(name, tokens));
  } catch (fault) {
    if (fault instanceof NotReadable || fault instanceof CannotWriteOut) return 'unreadable';
    throw fault;
  }
}

const calls =
  (name: string) =>
  ({ type, value }: Formula[number]): boolean =>
    type === 'func' && plainName(value) === `${PREFIX}${name}`;

/** The first call of a function in a formula. */
function callOf(name: string, tokens: Formula): Formula {
  const first = tokens.findIndex(calls(name));
  return tokens.slice(first, closing(tokens, first + 1) + 1);
}

/** The arguments of the first call of a function in a formula, as another sheet writes them. */
export const argumentTexts = (name: string, { formula, sheet }: FormulaCell): string[] =>
  argumentsOf(callOf(name, cut(formula)).slice(2, -1)).map((tokens) =>
    tokens
      .map(({ type, value }) => {
        const isOwn = (type === 'range' || type === 'range_beam') && value !== '#' && !value.includes('!');
        return isOwn ? `${sheetText(sheet)}!${value}` : value;
      })
      .join(''),
  );

async function reasonFor(cell: FormulaCell, shown: CellsShown, call: Call): Promise<Partial<FormulaCell>> {
  const place = placeOf(cell.address)!;
  const at = { sheet: cell.sheet, place };
  try {
    const text = cell.formula.replace(/^=/, '');
    const tokens = cut(writtenOut(cut(text), at, { row: 0, column: 0 }, shown.vocabulary).formula);
    const answers = await new Again(at, shown, call).answers(tokens);
    const isWhole = isOurs(tokens[0]) && closing(tokens, 1) === tokens.length - 1;
    const faulty = placeOf(cell.at ?? cell.address)!;
    const rows = answers.map(({ rows: ofOne }) => ofOne);
    const found = isWhole
      ? (rows[0]![faulty.row - place.row]?.[faulty.column - place.column] ?? '')
      : rows.flat(2).find(isCellError);
    // A call that answers now shows what it found before the cells were changed.
    return isCellError(found) ? { error: found.code, reason: found.reason } : { isStale: true };
  } catch (fault) {
    if (fault instanceof NotReadable || fault instanceof CannotWriteOut) return {};
    throw fault;
  }
}
