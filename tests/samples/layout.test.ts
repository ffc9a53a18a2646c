import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { workbooks } from '../../sample-workbooks/workbooks';
import { addressOf, areaOf, type Area } from '../../src/hosts/xlsx/address';
import type { Chart, Sheet, Thing, Workbook } from '../../src/hosts/xlsx/describe';
import { STARTERS } from '../../src/hosts/pane/starters';
import { layOut, type Page, type PageCell } from '../../src/hosts/xlsx/page';
import { areaAt, placeAt, Places, type Results } from '../../src/hosts/xlsx/places';
import { readWorkbook } from '../../src/hosts/xlsx/read';

// The rule of DEVELOPERS.md: a sheet begins with its answer, and nothing is in the way of what can grow. Looked at is where
// the descriptions put everything, with the results of the committed files.

/** Sheets that only keep what a grower types. */
const KEPT: Readonly<Record<string, readonly string[]>> = {
  'farm-book': ['Picks', 'Strains'],
  'incubation-book': ['Strains', 'Stages', 'Family'],
  'loading-plan': ['Farm', 'Strains'],
  'work-rooms': [],
  'yield-audit': ['Picks', 'Lots', 'Strains'],
};

function storedResults(file: string): Results {
  const bytes = new Uint8Array(readFileSync(join(__dirname, '../../sample-workbooks', `${file}.xlsx`)));
  const sheets = new Map(
    readWorkbook(bytes).sheets.map(({ name, cells }) => [
      name,
      new Map(cells.map((cell) => [cell.address, cell])),
    ]),
  );
  return (sheet, address) => {
    const cells = sheets.get(sheet)!;
    const { top, left, bottom, right } = areaOf(cells.get(address)?.spill ?? address)!;
    return Array.from({ length: bottom - top + 1 }, (_, i) =>
      Array.from(
        { length: right - left + 1 },
        (__, j) => cells.get(addressOf({ row: top + i, column: left + j }))?.value ?? null,
      ),
    );
  };
}

interface Cell extends PageCell {
  readonly row: number;
  readonly column: number;
}

const cellsOf = (page: Page): Cell[] =>
  [...page.cells].flatMap(([row, inRow]) =>
    [...inRow].map(([column, cell]): Cell => ({ ...cell, row, column })),
  );

const RESULTS: ReadonlySet<string> = new Set(['result', 'resultHead']);
const TYPED: ReadonlySet<string> = new Set(['typed', 'typedHead', 'input']);

interface LaidOut {
  readonly page: Page;
  readonly cells: readonly Cell[];
  readonly areas: readonly { readonly thing: Thing; readonly area: Area; readonly grows: boolean }[];
}

/** Each thing with the cells it may come to fill, and whether it may grow beyond them. */
function laidOut(sheet: Sheet, places: Places): LaidOut {
  const page = layOut(sheet, places);
  const areas = sheet.things.map((thing) => {
    if (thing.kind === 'chart') return { thing, area: areaAt(thing.over), grows: false };
    if (thing.kind === 'table') return { thing, area: places.areaOfTable(thing.name), grows: true };
    const { row: top, column: left } = placeAt(thing.at);
    if (thing.kind === 'formula') {
      const { bottom, right } = places.spill(sheet, thing.at);
      const head = thing.headers === undefined ? top : top - 1;
      const grows = thing.rows === undefined && (bottom > top || (thing.growth ?? 0) > 0);
      return { thing, area: { top: head, left, bottom: bottom + (thing.growth ?? 0), right }, grows };
    }
    const { length } =
      thing.kind === 'words' ? thing.lines : thing.kind === 'inputs' ? thing.inputs : thing.figures;
    const right = left + (thing.kind === 'words' ? 0 : 1);
    return { thing, area: { top, left, bottom: top + length - 1, right }, grows: false };
  });
  return { page, cells: cellsOf(page), areas };
}

const across = (one: Area, other: Area): boolean => one.left <= other.right && other.left <= one.right;
const meet = (one: Area, other: Area): boolean =>
  across(one, other) && one.top <= other.bottom && other.top <= one.bottom;

const named = (thing: Thing): string => (thing.kind === 'chart' ? thing.over : thing.at);

/** Why a sheet does not begin with its answer; nothing where it does. */
function notFirst({ page: { sheet }, cells, areas }: LaidOut): string[] {
  const results = cells
    .filter(({ role }) => RESULTS.has(role))
    .sort((a, b) => a.row - b.row || a.column - b.column);
  const [first] = results;
  if (first === undefined) return [];
  const wrong: string[] = [];
  const isLabelled = cells.some(
    ({ row, column, role }) => row === first.row && column === 0 && role === 'label',
  );
  if (first.column > (isLabelled ? 1 : 0)) wrong.push(`the first result is at ${addressOf(first)}`);
  const above = sheet.notes.length + 1;
  const between = cells.filter(({ row, column }) => column === 0 && row >= above && row < first.row);
  const isClose = first.row > above && first.row - above <= 2;
  if (!isClose || between.some(({ role, row }) => role !== 'heading' || row === above))
    wrong.push(`${addressOf(first)} is not below the title and one empty row`);
  const answer = areas.find(({ area }) =>
    meet(area, { top: first.row, bottom: first.row, left: first.column, right: first.column }),
  )!;
  const inTheWay = cells.filter(
    ({ role, row, column }) =>
      TYPED.has(role) && column <= answer.area.right && (answer.grows || row <= answer.area.bottom),
  );
  if (inTheWay.length > 0) wrong.push(`${addressOf(inTheWay[0]!)} is typed before or below the answer`);
  return wrong;
}

/** What is below a table or an answer that may grow. */
const belowGrowth = ({ areas }: LaidOut): string[] =>
  areas
    .filter(({ grows }) => grows)
    .flatMap(({ thing, area }) =>
      areas
        .filter((other) => other.thing !== thing && across(area, other.area) && other.area.top > area.top)
        .map((other) => `${named(other.thing)} is below ${named(thing)}`),
    );

/** What lies under a chart: cells, or another chart. */
const covered = ({ cells, areas }: LaidOut): string[] =>
  areas
    .filter(({ thing }) => thing.kind === 'chart')
    .flatMap(({ thing, area }) => [
      ...cells
        .filter(({ row, column }) => meet(area, { top: row, bottom: row, left: column, right: column }))
        .map((cell) => `${addressOf(cell)} is under ${named(thing)}`),
      ...areas
        .filter((other) => other.thing.kind === 'chart' && other.thing !== thing && meet(area, other.area))
        .map((other) => `${named(other.thing)} is under ${named(thing)}`),
    ]);

/** Characters of small grey letters that go in the width of one of the figures that column widths count. */
const LETTERS = 1.1;

/** Lines that what goes on paper cuts off. */
function cutOff({ page: { sheet, widths } }: LaidOut): string[] {
  if (sheet.prints === undefined) return [];
  const { right } = areaAt(`${sheet.prints.split(':')[1]!}1`);
  const room = widths.slice(0, right + 1).reduce((sum, width) => sum + width, 0) * LETTERS;
  return sheet.notes.filter(({ length }) => length > room);
}

const chartsOf = ({ sheets }: Workbook): Chart[] =>
  sheets.flatMap(({ things }) => things.filter((thing): thing is Chart => thing.kind === 'chart'));

describe.each(workbooks)('the sheets of sample-workbooks/$file.xlsx', (workbook) => {
  const places = new Places(workbook.sheets, { results: storedResults(workbook.file) });
  const sheets = workbook.sheets.map((sheet) => laidOut(sheet, places));
  const wrong = (look: (sheet: LaidOut) => readonly string[]): string[] =>
    sheets.flatMap((one) => look(one).map((words) => `${one.page.sheet.name}: ${words}`));

  test('begin with their answer, what is typed to the right of it or below what cannot grow', () => {
    expect(wrong(notFirst)).toEqual([]);
  });

  test('have an answer, but for tables that are only kept', () => {
    const kept = sheets.filter(({ cells }) => !cells.some(({ role }) => RESULTS.has(role)));
    expect(kept.map(({ page }) => page.sheet.name)).toEqual(KEPT[workbook.file]);
  });

  test('keep the cells below every table and every answer that may grow free', () => {
    expect(wrong(belowGrowth)).toEqual([]);
  });

  test('have no chart over cells or over another chart', () => {
    expect(wrong(covered)).toEqual([]);
  });

  test('go on paper with the lines under their title whole', () => {
    expect(wrong(cutOff)).toEqual([]);
  });

  test('say of each chart what it shows', () => {
    for (const { title, says } of chartsOf(workbook)) {
      expect([title, says]).toEqual([title, expect.stringMatching(/^[A-Z].{30,}\.$/)]);
    }
  });
});

test('the charts of starter sheets are not where a table or an answer grows', () => {
  const places = new Places(STARTERS);
  const charts = STARTERS.flatMap(({ things }) => things.filter(({ kind }) => kind === 'chart').map(named));
  expect(charts.length).toBeGreaterThan(1);
  const below = STARTERS.flatMap((sheet) => belowGrowth(laidOut(sheet, places)));
  expect(below.filter((words) => charts.some((over) => words.startsWith(`${over} is`)))).toEqual([]);
});
