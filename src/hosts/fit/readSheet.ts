import type { Cell } from '../../worksheet/cells/cell';
import { addressOf, fixedRangeOf, type Area } from '../xlsx/address';
import {
  column as tableColumn,
  formula,
  heading,
  remark,
  table as sheetTable,
  type Reads,
  type Thing,
} from '../xlsx/describe';
import { readsAs, readsOf } from './answered';
import type { Answer } from './answers';
import { sheetText, textOf } from './book';
import { partText } from './candidate';
import { ColumnFormulas } from './columnFormulas';
import { productFormula, typedFormula } from './typedFormulas';
import { readRanges, type ReadRange } from './columns';
import type { Fit, TableFit } from './fitted';
import { howRead } from './howRead';
import { isReadable } from './isReadable';
import { notGoneWords } from './lost';
import { everyWeekOf, filledIn } from './filledWeeks';
import { filledTable, TYPED_OF_EACH, type JobName, type TableName } from './jobs';
import { fitLeavesOut, leftOutFormula } from './leaveOut';
import { recordsOf } from './recordsOf';
import { loadsInRooms, loadsRead, type LoadsPlace } from './loadsRead';
import { loadsOnShelves } from './onShelves';
import { productRows, soldAs } from './products';
import { ReadPlaces, ROWS, widthFor } from './readPlaces';
import { weeksOf } from './whichRecords';
import { toldOfEach } from './filledIn';
import { alike, asItIs, inColumns, type ColumnRead, type FirstDay, type Referred } from './referred';

/** The sheet of readings as it grows to the right. */
export class ReadSheet {
  readonly things: Thing[] = [];
  /** The formulas that read the grower's columns, with what they give now. */
  readonly columns: ColumnRead[] = [];
  readonly referred = new Map<TableName, Referred>();
  /** How many records of a table are left out now. */
  readonly leftOut: { readonly table: TableName; readonly formula: string }[] = [];
  private left = 0;
  private readonly formulas: ColumnFormulas;

  constructor(
    private readonly name: string,
    private readonly fit: Fit,
    private readonly tableName: (wanted: string) => string,
    private readonly first: FirstDay,
  ) {
    this.formulas = new ColumnFormulas(fit, this.referred, first);
    const { job, tables } = fit;
    // Lists first, which other tables refer to.
    for (const [table, rows] of fit.filled) this.fill(table, rows);
    if (fit.products.size > 0) this.products();
    const order: TableName[] = ['strains', 'rooms', 'orders', 'lots', 'harvests', 'recipe'];
    for (const table of order) {
      const given = tables.get(table);
      if (given) this.read(this.withLoads(given), job.name);
    }
    if (fit.hasShelves) this.shelves();
  }

  private at(row: number, right = 0): string {
    return addressOf({ row: row - 1, column: this.left + right });
  }

  private own(area: Area): string {
    return `${sheetText(this.name)}!${fixedRangeOf(area)}`;
  }

  /** A table that the grower filled in; orders with days of the week once more, for every week. */
  private fill(name: TableName, rows: readonly Readonly<Record<string, Answer>>[]): void {
    const { job, book, answers } = this.fit;
    const table = this.tableName(name.charAt(0).toUpperCase() + name.slice(1));
    const filled = filledIn(filledTable(job, name), table, rows, book.dateSystem);
    this.things.push(heading(this.at(ROWS.part), `${name}, as you gave them`));
    this.things.push(sheetTable(this.at(ROWS.head), table, filled.columns, filled.answers));
    this.referred.set(name, filled.referred);
    this.left += filled.columns.length + 1;
    const weekly =
      name === 'orders' ? everyWeekOf(filled, this.first, weeksOf(answers), book.dateSystem) : undefined;
    if (!weekly) return;
    this.things.push(heading(this.at(ROWS.part), 'orders of every week, as you gave them'));
    for (const { header, at, row, text, reads } of weekly.formulas)
      this.put(this.at(ROWS.first + row, at), row === 0 ? header : undefined, text, reads, {
        rows: weekly.step,
        words: [header],
      });
    this.referred.set(
      'orders',
      weekly.referredAt(this.left, (area) => this.own(area)),
    );
    this.left += filled.columns.length + 1;
  }

  /** What is on the shelves, by the lots or by sheets of loads. */
  private shelves(): void {
    const lots = this.referred.get('lots')!;
    const taken = this.fit.tables.get('lots')!.candidate.takenElsewhere ?? [];
    const own = this.loads ? loadsInRooms(taken, this.loads, lots) : loadsOnShelves(lots);
    this.things.push(heading(this.at(ROWS.part), own.title));
    own.columns.forEach(({ header, reads, text }, at) =>
      this.put(this.at(ROWS.first, at), header, text, reads, { rows: own.rows, words: [header] }),
    );
    const [top, right] = [ROWS.head - 1, this.left + own.columns.length - 1];
    const whole = this.own({ top, bottom: top + own.rows, left: this.left, right });
    this.referred.set('standing', { whole, grid: own.grid, column: () => '', place: undefined });
    this.left = right + 2;
  }

  /** Lots with what other sheets take off them as it is read here. */
  private withLoads(given: TableFit): TableFit {
    const own = (area: Area): string => this.own(area);
    const loads = loadsRead(given.candidate, this.left, own, this.referred.get('rooms')?.column('room'));
    if (!loads) return given;
    this.loads = loads.loads;
    this.things.push(heading(this.at(ROWS.part), loads.title));
    for (const { at, row, header, text, reads, rows } of loads.formulas)
      this.put(this.at(row, at), header, text, reads, { rows, words: [] });
    this.left += loads.width + 1;
    return { ...given, candidate: loads.candidate };
  }

  private loads: LoadsPlace | undefined;
  private productTable = '';
  private readonly productOf = new Map<string, string>();

  private products(): void {
    this.productTable = this.tableName('Products');
    this.formulas.products = this.productTable;
    const rows = productRows(this.fit);
    for (const [strain, , name] of rows) {
      const key = strain.toLowerCase();
      if (!this.productOf.has(key)) this.productOf.set(key, name);
    }
    this.things.push(heading(this.at(ROWS.part), 'products, as you gave them'));
    const headers = ['strain', 'product', 'read as'].map((header) => tableColumn(header));
    this.things.push(sheetTable(this.at(ROWS.head), this.productTable, headers, rows));
    this.left += headers.length + 1;
  }

  /** A table of the book: referred to as it is where that can be read, or read column by column. */
  private read(given: TableFit, job: JobName): void {
    const { candidate, readings } = given;
    const name = candidate.table.name;
    const leavesOut = fitLeavesOut(this.fit, name);
    const ranges = readRanges(candidate, leavesOut);
    if (ranges.length === 1 && isReadable(this.fit, given, ranges[0]!))
      return void this.referred.set(name, asItIs(given, ranges[0]!));
    const hasProduct = name === 'lots' && job === 'plan' && this.productTable !== '';
    const columns = readings.filter((reading) => !(hasProduct && reading.name === 'product'));
    const typed = TYPED_OF_EACH[name];
    const told = toldOfEach(typed && this.referred.get(typed.name));
    const key = candidate.table.columns[0]!.name;
    const headers = [...columns.map((one) => one.name), ...(hasProduct ? ['product'] : []), ...told.headers];
    this.things.push(heading(this.at(ROWS.part), `${name}, from ${partText(candidate)}`));
    const { left } = this;
    const places = new ReadPlaces(given, ranges, leavesOut, left, headers.length);
    const { lengths, rowColumn, sheetColumn, letterColumn } = places;
    const ofColumn = (at: number): Area => places.ofColumn(at);
    const ofPart = (at: number, part: number): Area => places.ofPart(at, part);
    const maskOf = (part: number): string | undefined => places.maskOf(part);
    const strainsOf = (part: number): string => fixedRangeOf(ofPart(headers.indexOf('strain'), part));
    const records = recordsOf(this.fit, this.first, given, columns, leavesOut);
    /** Puts a formula for each part of a column below the other. */
    const put = (
      at: number,
      header: string,
      how: string,
      text: (range: ReadRange, part: number) => string,
      reads: Reads,
      words: readonly Cell[],
    ): void => {
      this.things.push(remark(this.at(ROWS.how, at), how));
      ranges.forEach((one, part) => {
        const { top, bottom } = ofPart(at, part);
        this.put(
          addressOf({ row: top, column: left + at }),
          part === 0 ? header : undefined,
          text(one, part),
          reads,
          {
            rows: bottom - top + 1,
            words: [how, ...words],
          },
        );
      });
    };
    columns.forEach((reading, at) => {
      const meaning = at === 0 ? this.fit.answers.struck?.[name] : undefined;
      const ofRows = at > 0 ? [] : (candidate.counted ?? []);
      const how =
        howRead(given, reading) +
        (reading.name === 'blocks' ? notGoneWords(given, this.fit.answers) : '') +
        ofRows.map(({ header, words }) => `, rows of “${header}”: ${words.join(' / ')}`).join('') +
        (meaning ? `, struck-out rows ${meaning}` : '');
      const cells = records.map((record) => record?.[at] ?? null);
      const reads = readsAs(candidate.table, reading.name, cells);
      const format = reads === 'date' || reads === 'percent' ? reads : 'plain';
      const text = (one: ReadRange, part: number): string =>
        this.formulas.of(given, reading, one, maskOf(part), strainsOf(part));
      ranges.forEach((one, part) => {
        const from = ofPart(at, part).top - (ROWS.first - 1);
        this.columns.push({
          table: name,
          header: reading.name,
          formula: text(one, part),
          cells: cells.slice(from, from + lengths[part]!),
          format,
        });
      });
      this.things.push(remark(this.at(ROWS.own, at), reading.match.header));
      put(at, reading.name, how, text, reads, [reading.match.header, reading.name, ...cells]);
    });
    if (hasProduct) {
      const text = (_: ReadRange, part: number): string =>
        productFormula(strainsOf(part), this.productTable, soldAs(this.fit, strainsOf(part)) ?? '""');
      put(columns.length, 'product', 'from products', text, 'text', []);
    }
    told.headers.forEach((header, k) => {
      const all = this.referred.get(typed!.name)!.whole;
      const text = (_: ReadRange, part: number): string =>
        typedFormula(fixedRangeOf(ofPart(headers.indexOf(key), part)), all, k + 2);
      put(headers.indexOf(header), header, 'as you filled in', text, readsOf(typed!, header), []);
    });
    if (rowColumn !== undefined) {
      const text = (one: ReadRange): string => this.formulas.ofRows(given, one, leavesOut);
      const [header, how] = candidate.isTurned
        ? (['sheet column', 'column of your sheet'] as const)
        : (['sheet row', 'row of your sheet'] as const);
      put(rowColumn, header, how, text, 'count', []);
    }
    if (sheetColumn !== undefined) {
      const text = ({ sheet }: ReadRange, part: number): string =>
        `=IF(${maskOf(part)!}="","","${sheet.replaceAll('"', '""')}")`;
      put(sheetColumn, 'sheet', 'your sheet', text, 'text', [candidate.sheet.name]);
    }
    if (letterColumn !== undefined) {
      const letters = candidate.parts!.map(({ area }) =>
        addressOf({ row: 0, column: area.left }).replace(/\d+/, ''),
      );
      const text = (_: ReadRange, part: number): string => `=IF(${maskOf(part)!}="","","${letters[part]!}")`;
      put(letterColumn, 'column', 'column of your sheet', text, 'text', []);
    }
    if (leavesOut) {
      const rows = this.own(ofColumn(rowColumn!));
      this.leftOut.push({ table: name, formula: leftOutFormula(ranges, columns[0]!.match.column, rows) });
    }
    this.referred.set(name, {
      whole: this.own({
        top: ROWS.head - 1,
        bottom: ofColumn(0).bottom,
        left,
        right: left + headers.length - 1,
      }),
      grid: [
        headers,
        ...records.map((record) => {
          if (!record) return headers.map(() => null);
          const strain = record[headers.indexOf('strain')]!;
          const product = hasProduct
            ? [this.productOf.get(textOf(strain).toLowerCase()) ?? soldAs(this.fit, strain)]
            : [];
          return [...record, ...product, ...(typed ? told.of(textOf(record[headers.indexOf(key)]!)) : [])];
        }),
      ],
      column: (wanted) => this.own(ofColumn(headers.indexOf(wanted))),
      place:
        sheetColumn === undefined
          ? alike(candidate)
          : inColumns(
              [sheetColumn, rowColumn!, letterColumn].map((at) =>
                at === undefined ? undefined : this.own(ofColumn(at)),
              ),
            ),
      joined: candidate.joined,
      lastRows: lengths.map((_, part) => ofPart(0, part).bottom - ROWS.first + 3),
    });
    const more = [rowColumn, sheetColumn, letterColumn].filter((one) => one !== undefined).length;
    this.left += headers.length + 1 + more;
  }

  private put(
    address: string,
    header: string | undefined,
    text: string,
    reads: Reads,
    { rows, words }: { readonly rows: number; readonly words: readonly Cell[] },
  ): void {
    const isPlain = reads === 'text' || reads === 'number' || reads === 'count';
    const options = {
      ...(header !== undefined && { headers: [header], widths: [widthFor([header, ...words])] }),
      spills: true,
      ...(!isPlain && { growth: rows - 1, rows }),
    };
    this.things.push(formula(address, text, reads, options));
  }
}
