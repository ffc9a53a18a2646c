import type { EngineWorkbook } from '../engine/engineWorkbook';
import { dayFormatOf, type Habits } from '../engine/typing/habits';
import { READERS_DAY, READERS_DAY_AND_TIME } from '../xlsx/styles';
import type { Area } from '../xlsx/address';
import { byId } from './element';

/** A selection of more cells has most of them empty. */
const MOST_CELLS = 20_000;

/** How numbers may be shown: what the person is told, and the code that a file has for it. */
const choicesFor = (habits: Habits): readonly (readonly [says: string, code: string])[] => [
  ['As it is (general)', 'General'],
  ['Whole number', '0'],
  ['One decimal', '0.0'],
  ['Two decimals', '0.00'],
  ['Thousands apart', '#,##0'],
  ['Percent', '0%'],
  ['Percent, one decimal', '0.0%'],
  ['Kilograms', '0.0" kg"'],
  ['Grams', '0" g"'],
  ['Pounds', '0.0" lb"'],
  ['Day', READERS_DAY],
  ['Day, month by name', habits.order === 'mdy' ? 'mmm d, yyyy' : 'd mmm yyyy'],
  ['Day with weekday', habits.order === 'mdy' ? 'ddd, mmm d' : 'ddd d mmm'],
  ['Day, year first', 'yyyy-mm-dd'],
  ['Day and time', READERS_DAY_AND_TIME],
  ['Time', 'hh:mm'],
  ['Text, as it is typed', '@'],
];

/** Asks how the numbers of the selected cells are shown, and shows them so. @returns what was done, in a sentence */
export async function chooseFormat(
  workbook: EngineWorkbook,
  { sheet, address }: { readonly sheet: string; readonly address: string },
  area: Area,
): Promise<string | undefined> {
  const reach = workbook.reachOf(sheet);
  const cells = {
    ...area,
    // Of whole rows and columns, as far as the sheet is filled.
    bottom: Math.max(area.top, area.bottom > reach.row + 1 ? Math.min(area.bottom, reach.row) : area.bottom),
    right: Math.max(
      area.left,
      area.right > reach.column + 1 ? Math.min(area.right, reach.column) : area.right,
    ),
  };
  const count = (cells.bottom - cells.top + 1) * (cells.right - cells.left + 1);
  if (count > MOST_CELLS) throw new Error(`these are ${count} cells, more than ${MOST_CELLS}: select fewer`);
  const of = count === 1 ? address : `${count} cells`;
  const code = await askForFormat(workbook, sheet, address, of);
  if (code === undefined) return undefined;
  workbook.setNumberFormat(sheet, cells, code);
  return `The numbers of ${of} have the new format; undo takes it back.`;
}

function askForFormat(
  workbook: EngineWorkbook,
  sheet: string,
  address: string,
  of: string,
): Promise<string | undefined> {
  const dialog = byId<HTMLDialogElement>('formats');
  const now = workbook.numberFormatOf(sheet, address) ?? 'General';
  const { value } = workbook.result(sheet, address);
  byId('formats-list').replaceChildren(
    ...choicesFor(workbook.habits).map(([says, code]) => {
      const label = document.createElement('label');
      const choice = document.createElement('input');
      Object.assign(choice, { type: 'radio', name: 'format', value: code, checked: code === now });
      const example = document.createElement('small');
      const number =
        typeof value === 'number' ? value : /[dhy]/.test(code) && code !== 'General' ? 46_085.25 : 12.5;
      example.textContent = workbook.shownIn(code, number);
      label.append(choice, ` ${says} `, example);
      return label;
    }),
  );
  byId('formats-title').textContent = `How the numbers of ${of} are shown`;
  const { order } = workbook.habits;
  byId('formats-habit').textContent = `Days are written ${dayFormatOf({ order })}, as this book writes them.`;
  return new Promise((resolve) => {
    dialog.returnValue = '';
    dialog.addEventListener(
      'close',
      () => {
        const chosen = new FormData(dialog.querySelector('form')!).get('format') as string | null;
        resolve(dialog.returnValue === 'use' && chosen !== null ? chosen : undefined);
      },
      { once: true },
    );
    dialog.showModal();
  });
}
