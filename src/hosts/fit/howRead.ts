import type { TableFit } from './fitted';
import { yieldWords } from './yieldFigures';
import { isLess, lessWords } from './less';
import type { ColumnReading } from './reading';
import { partWords } from './waitParts';
import type { Basis } from './recipe';

/** What counts of a range. */
export const OF_RANGE = { from: 'first figure', to: 'second figure', middle: 'middle' } as const;

export const howRead = (given: TableFit, reading: ColumnReading): string => {
  if (reading.isDryShare) return 'the rest of the dry share';
  if (reading.isDry) return `in ${reading.unit}, the dry part of the block, its moisture added`;
  if (reading.ofYields) return yieldWords(reading.ofYields, given.candidate.headers);
  if (reading.parts) return partWords(reading.parts);
  if (reading.ofRecipe) return recipeWords(reading.ofRecipe.basis);
  switch (reading.conversion) {
    case 'dates':
      if (reading.months)
        return `day of the month over it${reading.year === undefined ? '' : `, year ${reading.year}`}`;
      return `${given.orders.get(reading.name) ?? 'day first'}${reading.year === undefined ? '' : `, year ${reading.year}${reading.turn ? `, from January ${reading.year + 1}` : ''}`}${reading.weeks ? `, year ${reading.weeks.year}, ${reading.dayBeside ? `weeks by ${reading.dayBeside.header}` : `weeks as ${reading.weeks.weekday}`}` : ''}${reading.range ? `, weeks as ${reading.range.weekday!}` : ''}${asAbove(reading)}`;
    case 'day figures':
      return 'year, month and day in eight figures';
    case 'figures': {
      const unit = reading.unit === 'number' ? 'figures' : `in ${unitsOf(reading)}`;
      const range = reading.ofRange === undefined ? '' : `, of a range the ${OF_RANGE[reading.ofRange]}`;
      const less =
        reading.name === 'blocks' && isLess(given.candidate) ? `, ${lessWords(given.candidate)}` : '';
      const mark = reading.decimalMark === undefined ? '' : `, decimal ${reading.decimalMark}`;
      return unit + mark + range + less;
    }
    case 'weekdays':
      return reading.hasDates
        ? `${given.orders.get(reading.name) ?? 'dates'}${reading.year === undefined ? '' : `, year ${reading.year}`}, weekdays every week`
        : 'every week';
    case 'headings':
    case 'day headings':
      return 'the heading above';
    case 'beginnings':
      return 'the beginning of the name';
    case 'sheets':
      return 'the name of the sheet';
    case 'said':
      return `${reading.said!.text} for all ${given.candidate.table.name}`;
    case 'none':
      if (reading.inStrains) return 'your words as strains';
      if (reading.perRack) return `times ${reading.perRack.header}`;
      if (reading.name === 'blocks' && isLess(given.candidate)) return lessWords(given.candidate);
      if (reading.legend) return `in full by ${reading.legend.range.replaceAll('$', '')}`;
      return reading.rest || reading.unitColumn || reading.unit === 'weeks'
        ? `in ${unitsOf(reading)}`
        : `as it is${asAbove(reading)}`;
  }
};

/** Whether what is done to a column leaves its blanks blank, without a test. */
export const passesBlanks = (reading: ColumnReading): boolean =>
  reading.conversion !== 'day figures' &&
  reading.unitColumn === undefined &&
  reading.rest?.isTakenOff !== true &&
  reading.perRack === undefined &&
  reading.overDays === undefined &&
  reading.weeks === undefined &&
  reading.range === undefined;

/** An audit says itself what is wrong with a cell, and tells what was written there. */
export const isShownAsWritten = ({ wanted, conversion, rest, unitColumn }: ColumnReading): boolean =>
  wanted.column.kind.word === 'anything' &&
  rest === undefined &&
  unitColumn === undefined &&
  (conversion === 'dates' || conversion === 'figures');

const asAbove = ({
  isFilledDown,
  hasDittos,
  hasDashes,
  hasZeros,
  hasLinks,
  otherDay,
  within,
  lookedUp,
  dayBeside,
}: ColumnReading): string =>
  (otherDay ? `, where blank ${otherDay.header}` : '') +
  (within ? `, behind ${within.header}` : '') +
  (lookedUp ? `, by ${lookedUp.from}` : '') +
  (hasLinks ? ', without the page in brackets' : '') +
  (hasDittos ? ', ditto marks as above' : '') +
  (hasDashes ? ', a dash as blank' : '') +
  (hasZeros ? ', 0 as none' : '') +
  (isFilledDown || dayBeside?.isFilledDown === true ? ', blanks as above' : '');

/** How the figures of a recipe become shares of its dry mass. */
export const recipeWords = (basis: Basis): string =>
  basis === 'dry' ? 'dry parts as shares' : 'as weighed, less the moisture, as shares of the dry mass';

const unitsOf = ({ unit, rest, unitColumn }: ColumnReading): string =>
  unitColumn
    ? `${unit} by ${unitColumn.header}`
    : rest?.isTakenOff
      ? `${unit}, less ${rest.header}`
      : rest
        ? `${unit} and ${rest.unit}`
        : unit;
