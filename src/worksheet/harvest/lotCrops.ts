import { lotCrop, type Crop, type Pick } from '../../maths/harvest/lotCrop';
import { labelKey } from '../../maths/shared/labels';
import { loadedBlocks, loadedDay } from '../../maths/shared/loadedBlocks';
import { isCellError, type CellError } from '../cells/cell';
import type { RowOf } from '../cells/columns';
import { orFault, SheetFault } from '../cells/fault';
import type { Faulty } from '../cells/results';
import type { Table } from '../cells/table';
import type { croppedLotColumns, harvestColumns } from '../tables';

/** A row of the lots table. */
export type LotRow = RowOf<typeof croppedLotColumns>;
type Harvests = Table<RowOf<typeof harvestColumns>>;

/** The rows of the harvests that name one lot. */
export interface PickedLot {
  /** As the first of them writes it. */
  readonly label: string;
  /** Row of the sheet's range where it is named first. */
  readonly firstAt: number;
  readonly picks: (Pick & { readonly at: number })[];
  /** Rows that cannot be read, by their place. */
  readonly faults: Map<number, CellError>;
}

/** The rows of the harvests lot by lot, those that cannot be read set apart. */
export function lotsPicked(harvests: Harvests): PickedLot[] {
  const lots = new Map<string, PickedLot>();
  const keys = new Map<string, string>();
  harvests.entries.forEach((entry, i) => {
    const label = harvests.labels[i]!;
    const at = harvests.rowNumbers[i]!;
    let same = keys.get(label);
    if (same === undefined) keys.set(label, (same = labelKey(label)));
    let lot = lots.get(same);
    if (!lot) lots.set(same, (lot = { label, firstAt: at, picks: [], faults: new Map() }));
    if (isCellError(entry)) lot.faults.set(at, entry);
    else lot.picks.push({ at, dateSerial: entry.date, mass: entry.mass, flush: entry.flush });
  });
  return [...lots.values()];
}

/** A lot of either table with what it gave. */
export interface LotCrop {
  /** As the lots, or the harvests where no lot matches, write it. */
  readonly label: string | Faulty;
  readonly lot: LotRow | undefined;
  readonly picks: readonly Pick[];
  /** How many rows of the harvests name it, those that cannot be read included. */
  readonly rows: number;
  /** Undefined where nothing was picked yet; a fault where something spoils it. */
  readonly crop: Crop | Faulty | undefined;
}

/** Whether there is a crop: neither a fault nor nothing yet. */
export const isCrop = (crop: LotCrop['crop']): crop is Crop => crop !== undefined && 'byFlush' in crop;

/** The crop of each lot in the order of lots, then of each lot that only the harvests know. */
export function cropsOf(harvests: Harvests, lots: Table<LotRow>): LotCrop[] {
  const picked = new Map(lotsPicked(harvests).map((lot) => [labelKey(lot.label), lot]));
  const known = lots.labels.map((label, i): LotCrop => {
    const unread = lots.entries[i]!;
    if (label === '' && isCellError(unread)) {
      return { label: unread, lot: undefined, picks: [], rows: 0, crop: unread };
    }
    const own = picked.get(labelKey(label));
    const picks = own?.picks ?? [];
    let lot: LotRow | undefined;
    const crop = orFault(() => {
      lot = lots.find(label, 'lots, lot');
      const [fault] = own?.faults.values() ?? [];
      if (fault) throw new SheetFault(fault);
      if (picks.length === 0) return undefined;
      // With a number of blocks loaded so far, the picks are of these.
      lot = { ...lot, blocks: loadedBlocks(lot) ?? lot.blocks };
      const { at, blocks, 'block mass': blockMass, moisture, loaded } = lot;
      return lotCrop(picks, { at, blocks, blockMass, moisture, loadedSerial: loadedDay(loaded) });
    });
    return { label, lot, picks, rows: rowsOf(own), crop };
  });
  const ofLots = new Set(lots.labels.map(labelKey));
  const unknown = [...picked].flatMap(([key, own]): LotCrop[] => {
    if (key !== '' && ofLots.has(key)) return [];
    const { label, firstAt, picks, faults } = own;
    const [fault] = label === '' ? faults.values() : [];
    const crop = fault ?? lots.lacks(label, 'harvests, lot', firstAt);
    return [{ label: fault ?? label, lot: undefined, picks, rows: rowsOf(own), crop }];
  });
  return [...known, ...unknown];
}

const rowsOf = (own: PickedLot | undefined): number => (own ? own.picks.length + own.faults.size : 0);
