import type { Grid, PrintedCell } from '../engine/grid';
import { byId } from './element';

/** A page of more cells nobody reads. */
const MOST_CELLS = 60_000;
const LONGEST_LABEL = 12;
/** Pixels between the margins of an upright sheet of paper. */
const PAPER_WIDTH = 680;
/** And of one that lies across. */
const PAPER_HEIGHT = 1000;
/** A sheet this much wider than the paper still stands upright. */
const MOST_SQUEEZED = 1.15;
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

type Row = { readonly cells: readonly PrintedCell[] };

const filledIn = ({ cells }: Row): readonly PrintedCell[] => cells.filter(({ text }) => text !== '');
const isOfTexts = (row: Row): boolean => filledIn(row).every(({ isNumber }) => !isNumber);

/** How many rows below a header are looked at for its figures: a sentence may come before them. */
const BELOW_HEADER = 3;

/**
 * The first row that heads others, which is repeated on each page: texts, and figures below it; 0 where there is none.
 * Of several rows the last that stands out is the header, where one does.
 */
function headerOf(rows: readonly Row[]): number {
  const heads = (row: Row | undefined): boolean =>
    row !== undefined && filledIn(row).length > 2 && isOfTexts(row);
  const standsOut = (row: Row): boolean =>
    filledIn(row).every(({ bold, fill }) => bold || fill !== undefined);
  const found = rows.flatMap((row, at) => {
    const below = rows.slice(at + 1, at + 1 + BELOW_HEADER);
    return heads(row) && below.some((one) => !isOfTexts(one)) ? [at] : [];
  });
  const outstanding = found.find((at) => {
    const next = rows[at + 1];
    return standsOut(rows[at]!) && !(heads(next) && standsOut(next!));
  });
  return outstanding ?? found[0] ?? 0;
}

/** The cells of a row up to the last that shows something; a text has the room of the empty ones behind it. */
function shownOf(row: readonly PrintedCell[]): PrintedCell[] {
  const cells = widened(row);
  while (cells.at(-1)?.text === '' && cells.at(-1)?.fill === undefined) cells.pop();
  return cells;
}

function rowOf({ cells }: Row): HTMLTableRowElement {
  const row = document.createElement('tr');
  const shown = shownOf(cells);
  // A line below a row leads the eye along its cells.
  if (shown.length === 1) row.className = 'words';
  for (const { text, isNumber, bold, align, fill, colour, across } of shown) {
    const cell = document.createElement('td');
    cell.textContent = text;
    if (across > 1) cell.colSpan = across;
    if (isNumber) cell.className = 'number';
    cell.style.textAlign = align ?? (isNumber ? 'right' : 'left');
    // A label such as Alder-3 is not broken.
    if (text.length <= LONGEST_LABEL) cell.style.whiteSpace = 'nowrap';
    if (bold) cell.style.fontWeight = '600';
    if (fill !== undefined) cell.style.background = fill;
    if (colour !== undefined) cell.style.color = colour;
    row.append(cell);
  }
  return row;
}

function tableOf(rows: readonly Row[], hasHeader = false): HTMLTableElement {
  const table = document.createElement('table');
  const [head, body] = [table.createTHead(), table.createTBody()];
  rows.forEach((row, at) => (hasHeader && at === 0 ? head : body).append(rowOf(row)));
  return table;
}

const columnsOf = (rows: readonly Row[]): number =>
  Math.max(...rows.map(({ cells }) => cells.reduce((sum, { across }) => sum + across, 0)));

/** What is above the header and what is below it, as tables whose columns are those of one. */
function tablesOf(rows: readonly Row[], widths: readonly number[]): HTMLTableElement[] {
  const at = headerOf(rows);
  const [above, below] = [rows.slice(0, at), rows.slice(at)];
  return [above, below]
    .filter(({ length }) => length > 0)
    .map((some) => {
      const table = tableOf(some, some === below && at > 0);
      const columns = document.createElement('colgroup');
      for (const width of widths) {
        const column = document.createElement('col');
        column.style.width = `${width}px`;
        columns.append(column);
      }
      table.prepend(columns);
      table.style.tableLayout = 'fixed';
      table.style.width = `${widths.reduce((sum, width) => sum + width, 0)}px`;
      return table;
    });
}

/** The paper, and at its foot what it is and which page of how many. */
function paperStyle(foot: string, isWide: boolean): HTMLStyleElement {
  const style = document.createElement('style');
  const small = 'font: 8pt sans-serif; color: #555';
  style.textContent =
    `@page { size: ${isWide ? 'landscape' : 'portrait'}; margin: 12mm 12mm 15mm; ` +
    `@bottom-left { content: ${JSON.stringify(foot)}; ${small} } ` +
    `@bottom-right { content: counter(page) ' / ' counter(pages); ${small} } }`;
  return style;
}

/** What is printed: the cells that are selected where they are a block, else the sheet. */
function printedOf(grid: Grid): readonly Row[] {
  const part = grid.selected();
  return grid.printed(part.bottom > part.top && part.right > part.left ? part : undefined);
}

/** Lays the sheet that is shown out for paper, and opens the browser's printing. @returns why it cannot be printed */
export function printSheet(file: string, grid: Grid): string | undefined {
  const { sheet } = grid.selection();
  const rows = printedOf(grid);
  const count = rows.reduce((sum, { cells }) => sum + cells.length, 0);
  if (count === 0) return `The sheet ${sheet} is empty.`;
  if (count > MOST_CELLS) return `The sheet ${sheet} is too large to print: it has ${count} cells.`;
  const title = document.createElement('h1');
  title.textContent = sheet;
  const line = document.createElement('p');
  line.textContent = `${file}, printed ${new Date().toLocaleDateString(navigator.language, { dateStyle: 'long' })}`;
  const page = byId('print');
  const whole = tableOf(rows);
  const measured = whole.tBodies[0]!.insertRow();
  for (let n = columnsOf(rows); n > 0; n--) measured.insertCell();
  page.replaceChildren(whole);
  // A wide sheet lies across the paper, and is made smaller until its last column is on it, but no smaller than it must be
  // to be read.
  const widthAs = (width: string): number => {
    page.style.cssText = `display: block; position: absolute; visibility: hidden; width: ${width}`;
    return whole.offsetWidth;
  };
  const [natural, least] = [widthAs('max-content'), widthAs('min-content')];
  const isWide = natural > PAPER_WIDTH * MOST_SQUEEZED;
  const room = isWide ? PAPER_HEIGHT : PAPER_WIDTH;
  const legible = Math.max(LEAST_ZOOM, room / natural);
  const zoom = Math.min(1, legible, room / least);
  widthAs(`${room / zoom}px`);
  const tables = tablesOf(
    rows,
    [...measured.cells].map((cell) => cell.getBoundingClientRect().width),
  );
  page.style.cssText = '';
  for (const table of tables) table.style.setProperty('zoom', String(zoom));
  page.replaceChildren(paperStyle(`${sheet} – ${file}`, isWide), title, line, ...tables);
  window.print();
  return undefined;
}
