import type { DecimalMark, NumberUnit, OfRange, ShareRange } from '../../maths/records/textNumber';
import { CalcError } from '../../maths/shared/fault';
import { keyColumn, optionalSetting, setting } from '../cells/arguments';
import { formatted, isCellError, type Cell, type CellError, type Formatted } from '../cells/cell';
import { orFault } from '../cells/fault';
import { anything, choice, number } from '../cells/kinds';
import { mixed, value } from '../cells/results';
import { defineFunction } from '../define';
import { refusedIn } from './ownCells';

const unit = choice<NumberUnit>({
  kg: 'kilograms',
  g: 'grams',
  lb: 'pounds',
  oz: 'ounces',
  share: 'a share, 63% or 0.63',
  percent: 'a share too, from percentages such as 63 or 63%',
  number: 'a number without a unit, or a count',
  days: 'days; a week is 7',
  weeks: 'weeks',
  C: 'degrees Celsius',
  F: 'degrees Fahrenheit',
});

const mark = choice<DecimalMark>({ point: '1,250.5', comma: '1.250,5' });

const ofRange = choice<OfRange>({
  from: 'the first figure of 8–10',
  to: 'the second',
  middle: 'half-way between',
});

/** Words that say 0 wherever Pinset asks for a figure. */
const ZERO_WORDS = ['none', 'free'];
type Figure = number | CalcError | CellError;

const isZeroWord = (cell: Cell): cell is string =>
  typeof cell === 'string' && ZERO_WORDS.includes(cell.trim().toLowerCase());

/** What a column's shares that can be read in one way lie between; undefined where there are none. */
function rangeOf(figures: readonly (Figure | undefined)[]): ShareRange | undefined {
  let [least, most] = [Infinity, 0];
  for (const figure of figures) {
    if (typeof figure !== 'number' || figure === 0) continue;
    least = Math.min(least, figure);
    most = Math.max(most, figure);
  }
  return most > 0 ? { least, most } : undefined;
}

export const TONUMBERS = defineFunction({
  name: 'TONUMBERS',
  family: 'records',
  arguments: [
    keyColumn('figures', anything(), 'figures as your sheet has them, as text or as numbers'),
    setting('unit', unit, 'unit of the answer, and of figures without one'),
    optionalSetting('decimal mark', mark, undefined, 'point or comma, where figures such as 1,250 need it'),
    optionalSetting(
      'of a range',
      ofRange,
      undefined,
      'from, to or middle: what counts of 8–10; refused if left out',
    ),
  ],
  result: value('number', mixed()),
  needs: ['converting'],
  beside: (cells, inUnit, decimalMark, end, context) => {
    const { textNumberOrRange, shareOfFigure } = context.tools.converting;
    const isShare = inUnit === 'share' || inUnit === 'percent';
    const kind = number();
    /** The number of a cell; undefined where it holds neither a text nor a number. */
    const read = (cell: Cell, rest?: ShareRange): Figure | undefined => {
      if (typeof cell === 'string') {
        return orFault(() => textNumberOrRange(cell.trim(), inUnit, decimalMark, rest, end));
      }
      const real = kind.accept(cell);
      return real === undefined || !isShare ? real : orFault(() => shareOfFigure(real, inUnit, rest));
    };
    const alone = cells.map((cell) => (isCellError(cell) || isZeroWord(cell) ? undefined : read(cell)));
    const rest = isShare ? rangeOf(alone) : undefined;
    return cells.map((cell: Cell, at): string | number | Formatted | CalcError | CellError => {
      if (isCellError(cell)) return cell;
      if (isZeroWord(cell)) return cell.trim().toLowerCase();
      const figure = alone[at] instanceof CalcError && rest !== undefined ? read(cell, rest) : alone[at];
      if (figure === undefined) return refusedIn('figures', kind, cell, at, context);
      // A fault of the maths knows its row only here, where the entry's place is known.
      if (figure instanceof CalcError) return new CalcError(figure.kind, { ...figure.fault, index: at });
      return isShare && typeof figure === 'number' ? formatted(figure, 'percent') : figure;
    });
  },
});
