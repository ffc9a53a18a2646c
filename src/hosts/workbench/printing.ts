import type { Grid, PrintedCell } from '../engine/grid';
import { byId } from './element';

/** A page of more cells nobody reads. */
const MOST_CELLS = 60_000;
const LONGEST_LABEL = 12;
/** Pixels between the margins of an upright sheet of paper. */
const PAPER_WIDTH = 680;
const LEAST_ZOOM = 0.6;

/** Text goes on over the empty cells behind it, as it does on the screen. */
function widened(cells: readonly PrintedCell[]): PrintedCell[] {
  const wider: PrintedCell[] = [];
  for (const cell of cells) {
    const before = wider.at(-1);
    const isFree = cell.text === '' && cell.fill === undefined;
    if (isFree && before && !before.isNumber && before.text !== '' && before.fill === undefined) {
      wider[wider.length - 1] = { ...before, across: before.across + cell.across };
    } else {
      wider.push(cell);
    }
  }
  return wider;
}

/** Lays the sheet that is shown out for paper, and opens the browser's printing. @returns why it cannot be printed */
export function printSheet(file: string, grid: Grid): string | undefined {
  const { sheet } = grid.selection();
  const rows = grid.printed();
  const count = rows.reduce((sum, { cells }) => sum + cells.length, 0);
  if (count === 0) return `The sheet ${sheet} is empty.`;
  if (count > MOST_CELLS) return `The sheet ${sheet} is too large to print: it has ${count} cells.`;
  const title = document.createElement('h1');
  title.textContent = sheet;
  const line = document.createElement('p');
  line.textContent = `${file}, printed ${new Date().toLocaleDateString(navigator.language, { dateStyle: 'long' })}`;
  const table = document.createElement('table');
  for (const { cells } of rows) {
    const row = document.createElement('tr');
    for (const { text, isNumber, bold, fill, colour, across } of widened(cells)) {
      const cell = document.createElement('td');
      cell.textContent = text;
      if (across > 1) cell.colSpan = across;
      if (isNumber) cell.className = 'number';
      // A label such as Alder-3 is not broken.
      if (text.length <= LONGEST_LABEL) cell.style.whiteSpace = 'nowrap';
      if (bold) cell.style.fontWeight = '600';
      if (fill !== undefined) cell.style.background = fill;
      if (colour !== undefined) cell.style.color = colour;
      row.append(cell);
    }
    table.append(row);
  }
  const page = byId('print');
  page.replaceChildren(title, line, table);
  // A wide sheet is made smaller until its last column is on the paper, but no smaller than it must be to be read.
  const widthAs = (width: string): number => {
    page.style.cssText = `display: block; position: absolute; visibility: hidden; width: ${width}`;
    return table.offsetWidth;
  };
  const legible = Math.max(LEAST_ZOOM, PAPER_WIDTH / widthAs('max-content'));
  const zoom = Math.min(1, legible, PAPER_WIDTH / widthAs('min-content'));
  page.style.cssText = '';
  table.style.setProperty('zoom', String(zoom));
  window.print();
  return undefined;
}
