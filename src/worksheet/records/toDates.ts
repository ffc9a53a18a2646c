import type { DateOrder } from '../../maths/records/textDates';
import type { CalcError } from '../../maths/shared/fault';
import { keyColumn, optionalSetting, setting } from '../cells/arguments';
import { formatted, isCellError, type Cell, type CellError, type Formatted } from '../cells/cell';
import { anything, choice, number, serial } from '../cells/kinds';
import { date, value } from '../cells/results';
import { defineFunction } from '../define';
import { refusedIn } from './ownCells';

const order = choice<DateOrder>({
  'day first': 'day, month, year: 14/3/26',
  'month first': 'month, day, year: 3/14/26',
  'year first': 'year, month, day: 26-03-14',
});

/** A date, with its time of day where it has one. */
const shownDate = (when: number): number | Formatted =>
  Number.isInteger(when) ? when : formatted(when, 'dateTime');

export const TODATES = defineFunction({
  name: 'TODATES',
  family: 'records',
  arguments: [
    keyColumn('dates', anything(), 'dates as your sheet has them, as text or as real dates'),
    setting('order', order, 'how the texts write a date: day first, month first or year first'),
    optionalSetting(
      'year',
      number({ from: 1905, to: 9999, whole: true }),
      undefined,
      'year of dates that are written without one',
    ),
  ],
  result: value('date', date()),
  needs: ['converting'],
  needsDateSystem: true,
  beside: (cells, stated, year, context) => {
    const texts = cells.map((cell) => (typeof cell === 'string' ? cell : undefined));
    const read = context.tools.converting.textDates(texts, stated, {
      system: context.dateSystem,
      year,
      rowOf: (index) => context.rowNumbers[index]!,
    });
    const kind = serial();
    return cells.map((cell: Cell, at): number | Formatted | CellError | CalcError => {
      const own = read[at] ?? kind.accept(cell);
      if (typeof own === 'number') return shownDate(own);
      return own ?? (isCellError(cell) ? cell : refusedIn('dates', kind, cell, at, context));
    });
  },
});
