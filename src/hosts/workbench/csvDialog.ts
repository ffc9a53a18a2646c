import type { DateSystem } from '../../worksheet/calendar';
import { editText } from '../engine/typing/editText';
import type { DateOrder } from '../engine/typing/habits';
import { csvCells, csvHabits, decoded, type CsvCell, type CsvHabits } from './csv';
import { byId } from './element';

const MOST_SHOWN = { rows: 8, columns: 8 };

/**
 * Shows how a text file is read, and lets the person say otherwise.
 * @returns its cells; undefined where the person does not take it
 */
export function askForCsv(
  name: string,
  bytes: Uint8Array,
  dateSystem: DateSystem,
): Promise<CsvCell[][] | undefined> {
  const text = decoded(bytes);
  const dialog = byId<HTMLDialogElement>('csv');
  const form = dialog.querySelector('form')!;
  const found = csvHabits(text, navigator.language);
  const choice = (field: string): HTMLSelectElement => form.querySelector(`[name="${field}"]`)!;
  choice('separator').value = found.separator;
  choice('decimal').value = found.decimal;
  choice('csv-order').value = found.order;
  byId('csv-title').textContent = `Import ${name}`;
  const chosen = (): CsvHabits => ({
    separator: choice('separator').value as CsvHabits['separator'],
    decimal: choice('decimal').value as CsvHabits['decimal'],
    order: choice('csv-order').value as DateOrder,
  });
  let cells: CsvCell[][] = [];
  const show = (): void => {
    const habits = chosen();
    cells = csvCells(text, habits, dateSystem, new Date().getFullYear());
    byId('csv-shown').replaceChildren(
      ...cells.slice(0, MOST_SHOWN.rows).map((row) => shownRow(row, dateSystem)),
    );
    const rest = cells.length - MOST_SHOWN.rows;
    byId('csv-rest').textContent = rest > 0 ? `and ${rest} more ${rest === 1 ? 'row' : 'rows'}` : '';
  };
  show();
  form.addEventListener('change', show);
  return new Promise((resolve) => {
    dialog.returnValue = '';
    dialog.addEventListener(
      'close',
      () => {
        form.removeEventListener('change', show);
        resolve(dialog.returnValue === 'take' ? cells : undefined);
      },
      { once: true },
    );
    dialog.showModal();
  });
}

/** Days are shown with the name of their month, so that nobody has to know an order to see which day is meant. */
function shownRow(row: readonly CsvCell[], dateSystem: DateSystem): HTMLElement {
  const line = document.createElement('tr');
  for (const { value, numberFormat } of row.slice(0, MOST_SHOWN.columns)) {
    const cell = document.createElement('td');
    const isDay = typeof value === 'number' && /[dy]/i.test(numberFormat ?? '');
    cell.textContent = isDay
      ? dayInWords(value, dateSystem)
      : typeof value === 'number'
        ? editText(
            value,
            numberFormat,
            { order: 'ymd', decimal: '.', orderFrom: 'person', decimalFrom: 'person' },
            dateSystem,
          )
        : String((value as string | boolean | null) ?? '');
    if (typeof value === 'number') cell.className = 'number';
    line.append(cell);
  }
  return line;
}

function dayInWords(serial: number, dateSystem: DateSystem): string {
  const day = new Date(
    (dateSystem === 1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, 30)) + serial * 86_400_000,
  );
  const time = serial % 1 === 0 ? {} : ({ hour: '2-digit', minute: '2-digit', hour12: false } as const);
  return day.toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    timeZone: 'UTC',
    ...time,
  });
}
