import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { looksIn } from './looks';

// A form stamps every answer with its day, and asks for the day only where it was another one.

/** The column of days that counts where one that says another day is blank. */
export interface OtherDay {
  readonly column: number;
  readonly header: string;
}

/** `Date picked (if not today)` */
const IF_OTHER =
  /\b(?:if|wenn|falls|si|als|indien|se|jesli|hvis)\b.*\b(?:not|other|different|earlier|nicht|ander\w*|pas|autre|otr[oa]|diferente|niet|divers[oa]|altr[oa]|inn[ya]|outr[oa]|anden)\b/i;
/** The day of an entry. */
const STAMP =
  /^(?:timestamp|zeitstempel|horodat\w*|marca temporal|tijdstempel|informazioni cronologiche|sygnatura czasowa|carimbo de data\/hora|tidsstempel|submi\w+.*|entered.*|logged.*)$/i;
const MOST_BLANK = 0.5;

export const isStamp = (header: string): boolean => STAMP.test(header.trim());

/** The only other column of days that is filled where this one is blank, if its header or theirs says what they are. */
export function otherDayOf(
  { headers, matches, sheet, dataRows, lies, parts }: Candidate,
  column: number,
): OtherDay | undefined {
  if (lies || parts?.some((part) => part.lies)) return undefined;
  const blanks = dataRows.filter((row) => isBlank(cellAt(sheet, row, column)));
  if (blanks.length === 0) return undefined;
  const saysOther = IF_OTHER.test(headers.get(column) ?? '');
  const found = [...headers].filter(([at, header]) => {
    if (matches.some((match) => match.column === at)) return false;
    const isOfEntry = isStamp(header) && blanks.length >= MOST_BLANK * dataRows.length;
    return (saysOther || isOfEntry) && looksIn(sheet, dataRows, at).get('date') === dataRows.length;
  });
  const [only, more] = found;
  return only && !more ? { column: only[0], header: only[1] } : undefined;
}

/** The day of a stamp, which has a time as well. */
export const dayOfStamp = (cell: Cell): Cell => (typeof cell === 'number' ? Math.floor(cell) : cell);

/** The same as a formula says it. */
export const otherDayText = (cells: string, stamps: string): string =>
  `IF(${cells}="",IF(ISNUMBER(${stamps}),INT(${stamps}),${stamps}),${cells})`;
