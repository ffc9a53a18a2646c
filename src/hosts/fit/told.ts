import { isBlank, isCellError } from '../../worksheet/cells/cell';
import type { Answers } from './answers';
import { rangeOf } from '../xlsx/address';
import { placeText, sheetText } from './book';
import type { ColourKey } from './colourKeys';
import { FIGURES, type Question } from './question';
import { partText } from './candidate';
import { unreadHeaders } from './columnChoices';
import type { Fit, TableFit } from './fitted';
import type { TableName } from './jobs';
import type { UnreadCell } from './readCells';
import { alikeAnswer } from './saidOfAll';
import { isMassUnit } from './units';

// What a fit says, in the words of every host.

/** What a grower calls each table of a job. */
export const TABLE_WORDS: Record<TableName, string> = {
  lots: 'lots',
  strains: 'strains',
  rooms: 'rooms',
  orders: 'orders',
  harvests: 'picks',
  recipe: 'recipe',
  shares: 'shares of the flushes',
  calendar: 'limits of a day',
};

const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** `6 records in 'Grow log'!A4:H13; 3 rows of months, totals or headers are passed over` */
export function sourceWords({ candidate }: TableFit): string {
  const { dataRows, passedOver, usedUp = 0, struckOut = 0, counted: byWords = [] } = candidate;
  // Several columns of one block pass over the same rows.
  const over = new Set(
    passedOver.map((row) => {
      const own = candidate.origin(row, 0);
      return `${own.sheet}\n${candidate.parts ? own.row : row}`;
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
    isCounted(at) || readings.some(({ rest, unitColumn }) => rest?.column === at || unitColumn?.column === at)
      ? []
      : [header],
  );
  const ofBlocks = (candidate.parts ?? []).flatMap(({ ignored = [] }) => ignored);
  const all = [...headers, ...new Set(ofBlocks)];
  return all.length === 0 ? '' : `Not used: ${all.join(', ')}`;
}

const yearWords = ({ readings }: TableFit, name: string): string => {
  const year = readings.find((one) => one.name === name)?.year;
  return year === undefined ? '' : ` of ${year}`;
};

/** How a column is read: `dates, month first: 2/19/26 proves it`. */
export function readingWords(fit: TableFit, name: string): string {
  const { conversion, unit, proven, decimalMark, rest, unitColumn, hasLinks, legend, lotDay } =
    fit.readings.find((one) => one.name === name)!;
  if (lotDay) return `the day in the lot’s name, read as ${lotDay.pattern}${yearWords(fit, name)}`;
  if (legend) return `in full by ${legend.range.replaceAll('$', '')}`;
  if (unitColumn) return `in ${unit}, each row by its unit under ${unitColumn.header}`;
  if (rest) return `in ${unit}, with the ${rest.unit} under ${rest.header} added`;
  switch (conversion) {
    case 'headings':
      return 'the strain that the heading above names';
    case 'day headings':
      return 'the day that the heading above names';
    case 'beginnings':
      return 'the strain that the name begins with';
    case 'said':
      return `${fit.readings.find((one) => one.name === name)!.said!.text} for all lots, as you said`;
    case 'sheets':
      return 'the strain that the sheet is named after';
    case 'weekdays':
      return `${fit.readings.some((one) => one.name === name && one.hasDates) ? 'dates as they are, days of the week in ' : ''}every week of the plan, ${counted(1 + Math.max(0, ...(fit.candidate.parts ?? []).map(({ week = 0 }) => week)), 'week')}`;
    case 'none':
      if (name === 'blocks' && fit.candidate.takenOff)
        return `what was made, less the rows ${fit.candidate.takenOff.words.join(', ')}`;
      if (hasLinks) return 'without the page in brackets';
      return isMassUnit(unit) ? `in ${unit}` : 'as it is';
    case 'day figures':
      return 'dates of eight figures, year first';
    case 'figures': {
      const words = unit === 'number' ? 'figures' : `figures, in ${unit}`;
      return decimalMark === 'comma' ? `${words}, decimal comma` : words;
    }
    case 'dates': {
      const ofWeeks = fit.readings.find((one) => one.name === name)!.weeks;
      if (ofWeeks)
        return `dates; weeks of ${ofWeeks.year}${ofWeeks.turn > 0 ? `, after New Year ${ofWeeks.year + 1}` : ''} as their ${ofWeeks.weekday}`;
      const { year, turn } = fit.readings.find((one) => one.name === name)!;
      if (year !== undefined) {
        const open = fit.orders.get(name) ?? 'once you say in which order';
        const both = turn === undefined ? String(year) : `${year}, after New Year ${year + 1}`;
        return `dates of ${both}, as you said${proven?.isNeeded ? `, ${open}` : ''}`;
      }
      if (proven?.lacksYear) return 'dates, once you say which year';
      const order = fit.orders.get(name);
      if (order === undefined) return 'dates, once you say in which order';
      if (proven?.order !== order) return proven?.isNeeded ? `dates, ${order} as you said` : 'dates';
      return `dates, ${order}, as ${counted(proven.proofs, 'of them proves', 'of them prove')}`;
    }
  }
}

/** Why a cell cannot be read; what it holds is in the words, or before them. */
export function unreadWords({ held, why }: UnreadCell): string {
  if (isBlank(held)) return why;
  const shown = isCellError(held) ? held.code : String(held);
  return why.includes(shown) ? why : `“${shown}” ${why}`;
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

/** Cells one below the other of which the same is told. */
export interface UnreadCells {
  readonly cells: readonly UnreadCell[];
  /** Where the first is among all. */
  readonly at: number;
}

/** Cells that cannot be read, those one below the other together. */
export function unreadTogether(unread: readonly UnreadCell[]): UnreadCells[] {
  const groups: { cells: UnreadCell[]; at: number }[] = [];
  unread.forEach((cell, at) => {
    const last = groups.at(-1)?.cells.at(-1);
    const goesOn =
      last !== undefined &&
      last.sheet === cell.sheet &&
      last.column === cell.column &&
      last.row + 1 === cell.row &&
      last.about === cell.about &&
      unreadWords(last) === unreadWords(cell);
    if (goesOn) groups.at(-1)!.cells.push(cell);
    else groups.push({ cells: [cell], at });
  });
  return groups;
}

/** `'Grow log'!C9`, or `'Grow log'!C9:C14` */
export function placeOfCells({ cells }: UnreadCells): string {
  const [first, last] = [cells[0]!, cells.at(-1)!];
  const { sheet, column } = first;
  if (first === last) return placeText(sheet, first.row, column);
  return `${sheetText(sheet)}!${rangeOf({ top: first.row, bottom: last.row, left: column, right: column })}`;
}

export const placeOfUnread = ({ sheet, row, column }: UnreadCell): string => placeText(sheet, row, column);

const EXAMPLE: Readonly<Record<string, string>> = { 'block mass': '5 lb or 2.5 kg', moisture: '62%' };

/** `lots, inoculated` as “inoculated” of your lots. */
function aboutWords(about: string): string {
  const [table = '', column = ''] = about.split(', ');
  return `“${column}” of your ${TABLE_WORDS[table as TableName]}`;
}

/** A question as it is put to the grower. */
export function questionWords(question: Question): string {
  switch (question.kind) {
    case 'table':
      if (!question.isGuess) return `Which of these are your ${TABLE_WORDS[question.table]}?`;
      if (question.hint) return `Your ${TABLE_WORDS[question.table]}: ${question.hint}`;
      return (
        `No table of this book has the headers of your ${TABLE_WORDS[question.table]}` +
        (question.choices.length === 0 ? '' : '. Is it one of these?')
      );
    case 'column':
      if (question.mayBeNone) {
        return `Is “${question.choices.join('” or “')}” of your ${TABLE_WORDS[question.table]} the day a lot was loaded into a room? Say none if it is another day`;
      }
      return (
        `Which column of your ${TABLE_WORDS[question.table]} holds “${question.column}”, ${question.meaning.split(';')[0]!}?` +
        (question.hint === undefined ? '' : ` ${question.hint}`) +
        (question.mayBeAlike
          ? ` If it is the same for all lots, give the figure: ${EXAMPLE[question.column]!}`
          : '') +
        (question.choices.length === 0 && !question.mayBeAlike
          ? ' None that is there could: add one to your sheet, and choose the job again'
          : '')
      );
    case 'dates':
      return question.isContradicted
        ? `Some dates of ${aboutWords(question.about)} are month first and others day first. Which is right? The others will be listed as unreadable`
        : `Are the dates of ${aboutWords(question.about)} day first or month first? Nothing in them shows it: ${question.texts.join(', ')}`;
    case 'years':
      return question.turn
        ? `The dates of ${aboutWords(question.about)} have no year and pass New Year, from ${question.turn.before} to ${question.turn.after}. Which year do they begin in? Those after New Year get the next year`
        : `Which year are the dates of ${aboutWords(question.about)} from? They have no year: ${question.texts.slice(0, 3).join(', ')}. If they are from two years, write the years into the cells`;
    case 'weekdays':
      return `Some cells of ${aboutWords(question.about)} name a week and no day: ${question.texts.slice(0, 3).join(', ')}. Which day of it is meant?`;
    case 'decimals':
      return `Which mark begins the decimals of ${aboutWords(question.about)}: point or comma? Nothing shows it: ${question.texts.join(', ')}`;
    case 'blanks':
      return `${counted(question.places.length, 'cell')} of ${aboutWords(question.about)} ${question.places.length === 1 ? 'is' : 'are'} blank (${question.places.slice(0, 3).join(', ')}${question.places.length > 3 ? ' …' : ''}). Does a blank mean the same as the cell above it?`;
    case 'struck': {
      const { places, table } = question;
      const rows = `${counted(places.length, 'row')} of your ${TABLE_WORDS[table]} ${places.length === 1 ? 'is' : 'are'} struck out`;
      return `${rows} (${places.slice(0, 3).join(', ')}${places.length > 3 ? ' …' : ''}). Should ${places.length === 1 ? 'it' : 'they'} be left out or counted?`;
    }
    case 'rows': {
      const { header, isLog, table, words } = question;
      const each = [...words].map(([word, rows]) => `${word} (${rows})`).join(', ');
      const asked = isLog
        ? `Which of these rows are your ${TABLE_WORDS[table]}`
        : `Which of your ${TABLE_WORDS[table]} still count`;
      return `“${header}” tells rows apart: ${each}. ${asked}?`;
    }
    case 'taken': {
      const each = [...question.words].map(([word, rows]) => `${word} (${rows})`).join(', ');
      return `Other rows of your log name a lot and a number of blocks: ${each}. Which of them take blocks off their lot?`;
    }
    case 'products':
      return `Which strains are sold as ${question.words.join(', ')}?`;
    case 'fill':
      if (question.table === 'shares')
        return 'What share of its crop does each strain give in each flush? Your book says only how many flushes there are. Type 60% and 40%, for example';
      if (question.said) {
        const { place, says, values } = question.said;
        return `${place} says “${says}”: ${values.join(', ')}. How much can you pick in a day, in all rooms together? Write none for no limit`;
      }
      return `Your book has no ${TABLE_WORDS[question.table]}: fill in ${question.columns
        .filter(({ isNeeded }) => isNeeded)
        .map(({ name }) => name)
        .join(', ')}`;
    case 'figure':
      return `${question.figure}: ${FIGURES[question.figure]}`;
  }
}

/** What is still open, as answers to fill in; with what is known put in. */
export function answersTemplate({ questions, answers, tables }: Fit): Answers {
  const columns: Record<string, Record<string, string | null>> = {};
  const dates: Record<string, 'day first' | 'month first' | null> = {};
  const fill: Record<string, Record<string, string | number | null>[]> = {};
  const decimals: Record<string, 'point' | 'comma' | null> = {};
  const years: Record<string, number | null> = {};
  const weekdays: Record<string, null> = {};
  const blanks: Record<string, null> = {};
  const struck: Record<string, null> = {};
  const rows: Record<string, Record<string, readonly string[]>> = {};
  const taken: Record<string, readonly string[]> = {};
  const products: Record<string, string[]> = {};
  const figures: Record<string, string | number | null> = {};
  const parts: Record<string, string> = {};
  for (const [name, { candidate }] of tables) parts[name] = partText(candidate);
  for (const question of questions) {
    switch (question.kind) {
      case 'table':
        parts[question.table] = question.choices[0] ?? 'Sheet!A1:H20';
        break;
      case 'column':
        (columns[question.table] ??= {})[question.column] = question.mayBeNone
          ? null
          : (question.choices[0] ?? null);
        if (question.mayBeAlike) figures[alikeAnswer(question.column)] = null;
        break;
      case 'dates':
        dates[question.about] =
          question.elsewhere === 'day first' ? 'day first' : question.elsewhere ? 'month first' : null;
        break;
      case 'years':
        years[question.about] = question.elsewhere ?? null;
        break;
      case 'weekdays':
        weekdays[question.about] = null;
        break;
      case 'decimals':
        decimals[question.about] = question.elsewhere ?? null;
        break;
      case 'blanks':
        blanks[question.about] = null;
        break;
      case 'struck':
        struck[question.table] = null;
        break;
      case 'rows':
        (rows[question.table] ??= {})[question.header] = question.proposed;
        break;
      case 'taken':
        taken[question.table] = [...question.words.keys()];
        break;
      case 'products':
        for (const word of question.words) products[word] = [];
        break;
      case 'fill': {
        const blank = Object.fromEntries(
          question.columns.flatMap(({ name, column }) =>
            column.role === 'numbered'
              ? Array.from({ length: question.table === 'shares' ? question.numbers : 1 }, (_, i) => [
                  `${name} ${i + 1}`,
                  null,
                ])
              : [[name, null]],
          ),
        );
        const given = question.rows.length > 0 ? question.rows : [{}];
        fill[question.table] = given.map((row) => ({ ...blank, ...row }));
        break;
      }
      case 'figure':
        figures[question.figure] = null;
        break;
    }
  }
  const merged = {
    tables: { ...answers.tables, ...parts },
    columns: { ...answers.columns, ...columns },
    dates: { ...answers.dates, ...dates },
    years: { ...answers.years, ...years },
    weekdays: { ...answers.weekdays, ...weekdays },
    decimals: { ...answers.decimals, ...decimals },
    blanks: { ...answers.blanks, ...blanks },
    struck: { ...answers.struck, ...struck },
    rows: { ...answers.rows, ...rows },
    taken: { ...answers.taken, ...taken },
    products: { ...answers.products, ...products },
    fill: { ...answers.fill, ...fill },
    figures: { ...answers.figures, ...figures },
  };
  return Object.fromEntries(Object.entries(merged).filter(([, part]) => Object.keys(part).length > 0));
}
