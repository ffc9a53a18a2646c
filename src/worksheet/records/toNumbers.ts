import type { DecimalMark, NumberUnit } from '../../maths/records/textNumber';
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
  C: 'degrees Celsius',
  F: 'degrees Fahrenheit',
});

const mark = choice<DecimalMark>({ point: '1,250.5', comma: '1.250,5' });

/** Words that say 0 wherever Pinset asks for a figure. */
const ZERO_WORDS = ['none', 'free'];

export const TONUMBERS = defineFunction({
  name: 'TONUMBERS',
  family: 'records',
  arguments: [
    keyColumn('figures', anything(), 'figures as your sheet has them, as text or as numbers'),
    setting('unit', unit, 'unit of the answer, and of figures without one'),
    optionalSetting('decimal mark', mark, undefined, 'point or comma, where figures such as 1,250 need it'),
  ],
  result: value('number', mixed()),
  needs: ['converting'],
  beside: (cells, inUnit, decimalMark, context) => {
    const { textNumber, shareOfFigure } = context.tools.converting;
    const isShare = inUnit === 'share' || inUnit === 'percent';
    const shown = (figure: number | CalcError | CellError): number | Formatted | CalcError | CellError =>
      isShare && typeof figure === 'number' ? formatted(figure, 'percent') : figure;
    const kind = number();
    /** A fault of the maths knows its row only here, where the entry's place is known. */
    const placed = (fault: CalcError, index: number): CalcError =>
      new CalcError(fault.kind, { ...fault.fault, index });
    return cells.map((cell: Cell, at): string | number | Formatted | CalcError | CellError => {
      if (isCellError(cell)) return cell;
      if (typeof cell === 'string') {
        const word = cell.trim().toLowerCase();
        if (ZERO_WORDS.includes(word)) return word;
        const read = orFault(() => textNumber(cell.trim(), inUnit, decimalMark));
        return shown(read instanceof CalcError ? placed(read, at) : read);
      }
      const real = kind.accept(cell);
      if (real === undefined) return refusedIn('figures', kind, cell, at, context);
      if (!isShare) return real;
      const read = orFault(() => shareOfFigure(real, inUnit));
      return shown(read instanceof CalcError ? placed(read, at) : read);
    });
  },
});
