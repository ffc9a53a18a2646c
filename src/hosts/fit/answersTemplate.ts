import { OPEN, type Answers } from './answers';
import { partText } from './candidate';
import type { Fit } from './fitted';
import { alikeAnswer } from './saidOfAll';

/** What is still open, as answers to fill in; with what is known put in. */
export function answersTemplate({ job, questions, answers, tables }: Fit): Answers {
  const columns: Record<string, Record<string, string | null>> = {};
  const dates: Record<string, 'day first' | 'month first' | null> = {};
  const fill: Record<string, Record<string, string | number | null>[]> = {};
  const decimals: Record<string, 'point' | 'comma' | null> = {};
  const years: Record<string, number | null> = {};
  const weekdays: Record<string, null> = {};
  const blanks: Record<string, null> = {};
  const struck: Record<string, null> = {};
  const lost: Record<string, Record<string, null>> = {};
  const rows: Record<string, Record<string, readonly string[]>> = {};
  const taken: Record<string, readonly string[]> = {};
  const products: Record<string, string[]> = {};
  const figures: Record<string, string | number | null> = {};
  const parts: Record<string, string> = {};
  for (const [name, { candidate }] of tables) parts[name] = partText(candidate);
  for (const question of questions) {
    switch (question.kind) {
      case 'table':
        parts[question.table] = question.isGuess ? OPEN : question.choices[0]!;
        break;
      case 'column':
        (columns[question.table] ??= {})[question.column] = OPEN;
        if (question.mayBeAlike)
          figures[alikeAnswer(question.table, question.column)] = question.proposed ?? null;
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
      case 'lost':
        (lost[question.table] ??= {})[question.header] = null;
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
              ? Array.from({ length: question.numbers }, (_, i) => [`${name} ${i + 1}`, null])
              : [[name, null]],
          ),
        );
        for (const name of question.alike ?? []) figures[alikeAnswer('strains', name)] ??= null;
        const given = question.rows.length > 0 ? question.rows : [{}];
        fill[question.table] = given.map((row) => ({ ...blank, ...row }));
        break;
      }
      case 'figure':
        figures[question.figure] = question.proposed ?? null;
        break;
    }
  }
  // Without one the job is for the computer's own day.
  if (job.name === 'ready' || job.name === 'plan') figures['today'] = answers.figures?.['today'] ?? null;
  const merged = {
    tables: { ...answers.tables, ...parts },
    columns: withinEach(answers.columns, columns),
    dates: { ...answers.dates, ...dates },
    years: { ...answers.years, ...years },
    weekdays: { ...answers.weekdays, ...weekdays },
    decimals: { ...answers.decimals, ...decimals },
    blanks: { ...answers.blanks, ...blanks },
    struck: { ...answers.struck, ...struck },
    lost: withinEach(answers.lost, lost),
    rows: withinEach(answers.rows, rows),
    taken: { ...answers.taken, ...taken },
    products: { ...answers.products, ...products },
    fill: { ...answers.fill, ...fill },
    figures: { ...answers.figures, ...figures },
    leaveOut: { ...answers.leaveOut },
  };
  return Object.fromEntries(Object.entries(merged).filter(([, part]) => Object.keys(part).length > 0));
}

/** What was given of each table, and what is open of it. */
const withinEach = <T>(
  given: Readonly<Record<string, Readonly<Record<string, T>>>> = {},
  open: Readonly<Record<string, Readonly<Record<string, T>>>>,
): Record<string, Record<string, T>> =>
  Object.fromEntries(
    [...new Set([...Object.keys(given), ...Object.keys(open)])].map((table) => [
      table,
      { ...given[table], ...open[table] },
    ]),
  );
