import { helpers, tokenize } from '@odoo/o-spreadsheet';

/** Rows and columns a sheet must have for a formula to reach its cells. */
export interface Reach {
  readonly sheet: string;
  readonly rows: number;
  readonly columns: number;
}

/** How far a formula of `sheet` reaches on each sheet that it reads. */
export function reachesOf(formula: string, sheet: string): readonly Reach[] {
  const reaches: Reach[] = [];
  const tokens = tokenize(formula).filter(({ type }) => type !== 'SPACE');
  for (const [at, { type, value }] of tokens.entries()) {
    if (type !== 'REFERENCE') continue;
    const continues = tokens[at - 1]?.value === ':' && !value.includes('!');
    const { sheetName, xc } = helpers.splitReference(value);
    const within = sheetName ?? (continues ? reaches.at(-1)?.sheet : undefined) ?? sheet;
    const { bottom, right } = helpers.toUnboundedZone(xc);
    reaches.push({ sheet: within, rows: (bottom ?? 0) + 1, columns: (right ?? 0) + 1 });
  }
  return reaches;
}
