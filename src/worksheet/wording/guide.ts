import type { Argument } from '../cells/arguments';
import type { TableColumn } from '../cells/columns';
import type { Kind } from '../cells/kinds';
import type { Result, ResultColumns } from '../cells/results';
import { needOf } from './refusals';

// What the guide says of arguments and results, made from their declarations.

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** What a cell holds: `a date`, `a percentage from 0% to 100%`. */
function kindPhrase(kind: Kind<unknown>): string {
  if (kind.choices) return `one of ${Object.keys(kind.choices).join(', ')}`;
  return kind.word === 'share' ? `${needOf(kind)}: 62% or 0.62` : needOf(kind);
}

/** The shape of an argument and what its cells hold. */
export function argumentPhrase(argument: Argument): string {
  switch (argument.shape) {
    case 'column':
      return `one cell a row, ${kindPhrase(argument.kind)}`;
    case 'setting':
      return `one cell, ${kindPhrase(argument.kind)}`;
    case 'range':
      return `a block of cells, each ${kindPhrase(argument.kind)}`;
    case 'block':
      return 'a range of your sheet, titles and headers included';
    case 'table':
      return 'a table with headers';
  }
}

/** A column of a table: its header, and what it holds after a dash. */
export function columnPhrase(
  property: string,
  { kind, meaning, role, alsoCalled }: TableColumn<unknown>,
): { readonly name: string; readonly words: string } {
  const names = { numbered: `${property} 1, ${property} 2, …`, others: 'any other columns' } as const;
  const name = role === 'numbered' || role === 'others' ? names[role] : property;
  const others =
    role === 'numbered'
      ? [`1st ${property}`, ...alsoCalled.map((other) => `${other} 1`), '1st', `first ${property}`]
      : alsoCalled;
  const parts = [
    meaning,
    ...(kind.word === 'label' || kind.word === 'anything' ? [] : [kindPhrase(kind)]),
    ...(role === 'optional' ? ['optional'] : []),
    ...(others.length > 0 ? [`also read: ${others.join(', ')}`] : []),
  ];
  return { name, words: parts.join('; ') };
}

const FORMATS = { plain: '', date: 'a date', dateTime: 'a date and time', percent: 'a percentage' } as const;

function columnNames(columns: ResultColumns): string {
  return Object.entries(columns)
    .map(([header, { meaning, format, spread }]) => {
      const name =
        spread === 'numbered'
          ? `${header} 1, ${header} 2, …`
          : spread === 'named'
            ? `a column for each ${header}`
            : spread === 'dated'
              ? `a column for each ${header}, headed by its date`
              : header;
      const more = [meaning, FORMATS[format]].filter((words) => words !== '').join('; ');
      return more === '' ? name : `${name} (${more})`;
    })
    .join(', ');
}

/** What a function gives, in a sentence. */
export function resultPhrase({ shape, columns, views }: Result<unknown>): string {
  switch (shape) {
    case 'value':
      return `${capital(columnNames(columns))}.`;
    case 'row':
      return `Beside each row: ${columnNames(columns)}.`;
    case 'table':
      return `A table: ${columnNames(columns)}.`;
    case 'views':
      return `A table, by the view asked for. ${Object.entries(views ?? {})
        .map(([view, of]) => `${capital(view)}: ${columnNames(of)}.`)
        .join(' ')}`;
  }
}
