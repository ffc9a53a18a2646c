import { COLUMNS, ROWS } from '../../../xlsx/address';
import type { BuiltIn } from '../builtIn';
import { toBoolean, toText, toWhole } from '../coercion';
import { isError, REF, Reference, VALUE } from '../values';

// References found by calculation. Definitions: ISO/IEC 29500-1:2016, 18.17.7.

const offset: BuiltIn = {
  name: 'OFFSET',
  least: 3,
  most: 5,
  takes: ['range', 'value'],
  isVolatile: true,
  findsReferences: true,
  call(context, [from, down, right, height, width]) {
    if (isError(from)) return from;
    if (!(from instanceof Reference)) return VALUE;
    const { sheet, top, left, bottom, right: end } = from.area;
    const whole = (value: typeof down, otherwise: number): number =>
      value === undefined ? otherwise : toWhole(context.scalarOf(value), context.dateSystem);
    const rows = whole(height, bottom - top + 1);
    const columns = whole(width, end - left + 1);
    if (rows === 0 || columns === 0) return REF;
    const first = top + whole(down, 0) + (rows < 0 ? rows + 1 : 0);
    const start = left + whole(right, 0) + (columns < 0 ? columns + 1 : 0);
    const last = first + Math.abs(rows) - 1;
    const stop = start + Math.abs(columns) - 1;
    if (first < 0 || start < 0 || last >= ROWS || stop >= COLUMNS) return REF;
    return Reference.to({ sheet, top: first, left: start, bottom: last, right: stop });
  },
};

const indirect: BuiltIn = {
  name: 'INDIRECT',
  least: 1,
  most: 2,
  takes: ['value'],
  isVolatile: true,
  findsReferences: true,
  call(context, [text, isPlain]) {
    const inLetters = isPlain === undefined || toBoolean(context.scalarOf(isPlain));
    return context.referenceTo(toText(context.scalarOf(text)), !inLetters);
  },
};

export const references: readonly BuiltIn[] = [offset, indirect];
