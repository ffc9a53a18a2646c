import { helpers, registries, tokenize } from '@odoo/o-spreadsheet';
import type { DateSystem } from '../../worksheet/calendar';
import { CALENDAR_FUNCTIONS } from './builtIns';
import { mostArguments } from './functions';
import { nearestName } from './nearestName';

/** Rows and columns a sheet must have for a formula to reach its cells. */
export interface Reach {
  readonly sheet: string;
  readonly rows: number;
  readonly columns: number;
}

/** What a formula needs of the engine. */
export interface Needs {
  /** Names of functions, in capitals, each once. */
  readonly functions: readonly string[];
  readonly reaches: readonly Reach[];
  /** Set where the engine lacks something: what, in words. */
  readonly lacking?: string;
}

type Token = ReturnType<typeof tokenize>[number];

/** Reads which functions and cells a formula of `sheet` uses, and what of it the engine lacks. */
export function needsOf(formula: string, sheet: string, dateSystem: DateSystem): Needs {
  const functions = new Set<string>();
  const reaches: Reach[] = [];
  const tokens = tokenize(formula).filter(({ type }) => type !== 'SPACE');
  tokens.forEach(({ type, value }, at) => {
    if (type === 'SYMBOL' && tokens[at + 1]?.type === 'LEFT_PAREN') functions.add(value.toUpperCase());
    if (type === 'REFERENCE') {
      const continues = tokens[at - 1]?.value === ':' && !value.includes('!');
      const { sheetName, xc } = helpers.splitReference(value);
      const within = sheetName ?? (continues ? reaches.at(-1)?.sheet : undefined) ?? sheet;
      const { bottom, right } = helpers.toUnboundedZone(xc);
      reaches.push({ sheet: within, rows: (bottom ?? 0) + 1, columns: (right ?? 0) + 1 });
    }
  });
  const lacking = lackOf(tokens, [...functions], dateSystem);
  return { functions: [...functions], reaches, ...(lacking !== undefined && { lacking }) };
}

function lackOf(
  tokens: readonly Token[],
  functions: readonly string[],
  dateSystem: DateSystem,
): string | undefined {
  const unknown = functions.filter((name) => !registries.functionRegistry.contains(name));
  if (unknown.length) return unknown.map(withNearest).join(', ');
  const overfull = overfullCall(tokens);
  if (overfull !== undefined) return overfull;
  const calendar = dateSystem === 1904 ? functions.filter((name) => CALENDAR_FUNCTIONS.has(name)) : [];
  if (calendar.length) return `${calendar.join(', ')} in a workbook that counts its days from 1904`;
  if (hasSignedPower(tokens)) return 'a minus sign before a power: write brackets';
  return undefined;
}

function withNearest(name: string): string {
  const near = nearestName(name);
  if (near !== undefined) return `${name} (did you mean ${near}?)`;
  return name.startsWith('PINSET.') ? `${name} (no function of Pinset)` : name;
}

/** A call of one of Pinset's functions with more arguments than it takes, in words. */
function overfullCall(tokens: readonly Token[]): string | undefined {
  const open: { name: string; count: number }[] = [];
  for (const [at, { type }] of tokens.entries()) {
    if (type === 'LEFT_PAREN' || type === 'LEFT_BRACE') {
      const before = type === 'LEFT_PAREN' ? tokens[at - 1] : undefined;
      open.push({ name: before?.type === 'SYMBOL' ? before.value.toUpperCase() : '', count: 1 });
    } else if (type === 'ARG_SEPARATOR' && open.length > 0) {
      open.at(-1)!.count++;
    } else if (type === 'RIGHT_PAREN' || type === 'RIGHT_BRACE') {
      const { name, count } = open.pop() ?? { name: '', count: 0 };
      const most = mostArguments(name);
      if (most !== undefined && count > most) return `${name} with ${count} arguments (it takes ${most})`;
    }
  }
  return undefined;
}

/** Whether there is a −a^b: a worksheet squares the negative number, the engine negates the square. */
function hasSignedPower(tokens: readonly Token[]): boolean {
  return tokens.some(({ value }, at) => {
    const before = tokens[at - 1];
    const isSign =
      value === '-' &&
      (before === undefined ||
        ['LEFT_PAREN', 'LEFT_BRACE', 'ARG_SEPARATOR', 'ARRAY_ROW_SEPARATOR'].includes(before.type) ||
        (before.type === 'OPERATOR' && before.value !== '%' && before.value !== '#'));
    return isSign && tokens[afterOperand(tokens, at + 1)]?.value === '^';
  });
}

/** The position after the number, reference, call or bracket that begins at `at`. */
function afterOperand(tokens: readonly Token[], at: number): number {
  if (tokens[at]?.type === 'SYMBOL') at++;
  if (tokens[at]?.type !== 'LEFT_PAREN') return tokens[at - 1]?.type === 'SYMBOL' ? at : at + 1;
  let depth = 0;
  do {
    if (tokens[at]!.type === 'LEFT_PAREN') depth++;
    if (tokens[at]!.type === 'RIGHT_PAREN') depth--;
    at++;
  } while (depth > 0 && at < tokens.length);
  return at;
}
