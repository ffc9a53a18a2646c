import {
  cellError,
  isBlank,
  isCellError,
  type Cell,
  type Format,
  type Grid,
} from '../../worksheet/cells/cell';
import { weekdayOf, type DateSystem } from '../../worksheet/calendar';
import { headerKey } from '../../worksheet/cells/headerWords';
import { typedCell } from '../../worksheet/cells/shown';
import { KILOGRAMS_A_POUND, PREFIX } from '../../worksheet/constants';
import { fixedRangeOf, addressOf, type Area } from '../xlsx/address';
import {
  column as tableColumn,
  formula,
  heading,
  remark,
  table as sheetTable,
  type Reads,
  type Thing,
} from '../xlsx/describe';
import type { Answer } from './answers';
import { cellAt, sheetText, textOf } from './book';
import { partAt, readRanges, type ReadRange } from './columns';
import { isDateColumn, type Candidate } from './find';
import { dayText as lotDayText } from './lotDays';
import { dayFrom, dayText } from './standing';
import { partText, type Fit, type TableFit } from './fit';
import { filledTable, type JobName, type TableName, type WantedTable } from './jobs';
import { isFromElsewhere, type ColumnReading, type Rest } from './reading';
import { DASHES, DITTO_MARKS } from './values';
import { isMassUnit, isShare, slipFrom, type FigureUnit, type MassUnit } from './units';

/** Rows of a sheet of readings, from 1. The grower's own headers lie above those that Pinset asks for. */
export const ROWS = { part: 4, own: 5, how: 6, head: 7, first: 8 } as const;

/** A table of a job as its formulas refer to it. */
export interface Referred {
  /** Headers and records: `'Ready lots read'!$A$7:$H$520`, or a part of the grower's own sheet. */
  readonly whole: string;
  readonly column: (name: string) => string;
  /** What lies in it now: headers and records, from the header row down to the last record. */
  readonly grid: Grid;
  /** The sheet and the row of the grower's that a row of `whole` is, as formulas; undefined of what was filled in. */
  readonly place: ((row: string) => PlaceText) | undefined;
  /** The last row of each of its parts, its header row being row 1. */
  readonly lastRows?: readonly number[];
}

/** A place on a sheet of the grower's as formulas say it; the letters of its column only where they differ by part. */
interface PlaceText {
  readonly sheet: string;
  readonly row: string;
  readonly column?: string;
}

/** A formula that reads a column of the grower's, with what it gives now. */
export interface ColumnRead {
  readonly table: TableName;
  readonly header: string;
  readonly formula: string;
  readonly cells: readonly Cell[];
  readonly format: Format;
}

/** The sheet of readings as it grows to the right. */
export class ReadSheet {
  readonly things: Thing[] = [];
  /** The formulas that read the grower's columns, with what they give now. */
  readonly columns: ColumnRead[] = [];
  readonly referred = new Map<TableName, Referred>();
  /** How many records of a table are left out now. */
  readonly leftOut: { readonly table: TableName; readonly formula: string }[] = [];
  private left = 0;

  constructor(
    private readonly name: string,
    private readonly fit: Fit,
    private readonly tableName: (wanted: string) => string,
    /** The day from which the job counts: its cell, and what is in it. */
    private readonly first: { readonly text: string; readonly serial: number },
  ) {
    const { job, tables } = fit;
    // Lists first, which other tables refer to.
    for (const [table, rows] of fit.filled) this.fill(table, rows);
    if (fit.products.size > 0) this.products();
    const order: TableName[] = ['strains', 'rooms', 'orders', 'lots', 'harvests', 'recipe'];
    for (const table of order) {
      const given = tables.get(table);
      if (given) this.read(given, job.name);
    }
  }

  private at(row: number, right = 0): string {
    return addressOf({ row: row - 1, column: this.left + right });
  }

  private own(area: Area): string {
    return `${sheetText(this.name)}!${fixedRangeOf(area)}`;
  }

  /** A table that the grower filled in. */
  private fill(name: TableName, rows: readonly Readonly<Record<string, Answer>>[]): void {
    const wanted = filledTable(this.fit.job, name);
    const headers = headersIn(wanted, rows);
    const table = this.tableName(name.charAt(0).toUpperCase() + name.slice(1));
    this.things.push(heading(this.at(ROWS.part), `${name}, as you gave them`));
    this.things.push(
      sheetTable(
        this.at(ROWS.head),
        table,
        headers.map((header) => tableColumn(header, readsOf(wanted, header))),
        rows.map((row) => headers.map((header) => answered(wanted, header, row[header] ?? null))),
      ),
    );
    const { dateSystem } = this.fit.book;
    const cells = rows.map((row) =>
      headers.map((header): Cell => {
        const cell = answered(wanted, header, row[header] ?? null);
        return typeof cell === 'string' ? typedCell(cell, dateSystem) : cell;
      }),
    );
    this.referred.set(name, {
      whole: `${table}[#All]`,
      grid: [headers, ...cells],
      column: (header) => `${table}[${header}]`,
      place: undefined,
    });
    this.left += headers.length + 1;
  }

  private productTable = '';
  private readonly productOf = new Map<string, string>();

  private products(): void {
    this.productTable = this.tableName('Products');
    const rows = [...this.fit.products].flatMap(([word, strains]) =>
      strains.map((strain) => [strain, word] as const),
    );
    for (const [strain, word] of rows) {
      const key = strain.toLowerCase();
      if (!this.productOf.has(key)) this.productOf.set(key, word);
    }
    this.things.push(heading(this.at(ROWS.part), 'products, as you gave them'));
    this.things.push(
      sheetTable(
        this.at(ROWS.head),
        this.productTable,
        [tableColumn('strain'), tableColumn('product')],
        rows,
      ),
    );
    this.left += 3;
  }

  /** The flushes of which the grower gave the shares. */
  private shareHeaders(): string[] {
    const [headers = []] = this.referred.get('shares')?.grid ?? [];
    return headers.slice(1).map(textOf);
  }

  private sharesFor(strain: string, count: number): readonly Cell[] {
    const grid = this.referred.get('shares')?.grid ?? [];
    const row = grid.slice(1).find(([own]) => textOf(own!).toLowerCase() === strain.trim().toLowerCase());
    return row ? row.slice(1) : Array.from({ length: count }, () => null);
  }

  /** A table of the book: referred to as it is where that can be read, or read column by column. */
  private read(given: TableFit, job: JobName): void {
    const { candidate, readings } = given;
    const name = candidate.table.name;
    const leavesOut = fitLeavesOut(this.fit, name);
    const ranges = readRanges(candidate, leavesOut);
    const [range] = ranges as [ReadRange];
    if (ranges.length === 1 && this.isReadable(given, range)) {
      const { sheet, area } = candidate;
      const grid = Array.from({ length: area.bottom - area.top + 1 }, (_, r) =>
        Array.from({ length: area.right - area.left + 1 }, (__, c) =>
          cellAt(sheet, area.top + r, area.left + c),
        ),
      );
      this.referred.set(name, {
        whole: range.whole,
        grid,
        column: (wanted) => range.column(readings.find((one) => one.name === wanted)!.match.column),
        place: alike(candidate),
      });
      return;
    }
    const hasProduct = name === 'lots' && job === 'plan' && this.productTable !== '';
    const columns = readings.filter((reading) => !(hasProduct && reading.name === 'product'));
    const shares = name === 'strains' ? this.shareHeaders() : [];
    const headers = [...columns.map((one) => one.name), ...(hasProduct ? ['product'] : []), ...shares];
    const lengths = ranges.map(({ first, last }) => last - first + 1);
    const rows = lengths.reduce((sum, length) => sum + length, 0);
    this.things.push(heading(this.at(ROWS.part), `${name}, from ${partText(candidate)}`));
    const isStacked = candidate.parts !== undefined;
    const isFilledDown = readings.some((one) => one.isFilledDown || one.hasDittos);
    const isSifted = isStacked || range.test !== undefined || leavesOut || isFilledDown;
    const rowColumn = isSifted ? headers.length : undefined;
    const sheetColumn = isStacked ? headers.length + 1 : undefined;
    const isBlock = candidate.parts?.some(({ block }) => block) === true;
    const letterColumn = isBlock ? headers.length + 2 : undefined;
    const left = this.left;
    const ofColumn = (at: number): Area => ({
      top: ROWS.first - 1,
      bottom: ROWS.first - 2 + rows,
      left: left + at,
      right: left + at,
    });
    /** The rows of a part, below those of the parts before it. */
    const ofPart = (at: number, part: number): Area => {
      const top = ROWS.first - 1 + lengths.slice(0, part).reduce((sum, length) => sum + length, 0);
      return { ...ofColumn(at), top, bottom: top + lengths[part]! - 1 };
    };
    const maskOf = (part: number): string | undefined =>
      rowColumn === undefined ? undefined : rangeOnSheet(ofPart(rowColumn, part));
    const records = this.recordsOf(given, columns, leavesOut);
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
      const how = howRead(given, reading) + (meaning ? `, struck-out rows ${meaning}` : '');
      const reads = readsOf(candidate.table, reading.name);
      const format = reads === 'date' || reads === 'percent' ? reads : 'plain';
      const cells = records.map((record) => record?.[at] ?? null);
      const text = (one: ReadRange, part: number): string =>
        this.columnFormula(given, reading, one, maskOf(part));
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
      const products = `${this.productTable}[[strain]:[product]]`;
      const text = (_: ReadRange, part: number): string => {
        const strain = rangeOnSheet(ofPart(headers.indexOf('strain'), part));
        return `=IF(${strain}="","",IFERROR(VLOOKUP(${strain},${products},2,FALSE),${strain}))`;
      };
      put(columns.length, 'product', 'from products', text, 'text', []);
    }
    shares.forEach((header, k) => {
      const all = this.referred.get('shares')!.whole;
      const text = (_: ReadRange, part: number): string => {
        const strain = rangeOnSheet(ofPart(headers.indexOf('strain'), part));
        const share = `VLOOKUP(${strain},${all},${k + 2},FALSE)`;
        return `=IF(${strain}="","",IFERROR(IF(${share}="","",${share}),""))`;
      };
      put(headers.indexOf(header), header, 'from shares', text, 'percent', []);
    });
    if (rowColumn !== undefined) {
      const text = (one: ReadRange): string => this.rowFormula(given, one, leavesOut);
      put(rowColumn, 'sheet row', 'row of your sheet', text, 'count', []);
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
      const counted = ranges.map((one) => {
        const key = one.column(columns[0]!.match.column);
        return one.test === undefined ? `COUNTA(${key})` : `COUNT(IF(${one.test},${one.rows}))`;
      });
      this.leftOut.push({
        table: name,
        formula: `=${counted.join('+')}-COUNT(${this.own(ofColumn(rowColumn!))})`,
      });
    }
    this.referred.set(name, {
      whole: this.own({
        top: ROWS.head - 1,
        bottom: ROWS.first - 2 + rows,
        left,
        right: left + headers.length - 1,
      }),
      grid: [
        headers,
        ...records.map((record) => {
          if (!record) return headers.map(() => null);
          const strain = record[headers.indexOf('strain')]!;
          const product = hasProduct ? [this.productOf.get(textOf(strain).toLowerCase()) ?? strain] : [];
          return [...record, ...product, ...this.sharesFor(textOf(strain), shares.length)];
        }),
      ],
      column: (wanted) => this.own(ofColumn(headers.indexOf(wanted))),
      place:
        sheetColumn === undefined
          ? alike(candidate)
          : (row) => ({
              sheet: `INDEX(${this.own(ofColumn(sheetColumn))},${row}-1)`,
              row: `INDEX(${this.own(ofColumn(rowColumn!))},${row}-1)`,
              ...(letterColumn !== undefined && {
                column: `INDEX(${this.own(ofColumn(letterColumn))},${row}-1)`,
              }),
            }),
      lastRows: lengths.map((_, part) => ofPart(0, part).bottom - ROWS.first + 3),
    });
    const more = [rowColumn, sheetColumn, letterColumn].filter((one) => one !== undefined).length;
    this.left += headers.length + 1 + more;
  }

  /** What the columns give for each row below the headers; nothing where there is no record, or one that is left out. */
  private recordsOf(
    given: TableFit,
    columns: readonly ColumnReading[],
    leavesOut: boolean,
  ): (readonly Cell[] | undefined)[] {
    const { candidate, values } = given;
    const { area, dataRows } = candidate;
    const at = new Map(dataRows.map((row, i) => [row, i]));
    const weekAt = (r: number): number => partAt(candidate, area.top + 1 + r).week ?? 0;
    return Array.from({ length: area.bottom - area.top }, (_, r) => {
      const i = at.get(area.top + 1 + r);
      if (i === undefined) return undefined;
      const read = columns.map((reading) => {
        const held = this.inJobUnit(values.get(reading.name)![i]!, reading.unit);
        const cell = reading.conversion === 'weekdays' ? this.dayOf(held, weekAt(r)) : held;
        const isShown = isCellError(cell) && isShownAsWritten(reading);
        return isShown ? cellAt(candidate.sheet, area.top + 1 + r, reading.match.column) : cell;
      });
      const isLeftOut = columns.some(
        ({ wanted }, c) => (wanted.isNeeded && isBlank(read[c])) || isCellError(read[c]),
      );
      return leavesOut && isLeftOut ? undefined : read;
    });
  }

  private dayOf(weekday: Cell, week: number): Cell {
    const { serial } = this.first;
    const { dateSystem } = this.fit.book;
    return typeof weekday === 'number'
      ? dayFrom(weekday, serial, weekdayNumber(serial, dateSystem), week)
      : weekday;
  }

  private inJobUnit(cell: Cell, unit: FigureUnit): Cell {
    const factor = unitFactor(this.fit, unit);
    if (factor === 1 || isBlank(cell) || isCellError(cell)) return cell;
    return typeof cell === 'number' ? cell * factor : cellError('#VALUE!');
  }

  /** The row of each record on the grower's sheet; nothing where there is none, or none that can be read. */
  private rowFormula(given: TableFit, range: ReadRange, leavesOut: boolean): string {
    const { readings } = given;
    const tests = range.test === undefined ? [] : [range.test];
    if (leavesOut) {
      for (const reading of readings) {
        if (isFromElsewhere(reading.conversion)) continue;
        const cells = this.cellsOf(reading, range);
        const beside = reading.rest && range.column(reading.rest.column);
        const read = this.converted(given, reading, cells, beside);
        if (reading.wanted.isNeeded)
          tests.push(beside === undefined ? `(${cells}<>"")` : `(${cells}&${beside}<>"")`);
        if (read !== cells) tests.push(`NOT(ISERROR(${read}))`);
      }
    }
    if (tests.length === 0) tests.push(`(${range.column(readings[0]!.match.column)}<>"")`);
    return `=IF(${tests.join('*')},${range.rows},"")`;
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

  /** Whether a function can read the part of the sheet as it is. */
  private isReadable({ candidate, readings }: TableFit, range: ReadRange): boolean {
    const { table } = candidate;
    const isKnown = readings.every(
      ({ match, conversion, unit, rest, unless, legend, isFilledDown, hasDittos, hasDashes }) =>
        conversion === 'none' &&
        !isFilledDown &&
        !hasDittos &&
        !hasDashes &&
        rest === undefined &&
        legend === undefined &&
        unless === undefined &&
        (match.by === 'its name' || match.by === 'another name') &&
        unitFactor(this.fit, unit) === 1,
    );
    const own = new Set(readings.map(({ match }) => match.column));
    const isDoubtful = [...candidate.headers].some(
      ([at, header]) =>
        !own.has(at) &&
        table.columns.some(({ name, column }) =>
          [name, ...column.alsoCalled].some((one) => headerKey(one) === headerKey(header)),
        ),
    );
    const isAlone =
      (table.name !== 'lots' || this.fit.products.size === 0) &&
      (table.name !== 'strains' || !this.fit.filled.has('shares'));
    return (
      isKnown &&
      !isDoubtful &&
      isAlone &&
      range.isPlain &&
      !candidate.isGrouped &&
      !fitLeavesOut(this.fit, table.name) &&
      !this.isJoined(table.name)
    );
  }

  private isJoined(name: TableName): boolean {
    return this.fit.joined.some(({ table }) => table === name);
  }

  private columnFormula(
    given: TableFit,
    reading: ColumnReading,
    range: ReadRange,
    mask: string | undefined,
  ): string {
    const cells = this.cellsOf(reading, range);
    if (reading.conversion === 'headings') {
      // A heading is no record; the strain of a record is the last one above it.
      const list = this.referred.get('strains')!.column('strain');
      const { rows } = range;
      const named = `IF(${mask!}="",IFERROR(PINSET.MATCHLABELS(${cells},${list}),""),"")`;
      return `=IF(${mask!}="","",IFERROR(LOOKUP(${rows},${rows}/(${named}<>""),${named}),""))`;
    }
    if (reading.conversion === 'said') {
      const value = this.inJobUnit(reading.said!.value, reading.unit);
      return `=IF(${mask ?? cells}="","",${typeof value === 'number' ? Number(value.toPrecision(12)) : 'NA()'})`;
    }
    if (reading.conversion === 'sheets') {
      const [, strain = ''] = [...reading.strainOn!].find(([name]) => sheetText(name) === range.sheet) ?? [];
      return `=IF(${mask ?? cells}="","","${strain.replaceAll('"', '""')}")`;
    }
    if (reading.conversion === 'day headings') {
      // A heading is alone in its row: a lot that is no record, as none are left of it, is none.
      const { rows } = range;
      const others = [...given.candidate.headers.keys()].filter((at) => at !== reading.match.column);
      const alone = `(${others.map(range.column).join('&')}="")`;
      const named = `IFERROR(${this.dates(given, reading, `IF(${alone},${cells},"")`)},"")`;
      return `=IF(${mask!}="","",IFERROR(LOOKUP(${rows},${rows}/(${named}<>""),${named}),""))`;
    }
    const read =
      reading.conversion === 'weekdays'
        ? this.dayText(given, reading, cells, range)
        : this.converted(given, reading, cells, reading.rest && range.column(reading.rest.column));
    const tests = [
      ...(mask === undefined ? [] : [`${mask}=""`]),
      reading.rest ? `(${cells}="")*(${range.column(reading.rest.column)}="")` : `${cells}=""`,
      ...(reading.unless === undefined ? [] : [`${range.column(reading.unless)}<>""`]),
    ];
    const blank = tests.length === 1 ? tests[0]! : tests.map((test) => `(${test})`).join('+');
    if (isShownAsWritten(reading)) return `=IF(${blank},"",IFERROR(${read},${cells}))`;
    return read === cells || mask !== undefined ? `=IF(${blank},"",${read})` : `=${read}`;
  }

  /** The cells of a column; where blanks say the same as the cell above, the last filled one down to each row. */
  private cellsOf(
    { match, isFilledDown, hasDittos, hasDashes, lotDay }: ColumnReading,
    range: ReadRange,
  ): string {
    const cells = range.column(match.column);
    if (lotDay) return lotDayText(cells, lotDay);
    const isOneOf = (marks: readonly string[]): string =>
      `ISNUMBER(MATCH(LOWER(TRIM(${cells})),{${marks.map((mark) => `"${mark.replaceAll('"', '""')}"`).join(',')}},0))`;
    if (hasDashes) return `IF(${isOneOf(DASHES)},"",${cells})`;
    if (!isFilledDown && !hasDittos) return cells;
    const { rows } = range;
    const filled = [
      `(${cells}<>"")`,
      ...(hasDittos ? [`NOT(${isOneOf(DITTO_MARKS)})`] : []),
      ...range.passedOver(match.column).map((word) => `(${cells}<>"${word.replaceAll('"', '""')}")`),
    ].join('*');
    const above = `IFERROR(LOOKUP(${rows},${rows}/(${filled}),${cells}),"")`;
    return isFilledDown ? above : `IF(${isOneOf(DITTO_MARKS)},${above},${cells})`;
  }

  private converted(given: TableFit, reading: ColumnReading, cells: string, beside?: string): string {
    const { name } = given.candidate.table;
    if (reading.rest && beside !== undefined) return this.summed(reading, reading.rest, cells, beside);
    const { legend, ...plain } = reading;
    if (legend) {
      return this.converted(given, plain, `IFERROR(VLOOKUP(${cells},${legend.range},2,FALSE),${cells})`);
    }
    switch (reading.conversion) {
      case 'dates':
        return this.dates(given, reading, cells);
      case 'figures': {
        const mark = reading.decimalMark === undefined ? '' : `,"${reading.decimalMark}"`;
        const figures = `${PREFIX}TONUMBERS(${cells},"${reading.unit}"${mark})`;
        return this.timesFactor(figures, reading.unit);
      }
      case 'beginnings': {
        // A nested IF takes whole columns in every spreadsheet.
        const list = this.referred.get('strains')!.column('strain');
        return this.strainPlaces()
          .map((place) => `INDEX(${list},${place})`)
          .reduceRight(
            (rest, strain) => `IF(LEFT(${cells},LEN(${strain}))=${strain},${strain},${rest})`,
            '""',
          );
      }
      case 'weekdays':
        return this.dayText(given, reading, cells, { week: 0, day: 0 });
      case 'headings':
      case 'day headings':
      case 'sheets':
      case 'said':
      case 'none': {
        const list = this.listFor(name, reading.name);
        if (list !== undefined && this.isJoined(name)) {
          const matched = `${PREFIX}MATCHLABELS(${cells},${list})`;
          // A pick of no lot stays as it was written: the audit says what lot it may be.
          return name === 'harvests' ? `IFERROR(${matched},${cells})` : matched;
        }
        return this.timesFactor(cells, reading.unit);
      }
    }
  }

  private dayText(
    { candidate }: TableFit,
    { match }: ColumnReading,
    cells: string,
    { week, day }: Pick<ReadRange, 'week' | 'day'>,
  ): string {
    const held = candidate.dataRows.map((row) => cellAt(candidate.sheet, row, match.column));
    return dayText(cells, this.first.text, { week, which: day, held });
  }

  private dates({ orders }: TableFit, { name, year, turn }: ColumnReading, cells: string): string {
    const inYear = (one: number | undefined): string =>
      `${PREFIX}TODATES(${cells},"${orders.get(name) ?? 'day first'}"${one === undefined ? '' : `,${one}`})`;
    if (turn === undefined || year === undefined) return inYear(year);
    return `IF(MONTH(${inYear(year)})<=${turn.month},${inYear(year + 1)},${inYear(year)})`;
  }

  /** A mass of two columns, of which one may be blank. */
  private summed(
    { conversion, decimalMark, unit }: ColumnReading,
    rest: Rest,
    cells: string,
    beside: string,
  ): string {
    const mark = decimalMark === undefined ? '' : `,"${decimalMark}"`;
    const read = (column: string, own: FigureUnit): string =>
      conversion === 'figures' ? `IF(${column}="",0,${PREFIX}TONUMBERS(${column},"${own}"${mark}))` : column;
    return this.timesFactor(`(${read(cells, unit)}+${read(beside, rest.unit)}/${rest.toOne})`, unit);
  }

  private timesFactor(cells: string, unit: FigureUnit): string {
    const factor = unitFactor(this.fit, unit);
    return factor === 1 ? cells : `${cells}*${Number(factor.toPrecision(12))}`;
  }

  /** Where the strains are in their column, from 1. */
  private strainPlaces(): number[] {
    const given = this.fit.tables.get('strains');
    if (!given) return (this.fit.filled.get('strains') ?? []).map((_, i) => i + 1);
    const { area, dataRows } = given.candidate;
    return dataRows.flatMap((row, i) => (isBlank(given.values.get('strain')![i]) ? [] : [row - area.top]));
  }

  /** The list that labels of a column are to be in. */
  private listFor(table: TableName, column: string): string | undefined {
    if (table === 'lots' && column === 'strain') return this.referred.get('strains')?.column('strain');
    if (table === 'harvests' && column === 'lot') return this.referred.get('lots')?.column('lot');
    if (table === 'orders' && column === 'product') {
      const hasProducts = this.fit.tables.get('strains')?.readings.some(({ name }) => name === 'product');
      return this.referred.get('strains')?.column(hasProducts ? 'product' : 'strain');
    }
    return undefined;
  }
}

/** Whether the records of a table that cannot be read are left out until they are corrected, as the grower said. */
export const fitLeavesOut = (fit: Fit, table: TableName): boolean =>
  fit.answers.leaveOut?.[table] === true && mayBeLeftOut(fit).includes(table);

/** Tables of which one record that cannot be read would spoil the whole answer. */
const MAY_LEAVE_OUT: Partial<Record<JobName, readonly TableName[]>> = { plan: ['lots', 'orders'] };

/** The tables whose records that cannot be read the grower may leave out until they are corrected. */
export const mayBeLeftOut = ({ job, unread }: Pick<Fit, 'job' | 'unread'>): readonly TableName[] =>
  (MAY_LEAVE_OUT[job.name] ?? []).filter((table) =>
    unread.some(({ about }) => about.startsWith(`${table}, `)),
  );

const KILOGRAMS: Record<MassUnit, number> = {
  kg: 1,
  g: 0.001,
  lb: KILOGRAMS_A_POUND,
  oz: KILOGRAMS_A_POUND / 16,
};

/** The unit in which a job's masses are: that of what is sold or picked. */
export function jobUnit({ tables }: Fit): MassUnit | undefined {
  const unitOf = (table: TableName, column: string): MassUnit | undefined => {
    const unit = tables.get(table)?.readings.find(({ name }) => name === column)?.unit;
    return unit !== undefined && isMassUnit(unit) ? unit : undefined;
  };
  return unitOf('orders', 'mass') ?? unitOf('harvests', 'mass') ?? unitOf('lots', 'block mass');
}

/** The place of a row that lies as far below its header as on the grower's sheet. */
const alike =
  ({ sheet, area }: Candidate): Referred['place'] =>
  (row) => ({ sheet: `"${sheetText(sheet.name).replaceAll('"', '""')}"`, row: `(${row}+${area.top})` });

const [LEAST_WIDTH, MOST_WIDTH] = [10, 26];

/** Room for the words of a column, and for what it holds. */
const widthFor = (words: readonly Cell[]): number =>
  Math.min(
    MOST_WIDTH,
    Math.max(LEAST_WIDTH, ...words.map((word) => (typeof word === 'string' ? word.length * 1.1 + 2 : 0))),
  );

/** What a mass in this unit is multiplied by for the unit of the job. */
export function unitFactor(fit: Fit, unit: FigureUnit): number {
  const wanted = jobUnit(fit);
  return !isMassUnit(unit) || wanted === undefined || unit === wanted
    ? 1
    : KILOGRAMS[unit] / KILOGRAMS[wanted];
}

const rangeOnSheet = (area: Area): string => fixedRangeOf(area);

/** Headers of a table that was filled in: what is needed, and what any row has besides. */
function headersIn(wanted: WantedTable, rows: readonly Readonly<Record<string, Answer>>[]): string[] {
  const given = new Set(
    rows.flatMap((row) =>
      Object.entries(row).flatMap(([name, value]) => (value === null || value === '' ? [] : [name])),
    ),
  );
  return wanted.columns.flatMap(({ name, column, isNeeded }) => {
    if (column.role !== 'numbered') return isNeeded || given.has(name) ? [name] : [];
    return [...given].filter((one) => new RegExp(`^${name} \\d+$`).test(one)).sort();
  });
}

const columnOf = (wanted: WantedTable, header: string) =>
  wanted.columns.find(
    ({ name, column }) => name === header || (column.role === 'numbered' && header.startsWith(`${name} `)),
  );

function readsOf(wanted: WantedTable, header: string): Reads {
  const column = columnOf(wanted, header);
  if (!column) return 'text';
  // A day of the week, or every day.
  if (wanted.name === 'calendar' && header === 'day') return 'text';
  if (isDateColumn(column)) return 'date';
  if (isShare(column) || column.column.kind.word === 'share') return 'percent';
  if (column.column.kind.word === 'label') return 'text';
  return column.column.kind.word === 'count' || column.name === 'blocks' ? 'count' : 'number';
}

/** An answer as the sheet holds it: `62%` and 62 are shares where a share is asked. */
function answered(wanted: WantedTable, header: string, answer: Answer): Answer {
  const column = columnOf(wanted, header);
  if (answer === null || !column || column.column.kind.word === 'label') return answer;
  const ofShare = isShare(column) || column.column.kind.word === 'share';
  const figure = figureOf(answer, ofShare);
  // 60 for 60%, as in a column of the grower's own.
  return ofShare && typeof figure === 'number' && figure > slipFrom(column) ? figure / 100 : figure;
}

/** A figure that was typed as an answer; text that is none stays text, and the call says what is wrong with it. */
export function figureOf(answer: Answer, asShare: boolean): Answer {
  if (typeof answer !== 'string') return answer;
  const match = /^\s*([-+]?\d*[.,]?\d+)\s*(%?)\s*$/.exec(answer);
  if (!match) return answer.trim() === '' ? null : answer;
  const figure = Number(match[1]!.replace(',', '.'));
  return asShare && match[2] === '%' ? figure / 100 : figure;
}

const howRead = (given: TableFit, reading: ColumnReading): string => {
  switch (reading.conversion) {
    case 'dates':
      return `${given.orders.get(reading.name)!}${reading.year === undefined ? '' : `, year ${reading.year}${reading.turn ? `, from January ${reading.year + 1}` : ''}`}${asAbove(reading)}`;
    case 'figures': {
      const unit = reading.unit === 'number' ? 'figures' : `in ${unitsOf(reading)}`;
      return reading.decimalMark === undefined ? unit : `${unit}, decimal ${reading.decimalMark}`;
    }
    case 'weekdays':
      return 'every week';
    case 'headings':
    case 'day headings':
      return 'the heading above';
    case 'beginnings':
      return 'the beginning of the name';
    case 'sheets':
      return 'the name of the sheet';
    case 'said':
      return `${reading.said!.text} for all lots`;
    case 'none':
      if (reading.legend) return `in full by ${reading.legend.range.replaceAll('$', '')}`;
      return reading.rest ? `in ${unitsOf(reading)}` : `as it is${asAbove(reading)}`;
  }
};

/** An audit says itself what is wrong with a cell, and tells what was written there. */
const isShownAsWritten = ({ wanted, conversion, rest }: ColumnReading): boolean =>
  wanted.column.kind.word === 'anything' &&
  rest === undefined &&
  (conversion === 'dates' || conversion === 'figures');

/** Monday is 1. */
const weekdayNumber = (serial: number, system: DateSystem): number =>
  ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'].indexOf(
    weekdayOf(Math.floor(serial), system),
  ) + 1;

const asAbove = ({ isFilledDown, hasDittos, hasDashes }: ColumnReading): string =>
  (hasDittos ? ', ditto marks as above' : '') +
  (hasDashes ? ', a dash as blank' : '') +
  (isFilledDown ? ', blanks as above' : '');

const unitsOf = ({ unit, rest }: ColumnReading): string => (rest ? `${unit} and ${rest.unit}` : unit);
