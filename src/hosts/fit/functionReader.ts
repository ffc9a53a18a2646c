import type { DateSystem } from '../../worksheet/calendar';
import type { Caller } from '../../worksheet/call';
import { plainValues, type Cell } from '../../worksheet/cells/cell';
import { asLotDay } from './lotDays';
import type { Reader } from './readCells';
import { inTheirYear } from './years';

/** The functions that a reader calls: they must be ready. */
export const READ_WITH = ['TODATES', 'TONUMBERS', 'MATCHLABELS'];

/** Reads cells by the very functions that the formulas will call. */
export function functionReader({ call }: Pick<Caller, 'call'>, dateSystem: DateSystem): Reader {
  const column = (
    name: string,
    cells: readonly Cell[],
    ...settings: (string | number | null | readonly string[])[]
  ): Cell[] => {
    if (cells.length === 0) return [];
    const block = call(
      name,
      [
        cells.map((cell) => [cell]),
        ...settings.map((one) =>
          typeof one === 'object' && one !== null ? one.map((label) => [label]) : [[one]],
        ),
      ],
      { dateSystem },
    );
    const rows = plainValues(block);
    // A fault of the whole call is told in each of its cells.
    return cells.map((_, i) => (rows[i] ?? rows[0]!)[0]!);
  };
  return {
    dateSystem,
    lotDay: (cell, day) => asLotDay(cell, day, dateSystem),
    dates: (cells, order, year, turn) => {
      const dates = column('TODATES', cells, order, ...(year === undefined ? [] : [year]));
      if (turn === undefined || year === undefined) return dates;
      return inTheirYear(dates, column('TODATES', cells, order, year + 1), turn, dateSystem);
    },
    figures: (cells, unit, decimalMark, ofRange) =>
      column(
        'TONUMBERS',
        cells,
        unit,
        ...(decimalMark === undefined && ofRange === undefined ? [] : [decimalMark ?? null]),
        ...(ofRange === undefined ? [] : [ofRange]),
      ),
    labels: (cells, list) => column('MATCHLABELS', cells, list),
  };
}
