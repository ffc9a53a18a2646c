import type { ReadRange } from './columns';
import { dayText as lotDayText } from './lotDays';
import { lookedUpText } from './lookedUp';
import { withinText } from './lotWithin';
import { inMonthText, monthKey } from './monthDays';
import { digitText } from './ordinals';
import { otherDayText } from './otherDay';
import { pieceText } from './pieces';
import type { ColumnReading } from './reading';
import { DASHES, DITTO_MARKS } from './values';
import { withoutWeekText } from './weekOf';
import { startText } from './weekRanges';
import { withoutLinkText } from './wordsInCells';

/** The cells of a column; where blanks say the same as the cell above, the last filled one down to each row. */
export function cellsText(
  reading: Pick<ColumnReading, 'match'> & Partial<ColumnReading>,
  range: ReadRange,
  strains?: string,
): string {
  const { match, isFilledDown, hasDittos, hasDashes, hasLinks, lotDay, week, range: weeks } = reading;
  const cells = range.column(match.column);
  const { otherDay, lookedUp, within, months, piece, digit } = reading;
  if (otherDay) return otherDayText(cells, range.column(otherDay.column));
  if (lookedUp) return lookedUpText(lookedUp, lookedUp.strainOf ? (strains ?? '') : cells);
  if (within) return withinText(range.column(within.column), cells);
  if (lotDay) return lotDayText(cells, lotDay);
  if (piece) return pieceText(cells, piece);
  const month = months?.get(monthKey(range.sheet, range.first));
  if (month !== undefined) return inMonthText(cells, month);
  if (hasLinks) return withoutLinkText(cells);
  if (weeks) return startText(cells, weeks.signs);
  if (week) return withoutWeekText(cells, week);
  const isOneOf = (marks: readonly string[]): string =>
    `ISNUMBER(MATCH(LOWER(TRIM(${cells})),{${marks.map((mark) => `"${mark.replaceAll('"', '""')}"`).join(',')}},0))`;
  /** The last filled cell down to each row. */
  const aboveText = (): string => {
    const { rows } = range;
    const filled = [
      `(${cells}<>"")`,
      ...(hasDittos ? [`NOT(${isOneOf(DITTO_MARKS)})`] : []),
      ...range.passedOver(match.column).map((word) => `(${cells}<>"${word.replaceAll('"', '""')}")`),
    ].join('*');
    return `IFERROR(LOOKUP(${rows},${rows}/(${filled}),${cells}),"")`;
  };
  if (digit) return digitText(isFilledDown ? aboveText() : cells, digit);
  if (hasDashes) return `IF(${isOneOf(DASHES)},"",${cells})`;
  if (!isFilledDown && !hasDittos) return cells;
  return isFilledDown ? aboveText() : `IF(${isOneOf(DITTO_MARKS)},${aboveText()},${cells})`;
}
