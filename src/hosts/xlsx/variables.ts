import type { Token } from '@borgar/fx/xlsx';

// Variables of LET and LAMBDA: a file marks each of them, so that it is never taken for a name of the workbook.

export const VARIABLE = '_xlpm.';

/** The position of the bracket that closes the one at `open`; the last token where there is none. */
export function closing(tokens: readonly Token[], open: number): number {
  let depth = 0;
  for (let i = open; i < tokens.length; i++) {
    if (tokens[i]!.type !== 'operator') continue;
    if (tokens[i]!.value === '(') depth++;
    else if (tokens[i]!.value === ')' && --depth === 0) return i;
  }
  return tokens.length - 1;
}

/** What stands between the commas of a call, without spaces around it. */
function argumentsIn(tokens: readonly Token[]): Token[][] {
  const parts: Token[][] = [[]];
  let depth = 0;
  for (const token of tokens) {
    if (token.type === 'operator' && '({'.includes(token.value)) depth++;
    if (token.type === 'operator' && ')}'.includes(token.value)) depth--;
    if (token.type === 'operator' && token.value === ',' && depth === 0) parts.push([]);
    else if (token.type !== 'whitespace') parts.at(-1)!.push(token);
  }
  return parts;
}

/** The variables that a call of LET or LAMBDA brings in; undefined where one is no plain word. */
function variablesOf(name: string, inner: readonly Token[]): Set<string> | undefined {
  const all = argumentsIn(inner).slice(0, -1);
  const own = name === 'LET' ? all.filter((_, i) => i % 2 === 0) : all;
  const isWord = (part: readonly Token[]): boolean => part.length === 1 && part[0]!.type === 'range_named';
  return own.every(isWord) ? new Set(own.map(([word]) => word!.value.toLowerCase())) : undefined;
}

/** A formula as it is typed, with its variables marked. `refuse` is told of a call whose variables cannot be. */
export function withMarks(
  tokens: readonly Token[],
  plainName: (name: string) => string,
  refuse: (name: string) => never,
): readonly Token[] {
  const marked = [...tokens];
  tokens.forEach((token, i) => {
    const name = token.type === 'func' ? plainName(token.value).toUpperCase() : '';
    if (name !== 'LET' && name !== 'LAMBDA') return;
    const end = closing(tokens, i + 1);
    const own = variablesOf(name, tokens.slice(i + 2, end)) ?? refuse(name);
    for (let at = i + 2; at < end; at++) {
      const { type, value } = tokens[at]!;
      if ((type === 'range_named' || type === 'func') && own.has(value.toLowerCase()))
        marked[at] = { ...tokens[at]!, value: VARIABLE + value };
    }
  });
  return marked;
}
