import { parse, type AstExpression, type Token } from '@borgar/fx/xlsx';
import { cut } from '../../xlsx/formula';
import type { Book } from './book';
import { Compiler } from './compiler';
import type { Frame } from './frame';
import type { CellFormat } from './sheetStore';
import { Lacking } from './lacking';
import type { Seat, WrittenArea } from './references';
import { isError, type ErrorValue, type Value } from './values';

/** A formula made ready to run, shared by all cells it was filled into. */
export interface Program {
  /** @throws ErrorValue, or whatever the cell source throws */
  readonly run: (frame: Frame) => Value;
  /** All areas the formula names. */
  readonly areas: readonly WrittenArea[];
  /** Names of the functions it calls, in capitals. */
  readonly functions: readonly string[];
  /** Whether what it reads or gives cannot be told from the areas it names. */
  readonly isVolatile: boolean;
  /** Whether a block becomes the one value of the formula's own row or column. */
  readonly intersects: boolean;
  /** What the calculation lacks for it. */
  readonly lacking?: string;
  /** How its result reads: always so, or as what it reads or calls does. */
  readonly format: CellFormat | 'passed' | undefined;
}

/** Makes a formula ready, with its leading `=`, as it reads in the cell at `seat`. Never throws. */
export function programOf(formula: string, seat: Seat, book: Book, intersects: boolean): Program {
  const compiler = new Compiler(book, seat, intersects);
  const common = (): Omit<Program, 'run' | 'format'> => ({
    areas: compiler.areas,
    functions: [...compiler.functions],
    isVolatile: compiler.isVolatile,
    intersects,
  });
  try {
    const text = formula.replace(/^\s*=/, '').trim();
    const tree = parsed(text);
    const run = isInBrackets(text) ? compiler.any(tree) : compiler.last(tree);
    return { ...common(), run, format: compiler.formatOf(tree) };
  } catch (fault) {
    const format = undefined;
    if (isError(fault)) return { ...common(), run: failing(fault), format };
    const lacking =
      fault instanceof Lacking
        ? fault.message
        : fault instanceof RangeError
          ? 'a formula nested this deeply'
          : `a way of writing formulas: ${formula}`;
    return { ...common(), run: () => null, lacking, format };
  }
}

const failing = (error: ErrorValue) => (): never => {
  throw error;
};

/** The tree of a formula without its `=`. @throws Error where it cannot be read */
export function parsed(text: string): AstExpression {
  return parse(soundTokens(cut(text)), { looseRefCalls: true, permitArrayCalls: false });
}

/** Whether one pair of brackets is around all of a formula: its last sign is then not its last step. */
function isInBrackets(text: string): boolean {
  if (!text.startsWith('(') || !text.endsWith(')')) return false;
  let depth = 0;
  return cut(text).every(({ type, value }, at, all) => {
    if (type === 'operator' && value === '(') depth++;
    if (type === 'operator' && value === ')') depth--;
    return depth > 0 || at === all.length - 1;
  });
}

/** Tokens as the parser takes them. */
function soundTokens(tokens: readonly Token[]): Token[] {
  const kept: Token[] = [];
  let inBraces = false;
  for (const token of tokens) {
    const { type, value } = token;
    const before = kept.at(-1);
    if (type === 'operator' && (value === '{' || value === '}')) inBraces = value === '{';
    // `Sheet!#REF!` is an error and no place on that sheet; so is `#REF!A1`.
    if (type === 'error') {
      if (before?.value === '!') kept.pop();
      if (kept.at(-1)?.type.startsWith('context')) kept.pop();
    } else if (type === 'range' && before?.type === 'error') {
      continue;
    } else if (inBraces && type === 'number' && (before?.value === '-' || before?.value === '+')) {
      kept.pop();
      kept.push({ ...token, value: before.value === '-' ? `-${value}` : value });
      continue;
    } else if (inBraces && type === 'whitespace') {
      continue;
    }
    kept.push(isOptionalVariable(token, before) ? { type: 'range_named', value: value.slice(1, -1) } : token);
  }
  return kept;
}

/** `[rate]` among the variables of LAMBDA: it may be left out. */
const isOptionalVariable = ({ type, value }: Token, before: Token | undefined): boolean =>
  type === 'structured' &&
  /^\[[\p{L}_][\p{L}\p{N}_.]*\]$/u.test(value) &&
  (before?.value === '(' || before?.value === ',');
