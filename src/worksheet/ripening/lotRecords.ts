import type { RipeningRecord } from '../../maths/ripening/strainWaits';
import { labelKey } from '../../maths/shared/labels';
import { isBlankOrZero, type Cell, type CellError, type Place } from '../cells/cell';
import { orBlank, serial, text, type Kind } from '../cells/kinds';
import { refuse } from '../readCell';
import { METRIC, type Telling } from '../voice';
import type { Context } from '../definition';

/** A cell that is not what its column asks for. */
class Refused {
  constructor(readonly cell: Cell) {}
}

/** A value, null for a blank, or the cell that is no such thing: for records of which one must not spoil all. */
type Judged<T> = T | Refused | null;

/** Takes any cell: what is wrong with it is told where its row belongs. */
const judged = <T>(kind: Kind<T>, blankMeans: string): Kind<Judged<T>> => ({
  ...(orBlank(kind, blankMeans) as Kind<never>),
  accept: (cell): Judged<T> => (isBlankOrZero(cell) ? null : (kind.accept(cell) ?? new Refused(cell))),
});

const LEFT_OUT = 'the lot is left out; a last row counts such lots';
export const judgedStrain = judged(text(), LEFT_OUT);
export const judgedInoculated = judged(serial(), LEFT_OUT);
const readyDate = orBlank(serial(), 'the lot still waits');
export const judgedReady = judged(serial(), readyDate.blankMeans!);

/** Records of lots, and what could not be counted. */
export interface LotRecords {
  readonly records: readonly RipeningRecord[];
  /** Strains with a cell that cannot be read, by label: their lots with such a cell, and the first fault. */
  readonly spoiled: ReadonlyMap<string, { readonly strain: string; lots: number; readonly fault: CellError }>;
  readonly withoutStrain: number;
  readonly withoutDate: number;
}

/** Sorts the rows of three columns. A row that is blank in all columns of several cells is no lot. */
export function lotRecords(
  strains: readonly Judged<string>[],
  inoculated: readonly Judged<number>[],
  ready: readonly Judged<number>[],
  { rowNumbers, isSingle, dateSystem }: Context,
): LotRecords {
  const telling: Telling = { dateSystem, voice: METRIC };
  const columns = [strains, inoculated, ready];
  const own = columns.filter((_, k) => !isSingle[k]);
  const told = own.length > 0 ? own : columns;
  const isNoLot = (i: number): boolean => {
    for (const column of told) if (column[i] !== null) return false;
    return true;
  };
  const records: RipeningRecord[] = [];
  const spoiled = new Map<string, { strain: string; lots: number; fault: CellError }>();
  let [withoutStrain, withoutDate] = [0, 0];
  for (let i = 0; i < strains.length; i++) {
    if (isNoLot(i)) continue;
    const [strain, from, to] = [strains[i]!, inoculated[i]!, ready[i]!];
    if (strain === null || strain instanceof Refused) {
      withoutStrain++;
      continue;
    }
    if (from === null) {
      withoutDate++;
      continue;
    }
    if (from instanceof Refused || to instanceof Refused) {
      const placeOf = (argument: string): Place =>
        strains.length > 1 ? { argument, row: rowNumbers[i]! } : { argument };
      const { error } =
        from instanceof Refused
          ? refuse(serial(), from.cell, placeOf('inoculated'), telling)
          : refuse(readyDate, (to as Refused).cell, placeOf('ready'), telling);
      const before = spoiled.get(labelKey(strain));
      if (before) before.lots++;
      else spoiled.set(labelKey(strain), { strain, lots: 1, fault: error });
      continue;
    }
    records.push({
      strain: strain,
      inoculatedSerial: from,
      readySerial: to ?? undefined,
      index: i,
    });
  }
  return { records, spoiled, withoutStrain, withoutDate };
}
