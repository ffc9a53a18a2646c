import { placeText } from './book';
import { counted } from './dataFinding';
import type { ColourKey } from './colourKeys';
import { partText } from './candidate';
import { unreadHeaders } from './columnChoices';
import { yieldColumns, yieldWords } from './yieldFigures';
import { isLess, lessWords, onShelvesWords } from './less';
import type { Fit, TableFit } from './fitted';
import { OF_RANGE, recipeWords } from './howRead';
import type { TableName } from './jobs';
import { joinedWords } from './joinedColumns';
import { isMassUnit } from './units';
import { partWords } from './waitParts';

// What a fit says, in the words of every host.

/** What a grower calls each table of a job. */
export const TABLE_WORDS: Record<TableName, string> = {
  lots: 'lots',
  strains: 'strains',
  rooms: 'rooms',
  orders: 'orders',
  harvests: 'picks',
  recipe: 'recipe',
  shares: 'figures of the strains',
  calendar: 'limits of a day',
  closures: 'days on which rooms are shut',
  standing: 'blocks on the shelves',
};

/** `6 records in 'Grow log'!A4:H13; 3 rows of months, totals or headers are passed over` */
export function sourceWords({ candidate }: TableFit): string {
  const { dataRows, passedOver, usedUp = 0, struckOut = 0, counted: byWords = [] } = candidate;
  // Several columns of one block pass over the same rows.
  const over = new Set(
    passedOver.map((row) => {
      const own = candidate.origin(row, 0);
      return `${own.sheet}\n${candidate.parts && !candidate.isTurned ? own.row : row}`;
    }),
  ).size;
  return (
    `${counted(dataRows.length, 'record')} in ${partText(candidate)}` +
    (over === 0
      ? ''
      : `; ${counted(over, 'row')} of months, totals or repeated headers ${over === 1 ? 'is' : 'are'} passed over`) +
    (usedUp === 0
      ? ''
      : `; ${counted(usedUp, 'lot')} with none left ${usedUp === 1 ? 'is' : 'are'} passed over`) +
    joinedWords(candidate)
      .map((one) => `; ${one}`)
      .join('') +
    (struckOut === 0 ? '' : `; ${counted(struckOut, 'struck-out row')} left out`) +
    byWords
      .map(({ header, leftOut }) =>
        leftOut === 0 ? '' : `; ${counted(leftOut, 'row')} left out by “${header}”`,
      )
      .join('')
  );
}

/** `Not used: Notes, Status`: nothing where every column is read. */
export function ignoredWords({ candidate, readings }: TableFit): string {
  const isCounted = (at: number): boolean => (candidate.counted ?? []).some(({ column }) => column === at);
  const headers = unreadHeaders(candidate).flatMap(([at, header]) =>
    isCounted(at) ||
    candidate.lost?.columns.includes(at) ||
    readings.some(({ ofYields: yields }) => yields && yieldColumns(yields).includes(at)) ||
    readings.some(({ match, lookedUp, rest, unitColumn, perRack, otherDay, within, parts = [] }) =>
      [lookedUp && match, rest, unitColumn, perRack, otherDay, within, ...parts].some(
        (beside) => beside?.column === at,
      ),
    )
      ? []
      : [header],
  );
  const ofBlocks = (candidate.parts ?? []).flatMap(({ ignored = [] }) => ignored);
  const all = [...headers, ...new Set(ofBlocks)];
  return all.length === 0 ? '' : `Not used: ${all.join(', ')}`;
}

/** `oysters only as Blue oyster` */
const strainWords = (inStrains: ReadonlyMap<string, string>): string =>
  [...inStrains].map(([word, strains]) => `${word} as ${strains === '' ? 'any' : strains}`).join('; ');

const yearWords = ({ readings }: TableFit, name: string): string => {
  const year = readings.find((one) => one.name === name)?.year;
  return year === undefined ? '' : ` of ${year}`;
};

/** `every week of the plan, 4 weeks` */
function weekdaysWords({ candidate: { parts = [] }, readings }: TableFit, name: string): string {
  const weeks = counted(1 + Math.max(0, ...parts.map(({ week = 0 }) => week)), 'week');
  const isOfEach = parts.some(({ day = 0 }) => day > 0) && !readings.some(({ overDays }) => overDays);
  const dates = readings.some((one) => one.name === name && one.hasDates)
    ? 'dates as they are, days of the week in '
    : '';
  return `${dates}every week of the plan, ${weeks}${isOfEach ? ', the whole on each of several days' : ''}`;
}

/** How a column is read: `dates, month first: 2/19/26 proves it`. */
export function readingWords(fit: TableFit, name: string): string {
  const {
    conversion,
    unit,
    proven,
    decimalMark,
    rest,
    unitColumn,
    perRack,
    overDays,
    parts,
    inStrains,
    hasLinks,
    legend,
    lotDay,
    match,
    noRooms,
    ofYields: yields,
    isDry,
    isDryShare,
  } = fit.readings.find((one) => one.name === name)!;
  const { ofRecipe } = fit.readings.find((one) => one.name === name)!;
  const { otherDay, lookedUp, within } = fit.readings.find((one) => one.name === name)!;
  if (isDryShare) return 'what the dry share leaves';
  if (isDry) return `in ${unit}, the dry part of the block, its moisture added`;
  if (noRooms && noRooms.length > 0) return `as it is; no room: ${noRooms.join(', ')}`;
  if (otherDay) return `as it is, where it is blank the day under ${otherDay.header}`;
  if (lookedUp) return `in ${unit === 'share' ? 'shares' : unit}, by ${lookedUp.from}`;
  if (within) return `behind what is under ${within.header}, as ${within.header}-${match.header}`;
  if (ofRecipe) return recipeWords(ofRecipe.basis);
  if (lotDay) return `the day in the lot’s name, read as ${lotDay.pattern}${yearWords(fit, name)}`;
  if (legend) return `in full by ${legend.range.replaceAll('$', '')}`;
  if (inStrains) return strainWords(inStrains);
  if (yields) return yieldWords(yields, fit.candidate.headers);
  if (parts) return `the sum of ${partWords(parts)}`;
  if (overDays)
    return `${unit === 'number' ? '' : `in ${unit}, `}what is for a week in equal parts on its days under ${overDays.header}`;
  if (perRack) return `times the shelves under ${perRack.header}`;
  if (unitColumn) return `in ${unit}, each row by its unit under ${unitColumn.header}`;
  if (rest?.isTakenOff) return `in ${unit}, less what is under ${rest.header}`;
  if (rest) return `in ${unit}, with the ${rest.unit} under ${rest.header} added`;
  switch (conversion) {
    case 'headings':
      return 'the strain that the heading above names';
    case 'day headings':
      return 'the day that the heading above names';
    case 'beginnings':
      return 'the strain that the name begins with';
    case 'said':
      return `${fit.readings.find((one) => one.name === name)!.said!.text} for all ${TABLE_WORDS[fit.candidate.table.name]}, as you said`;
    case 'sheets':
      return 'the strain that the sheet is named after';
    case 'weekdays':
      return weekdaysWords(fit, name);
    case 'none':
      if (name === 'blocks' && fit.candidate.takenOff)
        return `what was made, less the rows ${fit.candidate.takenOff.words.join(', ')}`;
      if (name === 'blocks' && isLess(fit.candidate))
        return lessWords(fit.candidate) + onShelvesWords(fit.candidate);
      if (hasLinks) return 'without the page in brackets';
      return isMassUnit(unit) || unit === 'weeks' ? `in ${unit}` : 'as it is';
    case 'day figures':
      return 'dates of eight figures, year first';
    case 'figures': {
      const words = unit === 'number' ? 'figures' : `figures, in ${unit}`;
      const { ofRange } = fit.readings.find((one) => one.name === name)!;
      const range = ofRange === undefined ? '' : `, of a range the ${OF_RANGE[ofRange]}`;
      const isOfLess = name === 'blocks' && isLess(fit.candidate);
      const less = isOfLess ? `, ${lessWords(fit.candidate)}${onShelvesWords(fit.candidate)}` : '';
      return (decimalMark === 'comma' ? `${words}, decimal comma` : words) + range + less;
    }
    case 'dates': {
      const { range } = fit.readings.find((one) => one.name === name)!;
      if (range)
        return range.weekday === undefined
          ? 'weeks, once you say which day of them'
          : `weeks, as their ${range.weekday}`;
      if (fit.readings.find((one) => one.name === name)!.months) return 'days of the month that is over them';
      const { weeks: ofWeeks, dayBeside } = fit.readings.find((one) => one.name === name)!;
      if (ofWeeks)
        return `dates; weeks of ${ofWeeks.year}${ofWeeks.turn > 0 ? `, after New Year ${ofWeeks.year + 1}` : ''} ${dayBeside ? `on the day under ${dayBeside.header}` : `as their ${ofWeeks.weekday}`}`;
      const { year, turn } = fit.readings.find((one) => one.name === name)!;
      if (year !== undefined) {
        const open = fit.orders.get(name) ?? 'once you say in which order';
        const both = turn === undefined ? String(year) : `${year}, after New Year ${year + 1}`;
        return `dates of ${both}, as you said${proven?.isNeeded ? `, ${open}` : ''}`;
      }
      if (proven?.lacksYear) return 'dates, once you say which year';
      const order = fit.orders.get(name);
      if (order === undefined) return 'dates, once you say in which order';
      const { asProvenOn } = fit.readings.find((one) => one.name === name)!;
      if (asProvenOn !== undefined) return `dates, ${order}, as ${asProvenOn} proves`;
      if (proven?.order !== order) return proven?.isNeeded ? `dates, ${order} as you said` : 'dates';
      return `dates, ${order}, as ${counted(proven.proofs, 'of them proves', 'of them prove')}`;
    }
  }
}

/** A message about a row of a table, told of the grower's own cell: `(row 5 of lots)` as `('Grow log'!C9)`. */
export const inOwnCells = ({ tables }: Fit, text: string): string =>
  text.replace(/\(row (\d+) of (\w+)\)/g, (whole, row: string, name: string) => {
    const table = tables.get(name as TableName);
    if (!table) return whole;
    const { candidate, readings } = table;
    const at = candidate.area.top + Number(row) - 1;
    const about = [...readings]
      .sort((a, b) => b.name.length - a.name.length)
      .find((one) => text.includes(`${one.name} in ${name} `));
    const own = candidate.origin(at, (about ?? readings[0]!).match.column);
    return `(${placeText(own.sheet, own.row, own.column)})`;
  });

/** `'Our bags'!A2 says what colours mean: “red = mouldy”.` */
export const colourWords = ({ sheet, row, column, says }: ColourKey): string =>
  `${placeText(sheet, row, column)} says what colours mean: “${says}”. Colours are not read: if rows should be left out for theirs, put the word into a column of its own`;
