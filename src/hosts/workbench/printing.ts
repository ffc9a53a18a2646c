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

/** The first row that heads others, which is repeated on each page: texts, and figures below it; 0 where there is none. */
function headerOf(rows: readonly { readonly cells: readonly PrintedCell[] }[]): number {
  const found = rows.findIndex(({ cells }, at) => {
    const filled = cells.filter(({ text }) => text !== '');
    const next = rows[at + 1]?.cells.filter(({ text }) => text !== '') ?? [];
    return (
      filled.length > 2 && filled.every(({ isNumber }) => !isNumber) && next.some(({ isNumber }) => isNumber)
    );
  });
  return Math.max(0, found);
}

function tableOf(
  rows: readonly { readonly cells: readonly PrintedCell[] }[],
  hasHeader: boolean,
): HTMLTableElement {
  const table = document.createElement('table');
  const head = table.createTHead();
  const body = table.createTBody();
  rows.forEach(({ cells }, at) => {
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
    (hasHeader && at === 0 ? head : body).append(row);
  });
  return table;
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
  const at = headerOf(rows);
  const [above, below] = [rows.slice(0, at), rows.slice(at)];
  const page = byId('print');
  const tables = [above, below]
    .filter(({ length }) => length > 0)
    .map((some) => tableOf(some, some === below && at > 0));
  page.replaceChildren(title, line, ...tables);
  // A wide sheet lies across the paper, and is made smaller until its last column is on it, but no smaller than it must be
  // to be read.
  const widthAs = (width: string): number => {
    page.style.cssText = `display: block; position: absolute; visibility: hidden; width: ${width}`;
    return Math.max(...tables.map(({ offsetWidth }) => offsetWidth));
  };
  const [natural, least] = [widthAs('max-content'), widthAs('min-content')];
  const isWide = natural > PAPER_WIDTH * MOST_SQUEEZED;
  const room = isWide ? PAPER_HEIGHT : PAPER_WIDTH;
  const legible = Math.max(LEAST_ZOOM, room / natural);
  const zoom = Math.min(1, legible, room / least);
  page.style.cssText = '';
  for (const table of tables) table.style.setProperty('zoom', String(zoom));
  page.prepend(paperStyle(`${sheet} – ${file}`, isWide));
  window.print();
  return undefined;
}
