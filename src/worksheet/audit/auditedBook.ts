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

export const pickOf = (pick: RowOf<typeof auditedHarvestColumns>): PickRecord => ({
  row: pick.at,
  lot: labelOf(pick.lot),
  date: entryOf(pick.date),
  mass: entryOf(pick.mass),
  ...(pick.tare !== undefined && { tare: entryOf(pick.tare) }),
  flush: entryOf(pick.flush),
  blocks: entryOf(pick.blocks),
  picker: labelOf(pick.picker),
  scale: labelOf(pick.scale),
  grade: labelOf(pick.grade),
  crate: labelOf(pick.crate),
});

export const lotOf = (lot: RowOf<typeof auditedLotColumns>): LotRecord => ({
  row: lot.at,
  lot: labelOf(lot.lot),
  strain: labelOf(lot.strain),
  blocks: entryOf(lot.blocks),
  blockMass: entryOf(lot['block mass']),
  moisture: entryOf(lot.moisture),
  inoculated: entryOf(lot.inoculated),
  loaded: entryOf(lot.loaded),
  total: entryOf(lot.total),
});

export const factsOf = (strain: RowOf<typeof auditedStrainColumns>): StrainFacts => ({
  earliest: strain.earliest,
  firstPick: strain['first pick'],
  pickDays: strain['pick days'],
  flushGap: strain['flush gap'],
  flushes: strain.flushes,
  efficiency: strain.efficiency,
});
