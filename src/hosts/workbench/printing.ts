import type { Grid, PrintedCell, PrintedCells, Zone } from '../engine/grid';
import { COLUMNS, ROWS } from '../xlsx/address';
import type { PrintSetup, Span } from '../xlsx/printSetup';
import { byId } from './element';

/** A page of more cells nobody reads. */
const MOST_CELLS = 60_000;
const LONGEST_LABEL = 12;
/** Pixels between the margins of a sheet of paper, A4 or Letter, below the sheet's name. */
const PAPER = {
  portrait: { width: 690, height: 880 },
  landscape: { width: 960, height: 620 },
} as const;
type Paper = (typeof PAPER)[keyof typeof PAPER];
/** A sheet this much wider than the paper still stands upright. */
const MOST_SQUEEZED = 1.15;
/** Texts are broken over lines before letters become smaller than this. */
const WRAPPING_ZOOM = 0.8;
/** What fits on one page is made larger, so that it is read at arm's length. */
const MOST_ZOOM = 1.35;
/** Letters of another size may be a trifle wider than they were measured. */
const SLACK = 1.03;
/** Nobody reads less at a bench: further columns go on further pages. */
const LEAST_ZOOM = 0.65;
/** A longer text does not make its column wider where columns are dealt out to pages. */
const WIDEST_COLUMN = 240;

/** Text goes on over the empty cells behind it, as it does on the screen. */
function widened(cells: readonly PrintedCell[]): PrintedCell[] {
  const wider: PrintedCell[] = [];
  for (const cell of cells) {
    const before = wider.at(-1);
    const isBoxed = cell.ruled.left !== undefined || cell.ruled.right !== undefined;
    const isFree = cell.text === '' && cell.fill === undefined && !isBoxed;
    if (isFree && before && !before.isNumber && before.text !== '' && before.fill === undefined) {
      wider[wider.length - 1] = { ...before, across: before.across + cell.across };
    } else {
      wider.push(cell);
    }
  }
  return wider;
}

type Row = PrintedCells['rows'][number];

const filledIn = ({ cells }: Row): readonly PrintedCell[] => cells.filter(({ text }) => text !== '');
const isOfTexts = (row: Row): boolean => filledIn(row).every(({ isNumber }) => !isNumber);

/** How many rows below a header are looked at for its figures: a sentence may come before them. */
const BELOW_HEADER = 3;

/**
 * The first row that heads others, which is repeated on each page: texts, and figures below it. Of several rows the last
 * that stands out is the header, where one does.
 */
function headerOf(rows: readonly Row[]): Row | undefined {
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
  return rows[outstanding ?? found[0] ?? -1];
}

const isBlank = ({ text, fill, ruled }: PrintedCell): boolean =>
  text === '' && fill === undefined && Object.keys(ruled).length === 0;
const isFilled = ({ cells }: Row): boolean => !cells.every(isBlank);

/** The cells of a row up to the last that shows something; a text has the room of the empty ones behind it. */
function shownOf(row: readonly PrintedCell[]): PrintedCell[] {
  const cells = widened(row);
  while (cells.length > 0 && isBlank(cells.at(-1)!)) cells.pop();
  return cells;
}

const areWords = ([first, ...more]: readonly PrintedCell[]): boolean =>
  first !== undefined && !first.isNumber && more.length === 0;

function rowOf({ cells }: Row, isHead: boolean, columns: number): HTMLTableRowElement {
  const row = document.createElement('tr');
  const shown = shownOf(cells);
  // A line below a row leads the eye along its cells; words of their own have the whole width of the paper.
  const isWords = areWords(shown);
  if (isWords) row.className = 'words';
  for (const { text, isNumber, bold, align, fill, colour, across, ruled } of shown) {
    const cell = document.createElement('td');
    cell.textContent = text;
    cell.colSpan = isWords ? columns + 1 : across;
    if (isNumber) cell.className = 'number';
    cell.style.textAlign = align ?? (isNumber ? 'right' : 'left');
    // A label such as Alder-3 is not broken, but in a header.
    if (!isHead && text.length <= LONGEST_LABEL) cell.style.whiteSpace = 'nowrap';
    if (bold) cell.style.fontWeight = '600';
    if (fill !== undefined) cell.style.background = fill;
    if (colour !== undefined) cell.style.color = colour;
    for (const [side, line] of Object.entries(ruled)) {
      cell.style.setProperty(`border-${side}`, `0.5pt solid ${line}`);
    }
    row.append(cell);
  }
  return row;
}

function tableOf(rows: readonly Row[], header: readonly Row[], columns: number): HTMLTableElement {
  const table = document.createElement('table');
  table.createTHead().append(...header.map((row) => rowOf(row, true, columns)));
  table.createTBody().append(...rows.map((row) => rowOf(row, false, columns)));
  return table;
}

/** The rows of a table on paper. */
interface Block {
  readonly columns: readonly number[];
  readonly above: readonly Row[];
  /** Repeated on each page. */
  readonly head: readonly Row[];
  readonly below: readonly Row[];
  /** How wide its columns are in a table of a width, in pixels. */
  readonly widthsAt: (width: string) => readonly number[];
}

/** The rows of a part of the sheet, cells of `keys` first in each. */
function cellsOf(grid: Grid, part: Zone, keys?: Span): PrintedCells {
  const own = grid.printed(part);
  if (!keys) return own;
  const before = grid.printed({ ...part, left: keys.from, right: keys.to });
  const cells = new Map(before.rows.map((one) => [one.row, one.cells]));
  return {
    columns: [...before.columns, ...own.columns],
    rows: own.rows.map((one) => ({ ...one, cells: [...(cells.get(one.row) ?? []), ...one.cells] })),
  };
}

function blockOf(grid: Grid, part: Zone, { titleRows, titleColumns }: PrintSetup, keys?: Span): Block {
  const before = keys ?? (titleColumns && titleColumns.to < part.left ? titleColumns : undefined);
  const { columns, rows: all } = cellsOf(grid, part, before);
  const last = all.filter(isFilled).at(-1)?.row ?? -1;
  const rows = all.filter(({ row }) => row <= last);
  const header = headerOf(rows)?.row;
  const found = header === undefined ? undefined : { from: header, to: header };
  // Titles that come after everything head nothing.
  const titles = titleRows && titleRows.from <= last ? titleRows : found;
  const head = titles ? cellsOf(grid, { ...part, top: titles.from, bottom: titles.to }, before).rows : [];
  const above = titles ? rows.filter(({ row }) => row < titles.from) : [];
  const below = titles ? rows.filter(({ row }) => row > titles.to) : rows;
  return { above, head, below, columns, widthsAt: measured([...above, ...below], head, columns.length) };
}

/** What is printed: the cells that are selected where they are a block, else what the file says, else the sheet. */
function partsOf(grid: Grid, { areas }: PrintSetup): readonly Zone[] {
  const part = grid.selected();
  if (part.bottom > part.top && part.right > part.left) return [part];
  const filled = areas.filter((area) => grid.printed(area).rows.some(isFilled));
  return filled.length > 0 ? filled : [{ top: 0, left: 0, bottom: ROWS - 1, right: COLUMNS - 1 }];
}

function measured(rows: readonly Row[], head: readonly Row[], columns: number): Block['widthsAt'] {
  // A line of words makes no column wider.
  const inColumns = ({ cells }: Row): boolean => !areWords(shownOf(cells));
  const table = tableOf(rows.filter(inColumns), head.filter(inColumns), columns);
  const row = table.tBodies[0]!.insertRow();
  const cells = Array.from({ length: columns }, () => row.insertCell());
  return (width) =>
    unseen(table, width, () => cells.map((cell) => cell.getBoundingClientRect().width * SLACK));
}

/** What something measures on the paper, at a width. */
function unseen<T>(one: HTMLElement, width: string, measure: () => T): T {
  const page = byId('print');
  page.replaceChildren(one);
  page.style.cssText = `display: block; position: absolute; visibility: hidden; width: ${width}`;
  const found = measure();
  page.style.cssText = '';
  return found;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

/** The parts of a part that is too wide for one page: the same rows, other columns on each. */
function dealt(part: Zone, keys: Span, { columns, widthsAt }: Block, room: number): Zone[] {
  const widths = widthsAt('max-content');
  const taken = sum(widths.filter((_, at) => isWithin(keys, columns[at]!)));
  const parts: Zone[] = [];
  let left = room;
  columns.forEach((column, at) => {
    if (isWithin(keys, column)) return;
    const width = Math.min(widths[at]!, WIDEST_COLUMN);
    if (parts.length === 0 || width > left) {
      parts.push({ ...part, left: column, right: column });
      left = room - taken;
    } else {
      parts[parts.length - 1] = { ...parts.at(-1)!, right: column };
    }
    left -= width;
  });
  return parts;
}

const isWithin = ({ from, to }: Span, line: number): boolean => line >= from && line <= to;

/** What is above the header and what is below it, as tables whose columns are those of one. */
function sectionOf({ above, head, below, widthsAt }: Block, paper: Paper): HTMLElement {
  const natural = widthsAt('max-content');
  const least = sum(widthsAt('min-content'));
  const squeezed = Math.min(1, Math.max(WRAPPING_ZOOM, paper.width / sum(natural)), paper.width / least);
  const fits = sum(natural) * squeezed <= paper.width;
  const widths = fits ? natural : widthsAt(`${paper.width / squeezed / SLACK}px`);
  const section = document.createElement('section');
  section.append(tableOf(above, [], widths.length), tableOf(below, head, widths.length));
  for (const table of section.querySelectorAll('table')) {
    if (table.rows.length === 0) table.remove();
    const columns = document.createElement('colgroup');
    for (const width of widths) {
      const column = document.createElement('col');
      column.style.width = `${width}px`;
      columns.append(column);
    }
    // The last, which has no cells but words, takes what is left of the paper.
    columns.append(document.createElement('col'));
    table.prepend(columns);
    table.style.tableLayout = 'fixed';
  }
  const height = unseen(section, `${paper.width}px`, () => section.offsetHeight);
  const enlarged = Math.min(MOST_ZOOM, paper.width / sum(natural), paper.height / height);
  const zoom = fits && squeezed === 1 ? Math.max(1, enlarged) : squeezed;
  for (const table of section.querySelectorAll('table')) {
    table.style.width = `${paper.width / zoom}px`;
    table.style.setProperty('zoom', String(zoom));
  }
  return section;
}

/** The paper, and at its foot what it is and which page of how many. */
function paperStyle(foot: string, orientation: keyof typeof PAPER): HTMLStyleElement {
  const style = document.createElement('style');
  const small = 'font: 8pt sans-serif; color: #555';
  style.textContent =
    `@page { size: ${orientation}; margin: 12mm 12mm 15mm; ` +
    `@bottom-left { content: ${JSON.stringify(foot)}; ${small} } ` +
    `@bottom-right { content: counter(page) ' / ' counter(pages); ${small} } }`;
  return style;
}

/** Lays the sheet that is shown out for paper, and opens the browser's printing. @returns why it cannot be printed */
export function printSheet(file: string, grid: Grid, setup: PrintSetup): string | undefined {
  const { sheet } = grid.selection();
  const parts = partsOf(grid, setup).map((part) => ({ part, block: blockOf(grid, part, setup) }));
  const rows = parts.flatMap(({ block: { above, head, below } }) => [...above, ...head, ...below]);
  const count = sum(rows.map(({ cells }) => cells.length));
  if (count === 0) return `The sheet ${sheet} is empty.`;
  if (count > MOST_CELLS) return `The sheet ${sheet} is too large to print: it has ${count} cells.`;
  const widest = Math.max(...parts.map(({ block }) => sum(block.widthsAt('max-content'))));
  const isWide = widest > PAPER.portrait.width * MOST_SQUEEZED;
  const orientation = setup.orientation ?? (isWide ? 'landscape' : 'portrait');
  const paper = PAPER[orientation];
  const pages = parts.flatMap(({ part, block }) => onPages(grid, part, block, setup, paper));
  const title = document.createElement('h1');
  title.textContent = sheet;
  const line = document.createElement('p');
  line.textContent = `${file}, printed ${new Date().toLocaleDateString(navigator.language, { dateStyle: 'long' })}`;
  const sections = pages.map((block) => sectionOf(block, paper));
  byId('print').replaceChildren(paperStyle(`${sheet} – ${file}`, orientation), title, line, ...sections);
  window.print();
  return undefined;
}

/** A block as it is, or as several that beside each other would be too wide to be read. */
function onPages(grid: Grid, part: Zone, block: Block, setup: PrintSetup, { width }: Paper): Block[] {
  if (setup.fitsWidth || width / sum(block.widthsAt('min-content')) >= LEAST_ZOOM) return [block];
  const [first = 0] = block.columns;
  const keys = setup.titleColumns ?? { from: first, to: first };
  const beside = dealt(part, keys, block, width / WRAPPING_ZOOM);
  return beside.map((one) => blockOf(grid, one, setup, keys));
}
