import { FIGURES, type Question } from './question';
import type { TableName } from './jobs';
import type { SaidDaysOff, SaidLimit } from './pickLimit';
import type { WeekLimits } from './weekLimits';
import { TABLE_WORDS } from './told';
import { counted } from './dataFinding';

// The questions of a fit, in the words of every host.

const EXAMPLE: Readonly<Record<string, string>> = {
  'block mass': '5 lb or 2.5 kg',
  moisture: '62%',
  efficiency: '70%',
};

/** How one answer holds for all records of a table. */
function alikeWords({ table, column }: Question & { kind: 'column' }): string {
  const example = EXAMPLE[column];
  const what = column === 'strain' || column === 'product' ? 'name' : 'figure';
  const all = ` If it is the same for all ${TABLE_WORDS[table]}, give the ${what}${example === undefined ? '' : `: ${example}`}`;
  if (table === 'lots' && (column === 'block mass' || column === 'moisture'))
    return `${all}. If it differs by strain, add a column to your list of strains, and choose the job again`;
  return table !== 'rooms' ? all : `${all}. If not, add a column to your sheet, and choose the job again`;
}

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
      if (question.mayBeNone && !question.mayBeTyped) {
        return `Is “${question.choices.join('” or “')}” of your ${TABLE_WORDS[question.table]} the day a lot was loaded into a room? Say none if it is another day${question.hint === undefined ? '' : `. ${question.hint}`}`;
      }
      return (
        `Which column of your ${TABLE_WORDS[question.table]} holds “${question.column}”, ${question.meaning.split(';')[0]!}?` +
        (question.hint === undefined ? '' : ` ${question.hint}`) +
        (question.mayBeAlike ? alikeWords(question) : '') +
        (question.mayBeTyped ? '. If it differs, say none of them: you then type it for each strain' : '') +
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
    case 'lost':
      return `“${question.header}” of your ${TABLE_WORDS[question.table]} has numbers that may be blocks. Are those blocks gone (thrown away, lost or used up), so that they no longer count? Say not gone if it counts something else`;
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
      if (question.isElsewhere)
        return `Other sheets list blocks of some of your lots: ${each}. Which of them take blocks off their lot, as loaded or thrown away?`;
      return `Other rows of your log name a lot and a number of blocks: ${each}. Which of them take blocks off their lot?`;
    }
    case 'products':
      return `Which strains are sold as ${question.words.join(', ')}?`;
    case 'fill':
      if (question.table === 'shares') return ofStrains(question);
      if (question.table === 'calendar') return ofLimits(question);
      if (question.table === 'closures')
        return `${question.told!.join('. ')}. Is it shut on these days? Correct them, and leave both days of a room blank if it is open`;
      if (question.told) return `Are these your ${TABLE_WORDS[question.table]}? ${question.told.join('. ')}`;
      return `Your book has no ${TABLE_WORDS[question.table]}: fill in ${question.columns
        .filter(({ isNeeded }) => isNeeded)
        .map(({ name }) => name)
        .join(', ')}`;
    case 'figure':
      return `${question.figure}: ${FIGURES[question.figure]}${question.hint === undefined ? '' : `. ${question.hint}`}`;
  }
}

/** `Rooms!A4 says “We never pick on Sundays”: Sunday off. ` */
const saysWords = (
  { place, says }: { readonly place: string; readonly says: string },
  words: readonly string[],
): string => `${place} says “${says}”: ${words.join(', ')}. `;
const offIn = (all: readonly SaidDaysOff[]): string[] =>
  all.flatMap(({ days }) => days.map((one) => `${one} off`));
const isOf =
  (said: SaidLimit) =>
  ({ place }: SaidDaysOff): boolean =>
    place === said.place;

const weekWords = ({ rows }: WeekLimits): string =>
  rows.map((row) => `${row['day']} ${row['pick limit']}`).join(', ');

/** How much can be picked in a day, with what the book says of it. */
function ofLimits({ said, week, daysOff = [] }: Question & { readonly kind: 'fill' }): string {
  return [
    ...(said ? [saysWords(said, [...said.values, ...offIn(daysOff.filter(isOf(said)))])] : []),
    ...daysOff.filter((one) => !said || !isOf(said)(one)).map((one) => saysWords(one, offIn([one]))),
    ...(week ? [`${week.place} has a limit for each day of the week: ${weekWords(week)}. `] : []),
    'How much can you pick in a day, in all rooms together? Write none for no limit',
    ...(daysOff.length > 0 || week ? [', off for a day on which nobody picks'] : []),
  ].join('');
}

/** What strains do not say of themselves. */
function ofStrains({ columns, numbers }: Question & { readonly kind: 'fill' }): string {
  const lacking = columns.filter(({ name, column }) => name !== 'strain' && column.role !== 'numbered');
  const shares =
    numbers === 0
      ? []
      : [
          'What share of its crop does each strain give in each flush? Your book says only how many flushes there are. Type 60% and 40%, for example',
        ];
  const figures = lacking.map(({ name, column }) => `“${name}”, ${column.meaning.split(';')[0]!}`);
  const one = lacking.length === 1;
  const how = one
    ? 'Type it for each strain, or one figure for all strains'
    : 'Type these figures for each strain, or one figure of each for all strains';
  return [
    ...(figures.length === 0 ? [] : [`Your strains do not say ${figures.join('; nor ')}. ${how}`]),
    ...shares,
  ].join('. ');
}
