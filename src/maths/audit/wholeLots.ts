import { compensatedSum } from '../shared/numeric';
import { labelKey } from '../shared/labels';
import { median } from '../shared/statistics';
import { dryMassOf, found, lastExpected, type KnownBook, type KnownLot } from './knownBook';
import { grouped, logTail, weigh } from './likelihood';
import { agreesWith } from './massExplanations';
import type { MassModel } from './massModel';
import type { MassSlip } from './massSlips';
import { judgeWholeBook } from './wholeBook';
import type { AuditedColumn, Finding } from './yieldRecords';

/** Range of biological efficiencies that a lot may have; where it is not set, the book's own lots are the measure. */
export interface EfficiencyLimits {
  readonly lowestEfficiency: number | undefined;
  readonly highestEfficiency: number | undefined;
}

const GRACE_DAYS = 15;
/** How sure a rule of thumb is. */
const RULE = 0.8;
const RIGHT = Math.log(0.98);
/** A lot that is simply odd: a wide bell. */
const ODD = Math.log(0.004);
const ODD_SPREAD = 1.5;
/** An odd lot is told from this share. */
const ODD_TOLD = 0.9;

/** Totals, efficiencies and counts of blocks that cannot be, and lots that were never picked. */
export function judgeWholeLots(
  book: KnownBook,
  model: MassModel,
  slips: readonly MassSlip[],
  limits: EfficiencyLimits,
): void {
  const { lots, picks, findings } = book;
  const lastDay = lastDayOf(picks);
  const isOver = (lot: KnownLot): boolean => {
    const last = lastExpected(lot);
    return last !== undefined && lastDay > last + GRACE_DAYS;
  };
  judgeWholeBook(book, slips, isOver);
  const haveLoads = [...lots.values()].some(({ loaded }) => loaded !== undefined);
  for (const lot of lots.values()) {
    const { record, total, loaded } = lot;
    if (lot.picks.length === 0) {
      if (isOver(lot)) findings.push(found(record, 'lot not picked', 'loaded', loaded!, { sure: RULE }));
      continue;
    }
    if (haveLoads && record.loaded === undefined)
      findings.push(found(record, 'lot not loaded', 'loaded', ''));
    const mass = compensatedSum(lot.picks.map((pick) => (pick.isCopy ? 0 : (pick.mass ?? 0))));
    const typed = compensatedSum(
      lot.picks.map(({ record: { mass: one } }) => (typeof one === 'number' ? one : 0)),
    );
    const unread = lot.picks.filter((pick) => pick.mass === undefined);
    if (total !== undefined && unread.length === 0) {
      if (![typed, mass].some((sum) => agreesWith(total, sum, lot.picks.length))) {
        findings.push(found(record, 'total', 'total', total, { expected: mass }));
      }
    } else if (total !== undefined && unread.length === 1 && total > mass) {
      // The total tells the one mass that cannot be read.
      const at = findings.findIndex(({ row, column }) => column === 'mass' && row === unread[0]!.record.row);
      if (at >= 0) findings[at] = { ...findings[at]!, expected: total - mass };
    }
    judgeEfficiency(book, lot, mass, isOver(lot), model, limits);
    judgeBlocks(findings, lot);
  }
}

/** Day of the last pick, but for those that come long after their lot is over. */
function lastDayOf(picks: KnownBook['picks']): number {
  let lastDay = -Infinity;
  for (const { day, lot } of picks) {
    const last = lot && lastExpected(lot);
    if (day !== undefined && lot && day > lastDay && !(last !== undefined && day > last + 60)) lastDay = day;
  }
  return lastDay;
}

function judgeEfficiency(
  { findings }: KnownBook,
  lot: KnownLot,
  mass: number,
  isOver: boolean,
  { byLot, spreads }: MassModel,
  { lowestEfficiency: low, highestEfficiency: high }: EfficiencyLimits,
): void {
  const dry = dryMassOf(lot);
  if (dry === undefined || !(mass > 0)) return;
  const efficiency = mass / dry;
  const tell = (expected: number | undefined, sure: number): void => {
    findings.push(found(lot.record, 'efficiency', 'total', efficiency, { expected, sure }));
  };
  if (high !== undefined && efficiency > high) tell(lot.strain?.efficiency ?? high, RULE);
  else if (low !== undefined && isOver && efficiency < low) tell(lot.strain?.efficiency ?? low, RULE);
  else if (high === undefined && low === undefined) {
    const own = (byLot.get(lot)?.all ?? []).map(({ off }) => off);
    if (own.length === 0) return;
    const off = median(own);
    const spread = Math.hypot(spreads.lot, spreads.flush / 1.4, spreads.pick / Math.sqrt(own.length));
    const { wrong } = weigh(RIGHT + logTail(off, spread), [
      { weight: ODD + logTail(off, ODD_SPREAD), of: 'odd' },
    ]);
    if (wrong > ODD_TOLD) tell(lot.strain?.efficiency, wrong);
  }
}

/** More blocks picked than loaded: of one pick its own slip, of more the lot's. */
function judgeBlocks(findings: Finding[], { record, blocks, picks }: KnownLot): void {
  const most = typeof record.blocks === 'number' ? record.blocks : blocks;
  if (most === undefined) return;
  const over = picks.filter(({ record: { blocks: picked } }) => typeof picked === 'number' && picked > most);
  if (over.length === 0) return;
  const picked = over.map(({ record: pick }) => pick.blocks as number);
  if (over.length > 1 && 2 * over.length > picks.length) {
    findings.push(found(record, 'blocks over', 'blocks', most, { expected: Math.max(...picked) }));
  } else {
    for (const { record: pick } of over) {
      findings.push(found(pick, 'blocks over', 'blocks', pick.blocks as number, { expected: most }));
    }
  }
}

/** What could not be judged, and for want of what: one finding for each thing that is lacking. */
export function tellNotJudged({ lots, findings }: KnownBook): void {
  const picked = [...lots.values()].filter((lot) => lot.picks.length > 0);
  const tell = (
    lacking: readonly KnownLot[],
    column: AuditedColumn,
    value: (lot: KnownLot) => string,
  ): void => {
    for (const [what, own] of grouped(lacking, (lot) => labelKey(value(lot)))) {
      const { record } = own[0]!;
      const rows = own.map((lot) => lot.record.row);
      findings.push(found(record, 'not judged', column, what === '' ? '' : value(own[0]!), { rows }));
    }
  };
  tell(
    picked.filter(({ strain }) => !strain),
    'strain',
    ({ record }) => record.strain,
  );
  const known = picked.filter(({ strain }) => strain);
  if (picked.every(({ record }) => record.loaded === undefined)) tell(known, 'loaded', () => '');
  for (const [column, key] of [
    ['blocks', 'blocks'],
    ['block mass', 'blockMass'],
    ['moisture', 'moisture'],
  ] as const) {
    tell(
      known.filter(({ record }) => record[key] === undefined),
      column,
      () => '',
    );
  }
}
