import { isBlank } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import { cellAt, sheetText } from './book';
import type { Candidate } from './candidate';
import type { ReadRange } from './columns';
import { onTheirDaysText } from './dayBeside';
import type { Fit, TableFit } from './fitted';
import { restText, wetText } from './dryBlocks';
import { yieldText } from './yieldFigures';
import { isShownAsWritten, passesBlanks } from './howRead';
import { isJoined } from './isReadable';
import type { TableName } from './jobs';
import { inJobUnit, unitFactor } from './jobUnit';
import { massText } from './massParts';
import { partOfDayText } from './overDays';
import type { ColumnReading } from './reading';
import { isFromElsewhere } from './conversion';
import type { FirstDay, Referred } from './referred';
import { dayText, isDayText } from './standing';
import { cellsText } from './cellsText';
import { sharesText } from './recipe';
import { inStrainsText } from './roomStrains';
import { lessFormula, standingFormula } from './less';
import { factorFormula } from './unitColumn';
import type { FigureUnit } from './units';
import { dayInWeekText } from './weekOf';
import { waitText } from './waitParts';
import { weekFormula } from './weeks';
import { datesText } from './years';
import { dayOfRangeText } from './weekRanges';

/** Writes the formulas that read a grower's columns. */
export class ColumnFormulas {
  /** The table of the products that the grower gave, where there is one. */
  products = '';

  constructor(
    private readonly fit: Fit,
    private readonly referred: ReadonlyMap<TableName, Referred>,
    private readonly first: FirstDay,
  ) {}

  /** The row of each record on the grower's sheet; nothing where there is none, or none that can be read. */
  ofRows(given: TableFit, range: ReadRange, leavesOut: boolean): string {
    const { readings } = given;
    const tests = range.test === undefined ? [] : [range.test];
    if (leavesOut) {
      for (const reading of readings) {
        if (isFromElsewhere(reading.conversion)) continue;
        const isByStrain = reading.lookedUp?.strainOf !== undefined;
        const cells = cellsText(reading, range, isByStrain ? this.strainsAlone(given, range) : undefined);
        const beside = reading.rest && range.column(reading.rest.column);
        const read = this.converted(given, reading, cells, beside);
        if (reading.wanted.isNeeded)
          tests.push(
            beside === undefined || reading.rest?.isTakenOff ? `(${cells}<>"")` : `(${cells}&${beside}<>"")`,
          );
        if (read !== cells) tests.push(`NOT(ISERROR(${read}))`);
        const off = reading.name === 'blocks' ? allOff(given, range) : '';
        if (off !== '') tests.push(`IFERROR(--(${read}${off}>=0),0)`);
      }
    }
    if (tests.length === 0) tests.push(`(${range.column(readings[0]!.match.column)}<>"")`);
    return `=IF(${tests.join('*')},${range.rows},"")`;
  }

  /** The strains of lots without the cells in which they are read: these are of the records alone. */
  private strainsAlone({ readings, ...given }: TableFit, range: ReadRange): string {
    const named = (wanted: string): ColumnReading | undefined => readings.find(({ name }) => name === wanted);
    const [strain, blocks] = [named('strain'), named('blocks')];
    if (!strain) return '""';
    // A heading has no blocks.
    const mask = strain.conversion === 'headings' && blocks ? range.column(blocks.match.column) : undefined;
    return this.ownText({ readings, ...given }, strain, range, mask).slice(1);
  }

  /** The formula that reads a part of a column; `strains` are the cells in which the strains of the part are read. */
  of(given: TableFit, reading: ColumnReading, range: ReadRange, mask?: string, strains?: string): string {
    const moisture = reading.isDry ? given.readings.find(({ name }) => name === 'moisture') : undefined;
    const textOf = (one: ColumnReading): string => {
      const own = this.ownText(given, one, range, mask, strains);
      return one.isDryShare ? `=${restText(own.slice(1))}` : own;
    };
    return moisture ? `=${wetText(textOf(reading).slice(1), textOf(moisture).slice(1))}` : textOf(reading);
  }

  private ownText(
    given: TableFit,
    reading: ColumnReading,
    range: ReadRange,
    mask?: string,
    strains?: string,
  ): string {
    const cells = cellsText(reading, range, strains);
    if (reading.conversion === 'headings') {
      // A heading is no record; the strain of a record is the last one above it.
      const list = this.referred.get('strains')!.column('strain');
      const { rows } = range;
      const named = `IF(${mask!}="",IFERROR(PINSET.MATCHLABELS(${cells},${list}),""),"")`;
      return `=IF(${mask!}="","",IFERROR(LOOKUP(${rows},${rows}/(${named}<>""),${named}),""))`;
    }
    if (reading.conversion === 'said') {
      return `=IF(${mask ?? cells}="","",${this.saidOfAll(given, reading)})`;
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
    if (reading.ofRecipe) return this.ofDry(given, reading, range, mask);
    const less = reading.name === 'blocks' ? lessFormula(given.candidate, range.column) : '';
    const withLess = (made: string): string =>
      // More than were made cannot come off.
      less !== '' ? `IF(${made}${allOff(given, range)}<0,NA(),${made}${less})` : made;
    const { unitColumn, perRack, parts, ofYields } = reading;
    if (parts || ofYields) {
      const blank = [...(mask === undefined ? [] : [`${mask}=""`]), `${cells}=""`];
      const text = ofYields
        ? yieldText(ofYields, range.column)
        : waitText(parts!, reading.ofRange, range.column);
      return `=IF(${blank.map((test) => `(${test})`).join('+')},"",${text})`;
    }
    const each = perRack ? `*${range.column(perRack.column)}` : '';
    const factor = unitColumn ? `*${factorFormula(unitColumn, range.column(unitColumn.column))}` : '';
    const read =
      reading.conversion === 'weekdays'
        ? this.dayText(given, reading, cells, range)
        : this.inWeek(
            reading,
            withLess(
              this.converted(given, reading, cells, reading.rest && range.column(reading.rest.column)),
            ) +
              each +
              factor +
              partOfDayText(given.candidate, reading.overDays, range.column),
            range,
            given.candidate,
          );
    const tests = [
      ...(mask === undefined ? [] : [`${mask}=""`]),
      reading.rest && !reading.rest.isTakenOff
        ? `(${cells}="")*(${range.column(reading.rest.column)}="")`
        : `${cells}=""`,
      ...(reading.unless === undefined ? [] : [`${range.column(reading.unless)}<>""`]),
    ];
    const blank = tests.length === 1 ? tests[0]! : tests.map((test) => `(${test})`).join('+');
    if (isShownAsWritten(reading)) return `=IF(${blank},"",IFERROR(${read},${cells}))`;
    const keepsBlanks = passesBlanks(reading) && unitFactor(this.fit, reading.unit) === 1;
    if (reading.hasZeros) return `=IF(${blank},"",IF(IFERROR(${cells}*1,1)=0,"none",${read}))`;
    return read === cells || mask !== undefined || !keepsBlanks ? `=IF(${blank},"",${read})` : `=${read}`;
  }

  /** The figures of a recipe as shares of its dry mass. */
  private ofDry(given: TableFit, reading: ColumnReading, range: ReadRange, mask: string | undefined): string {
    const { moisture } = reading.ofRecipe!;
    const cells = cellsText(reading, range);
    const isRecord = mask === undefined ? `${cells}<>""` : `${mask}<>""`;
    const water = moisture && this.converted(given, moisture, cellsText(moisture, range));
    return `=IF(${isRecord},${sharesText(this.converted(given, reading, cells), water, isRecord)},"")`;
  }

  /** What the grower said of all records alike. */
  private saidOfAll(given: TableFit, reading: ColumnReading): string {
    const value = inJobUnit(this.fit, reading.said!.value, reading.unit);
    if (typeof value === 'number') return String(Number(value.toPrecision(12)));
    return typeof value === 'string'
      ? this.converted(given, reading, `"${value.replaceAll('"', '""')}"`)
      : 'NA()';
  }

  private converted(given: TableFit, reading: ColumnReading, cells: string, beside?: string): string {
    const { name } = given.candidate.table;
    if (reading.rest && beside !== undefined)
      return this.timesFactor(massText(reading, reading.rest, cells, beside), reading.unit);
    if (reading.inStrains) return inStrainsText(cells, reading.inStrains);
    const { legend, ...plain } = reading;
    if (legend) {
      return this.converted(given, plain, `IFERROR(VLOOKUP(${cells},${legend.range},2,FALSE),${cells})`);
    }
    switch (reading.conversion) {
      case 'dates':
        return this.dates(given, reading, cells);
      case 'day figures': {
        const day = `DATE(INT(${cells}/10000),MOD(INT(${cells}/100),100),MOD(${cells},100))`;
        // A month 13 would roll into the next year.
        const again = `YEAR(${day})*10000+MONTH(${day})*100+DAY(${day})`;
        return `IF(${again}=${cells}*1,${day},NA())`;
      }
      case 'figures': {
        const { decimalMark, ofRange } = reading;
        const mark = decimalMark === undefined ? (ofRange ? ',' : '') : `,"${decimalMark}"`;
        const end = ofRange === undefined ? '' : `,"${ofRange}"`;
        const figures = `${PREFIX}TONUMBERS(${cells},"${reading.unit}"${mark}${end})`;
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
        if (name === 'lots' && reading.name === 'room')
          return `IFERROR(${PREFIX}MATCHLABELS(${cells},${this.referred.get('rooms')!.column('room')}),"")`;
        if (list !== undefined && name === 'orders' && isJoined(this.fit, name) && this.products !== '') {
          const place = `MATCH(TRIM(${cells}),${this.products}[product],0)`;
          const matched = `IFERROR(${PREFIX}MATCHLABELS(${cells},${list}),${cells})`;
          return `IFERROR(INDEX(${this.products}[read as],${place}),${matched})`;
        }
        if (list !== undefined && isJoined(this.fit, name)) {
          const matched = `${PREFIX}MATCHLABELS(${cells},${list})`;
          // A pick of no lot stays as it was written: the audit says what lot it may be.
          return name === 'harvests' ? `IFERROR(${matched},${cells})` : matched;
        }
        return this.timesFactor(cells, reading.unit);
      }
    }
  }

  /** The day of a week that a part is for, where its dates say the week. */
  private inWeek(
    { week, range, weeks, dayBeside }: ColumnReading,
    day: string,
    own: ReadRange,
    candidate: Candidate,
  ): string {
    const { weekday } = own;
    if (weeks && dayBeside) return onTheirDaysText(candidate, day, own, dayBeside);
    if (range?.weekday) return dayOfRangeText(day, range.weekday);
    return week ? dayInWeekText(day, weekday, week) : day;
  }

  private dayText(
    given: TableFit,
    reading: ColumnReading,
    cells: string,
    { week, day }: Pick<ReadRange, 'week' | 'day'>,
  ): string {
    const { candidate } = given;
    const held = candidate.dataRows.map((row) => cellAt(candidate.sheet, row, reading.match.column));
    const standing = dayText(cells, this.first.text, { week, which: day, held });
    if (!reading.hasDates) return standing;
    const dates = reading.proven ? this.dates(given, reading, cells) : `IF(ISNUMBER(${cells}),${cells},NA())`;
    return `IF(${isDayText(cells, day, held)},${standing},${dates})`;
  }

  private dates(given: TableFit, reading: ColumnReading, cells: string): string {
    const dates = datesText(given.orders.get(reading.name) ?? 'day first', reading, cells);
    return reading.weeks ? weekFormula(cells, reading.weeks, dates) : dates;
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

/** All that comes off the blocks of each lot, and what of them stands in rooms. */
const allOff = ({ candidate }: TableFit, { column }: ReadRange): string =>
  lessFormula(candidate, column) + standingFormula(candidate, column);
