import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { DateOrder } from '../../worksheet/writtenDates';
import { textOf } from './book';
import type { Candidate } from './candidate';
import {
  areOrIs,
  cellsOf,
  corrected,
  counted,
  placesOf,
  where,
  type Correction,
  type DataFinding,
  type Held,
} from './dataFinding';
import { isDateColumn, isFigureColumn } from './looks';
import { readEitherWay } from './eitherWay';
import type { Reader } from './readCells';
import type { ColumnReading } from './reading';
import { isMassUnit, isShare, massUnitIn, slipFrom } from './units';
import { isDash, isDitto, isTextDate } from './values';

const DATE_FORMAT = 'yyyy-mm-dd';

const PERCENT_FORMAT = '0.0%';

export function columnFindings(table: Candidate, reading: ColumnReading, reader: Reader): DataFinding[] {
  const cells = cellsOf(table, reading);
  // A moisture that is a dash is one that a plan will miss; a day that is a dash has not come.
  const mayBeDash = isDateColumn(reading.wanted) && !reading.wanted.isNeeded;
  const saysNothing = (held: Cell): boolean => isDitto(held) || (mayBeDash && isDash(held));
  const texts = cells.filter(({ held }) => typeof held === 'string' && !isBlank(held) && !saysNothing(held));
  if (isDateColumn(reading.wanted)) return dateFindings(table, reading, texts, reader);
  if (isFigureColumn(reading.wanted)) {
    return [...figureFindings(table, reading, texts, reader), ...slips(table, reading, cells)];
  }
  return [];
}

function dateFindings(
  table: Candidate,
  reading: ColumnReading,
  texts: readonly Held[],
  reader: Reader,
): DataFinding[] {
  const dates = texts.filter(({ held }) => isTextDate(textOf(held)));
  const others = texts.filter(({ held }) => !isTextDate(textOf(held)));
  const findings: DataFinding[] = [];
  if (dates.length > 0) {
    const { proven } = reading;
    const orders: readonly DateOrder[] = proven?.order
      ? [proven.order]
      : proven?.isNeeded
        ? ['day first', 'month first']
        : ['day first'];
    findings.push({
      cause: 'text dates',
      words:
        `${counted(dates.length, 'date')} in ${where(table, reading)} ${areOrIs(dates.length)} text: ` +
        (proven?.order
          ? `${proven.order}, as ${counted(proven.proofs, 'of them proves', 'of them prove')}`
          : proven?.isContradicted
            ? 'some can only be day first, others only month first'
            : proven?.isNeeded
              ? 'none of them proves whether day or month is first'
              : 'no calculation takes it for a day'),
      cells: placesOf(dates),
      ways: orders.flatMap((order) => {
        const corrections = corrected(
          dates,
          reader.dates(
            dates.map(({ held }) => held),
            order,
            undefined,
          ),
          DATE_FORMAT,
        );
        return corrections.length === 0 ? [] : [{ name: orders.length === 1 ? '' : order, corrections }];
      }),
    });
  }
  return others.length === 0 ? findings : [...findings, unreadable(table, reading, others, 'no date')];
}

const unreadable = (
  table: Candidate,
  reading: ColumnReading,
  cells: readonly Held[],
  what: string,
): DataFinding => ({
  cause: 'unreadable',
  words: `${counted(cells.length, 'cell')} in ${where(table, reading)} ${areOrIs(cells.length)} ${what}: ${some(cells.map(({ held }) => `“${textOf(held)}”`))}`,
  cells: placesOf(cells),
  ways: [],
});

const MOST_NAMED = 3;

export function some(words: readonly string[]): string {
  const own = [...new Set(words)];
  return own.length <= MOST_NAMED
    ? own.join(', ')
    : `${own.slice(0, MOST_NAMED).join(', ')} and ${own.length - MOST_NAMED} more`;
}

function figureFindings(
  table: Candidate,
  reading: ColumnReading,
  texts: readonly Held[],
  reader: Reader,
): DataFinding[] {
  const wanted = texts.filter(({ held }) => !/^(none|free|off)$/i.test(textOf(held).trim()));
  if (wanted.length === 0) return [];
  const read = reader.figures(
    wanted.map(({ held }) => held),
    reading.unit,
    reading.decimalMark,
  );
  const readable = wanted.filter((_, i) => typeof read[i] === 'number');
  const either = readEitherWay(
    wanted.map(({ held }) => held),
    reading,
    reader,
  ).map((i) => wanted[i]!);
  const others = wanted.filter((one, i) => isCellError(read[i]) && !either.includes(one));
  const findings: DataFinding[] = either.length === 0 ? [] : [eitherWay(table, reading, either, reader)];
  if (readable.length > 0) {
    const units = new Set(readable.flatMap(({ held }) => massUnitIn(textOf(held)) ?? []));
    const corrections = corrected(wanted, read, isShare(reading.wanted) ? PERCENT_FORMAT : undefined);
    findings.push({
      cause: units.size > 1 ? 'units' : 'text figures',
      words:
        `${counted(readable.length, 'figure')} in ${where(table, reading)} ${areOrIs(readable.length)} text` +
        (units.size > 1
          ? `, in ${[...units].join(' and ')}: all would be in ${reading.unit}`
          : isMassUnit(reading.unit)
            ? `, in ${reading.unit}`
            : ''),
      cells: placesOf(readable),
      ways: [{ name: '', corrections: [...headerCorrection(table, reading), ...corrections] }],
    });
  }
  return others.length === 0 ? findings : [...findings, unreadable(table, reading, others, 'no figure')];
}

/** Figures of which only the grower knows whether a mark parts thousands or begins the decimals. */
function eitherWay(
  table: Candidate,
  reading: ColumnReading,
  cells: readonly Held[],
  reader: Reader,
): DataFinding {
  const held = cells.map((one) => one.held);
  return {
    cause: 'text figures',
    words: `${counted(cells.length, 'figure')} in ${where(table, reading)} ${areOrIs(cells.length)} text, and the mark in ${some(held.map(textOf))} may part thousands or begin the decimals`,
    cells: placesOf(cells),
    ways: (['point', 'comma'] as const).map((mark) => ({
      name: `decimal ${mark}`,
      corrections: corrected(cells, reader.figures(held, reading.unit, mark)),
    })),
  };
}

/** A figure that loses its unit leaves it in the header. */
function headerCorrection({ sheet, area }: Candidate, { match, unit }: ColumnReading): Correction[] {
  if (!isMassUnit(unit) || massUnitIn(match.header) !== undefined) return [];
  const place = { sheet: sheet.name, row: area.top, column: match.column };
  if (sheet.isFormula(place.row, place.column)) return [];
  return [{ ...place, before: match.header, after: `${match.header} (${unit})` }];
}

/** Shares written as per cent without the sign: 62 for 62%. */
function slips(table: Candidate, reading: ColumnReading, cells: readonly Held[]): DataFinding[] {
  if (!isShare(reading.wanted)) return [];
  const from = slipFrom(reading.wanted);
  const slipped = cells.filter(({ held }) => typeof held === 'number' && held > from && held <= 100 * from);
  if (slipped.length === 0) return [];
  return [
    {
      cause: 'per cent',
      words: `${counted(slipped.length, 'share')} in ${where(table, reading)} ${areOrIs(slipped.length)} above 100%: ${some(slipped.map(({ held }) => textOf(held)))} is read as that many times the whole`,
      cells: placesOf(slipped),
      ways: [
        {
          name: '',
          corrections: corrected(
            slipped,
            slipped.map(({ held }) => Number(((held as number) / 100).toPrecision(15))),
            PERCENT_FORMAT,
          ),
        },
      ],
    },
  ];
}
