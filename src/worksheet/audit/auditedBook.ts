import type { Entry, LotRecord, PickRecord, StrainFacts } from '../../maths/audit/yieldRecords';
import { isBlankOrZero, isCellError, type Cell } from '../cells/cell';
import { only, type RowOf } from '../cells/columns';
import { strainColumns } from '../tables';
import { auditedHarvestColumns, auditedLotColumns } from './tables';

// The cells of the three tables as the audit reads them.

export const auditedStrainColumns = only(
  strainColumns,
  'strain',
  'earliest',
  'first pick',
  'pick days',
  'flush gap',
  'flushes',
  'efficiency',
);

function entryOf(cell: Cell | undefined): Entry {
  if (cell === undefined || cell === null || isBlankOrZero(cell)) return undefined;
  if (typeof cell === 'number' || typeof cell === 'string') return cell;
  return isCellError(cell) ? cell.code : String(cell).toUpperCase();
}

const labelOf = (cell: Cell | undefined): string => String(entryOf(cell) ?? '').trim();

// Classes, so that whole and broken figures make no two kinds of object of a row, as in the book that is made of them.

class TypedPick implements PickRecord {
  readonly row: number;
  readonly lot: string;
  readonly date: Entry;
  readonly mass: Entry;
  readonly flush: Entry;
  readonly blocks: Entry;
  readonly picker: string;
  readonly scale: string;
  readonly grade: string;
  readonly crate: string;

  constructor(pick: RowOf<typeof auditedHarvestColumns>) {
    this.row = pick.at;
    this.lot = labelOf(pick.lot);
    this.date = entryOf(pick.date);
    this.mass = entryOf(pick.mass);
    this.flush = entryOf(pick.flush);
    this.blocks = entryOf(pick.blocks);
    this.picker = labelOf(pick.picker);
    this.scale = labelOf(pick.scale);
    this.grade = labelOf(pick.grade);
    this.crate = labelOf(pick.crate);
  }
}

class TypedLot implements LotRecord {
  readonly row: number;
  readonly lot: string;
  readonly strain: string;
  readonly blocks: Entry;
  readonly blockMass: Entry;
  readonly moisture: Entry;
  readonly inoculated: Entry;
  readonly loaded: Entry;
  readonly total: Entry;

  constructor(lot: RowOf<typeof auditedLotColumns>) {
    this.row = lot.at;
    this.lot = labelOf(lot.lot);
    this.strain = labelOf(lot.strain);
    this.blocks = entryOf(lot.blocks);
    this.blockMass = entryOf(lot['block mass']);
    this.moisture = entryOf(lot.moisture);
    this.inoculated = entryOf(lot.inoculated);
    this.loaded = entryOf(lot.loaded);
    this.total = entryOf(lot.total);
  }
}

export const pickOf = (pick: RowOf<typeof auditedHarvestColumns>): PickRecord => new TypedPick(pick);
export const lotOf = (lot: RowOf<typeof auditedLotColumns>): LotRecord => new TypedLot(lot);

export const factsOf = (strain: RowOf<typeof auditedStrainColumns>): StrainFacts => ({
  earliest: strain.earliest,
  firstPick: strain['first pick'],
  pickDays: strain['pick days'],
  flushGap: strain['flush gap'],
  flushes: strain.flushes,
  efficiency: strain.efficiency,
});
