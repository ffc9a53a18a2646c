import { helpers, registries, tokenize } from '@odoo/o-spreadsheet';
import type { DateSystem } from '../../worksheet/define';

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

/** Built-ins that turn dates into numbers or back: the engine counts days from 1900 in all of them. */
const CALENDAR_FUNCTIONS = new Set(
  (
    'DATE DATEDIF DATEVALUE DAY DAYS360 EDATE EOMONTH ISOWEEKNUM MONTH NETWORKDAYS NETWORKDAYS.INTL NOW TEXT ' +
    'TODAY WEEKDAY WEEKNUM WORKDAY WORKDAY.INTL YEAR YEARFRAC'
  ).split(' '),
);

/** Reads which functions and cells a formula of `sheet` uses, and what of it the engine lacks. */
export function needsOf(formula: string, sheet: string, dateSystem: DateSystem): Needs {
  const functions = new Set<string>();
  const reaches: Reach[] = [];
  const tokens = tokenize(formula);
  tokens.forEach(({ type, value }, at) => {
    if (type === 'SYMBOL' && tokens[at + 1]?.type === 'LEFT_PAREN') functions.add(value.toUpperCase());
    if (type === 'REFERENCE') {
      const continues = tokens[at - 1]?.value === ':' && !value.includes('!');
      const { sheetName, xc } = helpers.splitReference(value);
      const within: string = sheetName ?? (continues ? reaches.at(-1)?.sheet : undefined) ?? sheet;
      const { bottom, right } = helpers.toUnboundedZone(xc);
      reaches.push({ sheet: within, rows: (bottom ?? 0) + 1, columns: (right ?? 0) + 1 });
    }
  });
  const lacking = lackOf([...functions], dateSystem);
  return { functions: [...functions], reaches, ...(lacking === undefined ? {} : { lacking }) };
}

function lackOf(functions: readonly string[], dateSystem: DateSystem): string | undefined {
  const unknown = functions.filter((name) => !registries.functionRegistry.contains(name));
  if (unknown.length) return unknown.join(', ');
  const calendar = dateSystem === 1904 ? functions.filter((name) => CALENDAR_FUNCTIONS.has(name)) : [];
  if (calendar.length) return `${calendar.join(', ')} in a workbook that counts its days from 1904`;
  return undefined;
}
