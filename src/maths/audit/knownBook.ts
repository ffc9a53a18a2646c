import { MOST_FLUSHES } from '../harvest/flushTimes';
import { labelKey } from '../shared/labels';
import { loadedDay } from '../shared/loadedBlocks';
import { LAST_SERIAL } from '../shared/serial';
import type {
  AuditedColumn,
  Cause,
  Entry,
  Finding,
  LotRecord,
  PickRecord,
  StrainFacts,
} from './yieldRecords';

/**
 * A lot as far as it can be read; what a finding corrects is corrected here for the sake of the others. A class, so that
 * whole and broken figures make no two kinds of object of it: loops over lots are compiled again for each kind.
 */
export class KnownLot {
  blocks: number | undefined;
  blockMass: number | undefined;
  moisture: number | undefined;
  inoculated: number | undefined;
  loaded: number | undefined;
  total: number | undefined;
  readonly picks: KnownPick[] = [];

  constructor(
    readonly record: LotRecord,
    readonly strainKey: string,
    readonly strain: StrainFacts | undefined,
  ) {}
}

/** A pick as far as it can be read; a class for the same reason. */
export class KnownPick {
  lot: KnownLot | undefined;
  day: number | undefined;
  /** Above 0, or 0 for `none`. */
  mass: number | undefined;
  /** What was taken off the mass that was typed; 0 where it was typed as it is. */
  tare = 0;
  flush: number | undefined;
  /** Whether the flush is on record: others are found from dates. */
  isRecorded = false;
  /** A second copy of another row. */
  isCopy = false;

  constructor(readonly record: PickRecord) {}
}

export interface KnownBook {
  readonly lots: ReadonlyMap<string, KnownLot>;
  readonly picks: readonly KnownPick[];
  readonly findings: Finding[];
}

const isDate = (column: AuditedColumn): boolean =>
  column === 'date' || column === 'loaded' || column === 'inoculated';

type More = Partial<Omit<Finding, 'table' | 'lot' | 'cause' | 'column' | 'value'>>;

/** A finding in the row of a pick or a lot. */
export function found(
  where: PickRecord | LotRecord,
  cause: Cause,
  column: AuditedColumn,
  value: number | string,
  more: More = {},
): Finding {
  return {
    table: 'mass' in where ? 'harvests' : 'lots',
    row: where.row,
    rows: [where.row],
    lot: where.lot,
    cause,
    column,
    value,
    expected: undefined,
    corrected: undefined,
    slip: undefined,
    sure: 1,
    wrong: more.sure ?? 1,
    ...more,
  };
}

const tareOf = (where: PickRecord | LotRecord): number =>
  'tare' in where && typeof where.tare === 'number' && where.tare > 0 ? where.tare : 0;

/** Wet mass of the blocks less their water; undefined where a figure is not known. */
export function dryMassOf({ blocks, blockMass, moisture }: KnownLot): number | undefined {
  if (blocks === undefined || blockMass === undefined || moisture === undefined) return undefined;
  return blocks * blockMass * (1 - moisture);
}

/** Last day a lot is picked on by its strain's times; undefined where they are not known. */
export function lastExpected({ loaded, strain }: KnownLot): number | undefined {
  if (loaded === undefined || strain?.firstPick === undefined) return undefined;
  return loaded + strain.firstPick + (strain.flushes - 1) * (strain.flushGap ?? 0) + (strain.pickDays ?? 0);
}

/** Reads every cell, and tells those that are no figure at all. */
export function knownBook(
  picks: readonly PickRecord[],
  lots: readonly LotRecord[],
  strains: ReadonlyMap<string, StrainFacts>,
): KnownBook {
  const findings: Finding[] = [];
  const figure = (where: PickRecord | LotRecord, entry: Entry, column: AuditedColumn): number | undefined => {
    if (entry === undefined) return undefined;
    if (typeof entry === 'number') {
      if (entry > 0 && entry <= (isDate(column) ? LAST_SERIAL : Number.MAX_VALUE)) return entry;
      if (column === 'mass' && entry < 0 && tareOf(where) > 0) {
        // What was typed is lighter than its crate: no minus sign is too many.
        findings.push(found(where, 'mass negative', column, entry, { tare: tareOf(where) }));
        return undefined;
      }
      if (column === 'mass' && entry < 0) {
        findings.push(found(where, 'mass negative', column, entry, { corrected: -entry, slip: 'minus' }));
        return -entry;
      }
      findings.push(found(where, 'out of range', column, entry));
      return undefined;
    }
    const typed = entry.trim();
    if (column === 'mass' && typed.toLowerCase() === 'none') return 0;
    const number = typed === '' ? NaN : Number(typed.replace(',', '.'));
    const isReadable = Number.isFinite(number) && number > 0;
    findings.push(
      found(where, 'not a number', column, entry, isReadable ? { corrected: number, slip: 'text' } : {}),
    );
    return isReadable ? number : undefined;
  };
  const whole = (day: number | undefined): number | undefined =>
    day === undefined ? undefined : Math.floor(day);

  const known = new Map<string, KnownLot>();
  for (const record of lots) {
    const key = labelKey(record.lot);
    const first = known.get(key);
    if (first) {
      findings.push(found(record, 'lot twice', 'lot', record.lot, { about: first.record.row }));
      continue;
    }
    let moisture = figure(record, record.moisture, 'moisture');
    if (moisture !== undefined && moisture >= 1) {
      // 100 without its sign, or 100%, is no moisture either: nothing says what was meant.
      const share = moisture > 1 && moisture < 100 ? moisture / 100 : undefined;
      findings.push(
        found(
          record,
          'out of range',
          'moisture',
          moisture,
          share === undefined ? {} : { corrected: share, slip: 'percent' },
        ),
      );
      moisture = share;
    }
    const blocks = figure(record, record.blocks, 'blocks');
    const loaded = figure(record, record.loaded, 'loaded');
    // A figure too small for a date is the number of blocks loaded so far: the picks are of these.
    let ofLoaded = loaded === undefined || loadedDay(loaded) !== undefined ? undefined : loaded;
    if (ofLoaded !== undefined && !(Number.isInteger(ofLoaded) && ofLoaded <= (blocks ?? Infinity))) {
      findings.push(found(record, 'out of range', 'loaded', ofLoaded));
      ofLoaded = undefined;
    }
    const strainKey = labelKey(record.strain);
    const lot = new KnownLot(record, strainKey, strains.get(strainKey));
    lot.blocks = ofLoaded ?? blocks;
    lot.blockMass = figure(record, record.blockMass, 'block mass');
    lot.moisture = moisture;
    lot.inoculated = whole(figure(record, record.inoculated, 'inoculated'));
    lot.loaded = whole(loadedDay(loaded));
    lot.total = figure(record, record.total, 'total');
    known.set(key, lot);
  }
  const lotOf = new Map<string, KnownLot | undefined>();
  const read = picks.map((record): KnownPick => {
    if (!lotOf.has(record.lot)) lotOf.set(record.lot, known.get(labelKey(record.lot)));
    const lot = lotOf.get(record.lot);
    if (record.lot === '') findings.push(found(record, 'lot missing', 'lot', ''));
    if (record.mass === undefined) findings.push(found(record, 'mass missing', 'mass', ''));
    if (record.date === undefined) findings.push(found(record, 'date missing', 'date', ''));
    let flush = figure(record, record.flush, 'flush');
    if (flush !== undefined && !(Number.isInteger(flush) && flush <= MOST_FLUSHES)) {
      findings.push(found(record, 'out of range', 'flush', flush));
      flush = undefined;
    }
    const pick = new KnownPick(record);
    pick.lot = lot;
    pick.day = whole(figure(record, record.date, 'date'));
    pick.mass = figure(record, record.mass, 'mass');
    pick.tare = tareOf(record);
    pick.flush = flush;
    pick.isRecorded = flush !== undefined;
    figure(record, record.blocks, 'blocks');
    lot?.picks.push(pick);
    return pick;
  });
  return { lots: known, picks: read, findings };
}

/** Moves a pick to the lot that it belongs to. */
export function moveTo(pick: KnownPick, lot: KnownLot | undefined): void {
  pick.lot?.picks.splice(pick.lot.picks.indexOf(pick), 1);
  pick.lot = lot;
  lot?.picks.push(pick);
}
