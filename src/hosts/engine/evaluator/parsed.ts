import { parse, type AstExpression, type Token } from '@borgar/fx/xlsx';
import { cut } from '../../xlsx/formula';

/** The tree of a formula without its `=`. @throws Error where it cannot be read */
export function parsed(text: string): AstExpression {
  return parse(soundTokens(cut(text)), { looseRefCalls: true, permitArrayCalls: false });
}

/** Whether one pair of brackets is around all of a formula: its last sign is then not its last step. */
export function isInBrackets(text: string): boolean {
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
