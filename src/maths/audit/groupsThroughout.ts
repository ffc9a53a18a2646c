import { median } from '../shared/statistics';
import { logTail } from './likelihood';
import type { GroupEffect, MassModel } from './massModel';
import type { MassSlip } from './massSlips';

/** Fewer picks than this are no group. */
export const LEAST_PICKS = 5;
/** People and scales differ honestly by about this much, on the scale of natural logarithms. */
const BETWEEN = 0.12;
/** What is known this well of a group beside the others in its lots is believed. */
const WELL_KNOWN = 0.15;
/** ln of how often a person or a scale is off throughout. */
const OFF_THROUGHOUT = Math.log(0.01);
/** A median is less certain than a mean: π / 2 - 1. */
const MEDIAN_WIDER = 0.57;

/** The picker, scale or crate whose masses are most surely off by one factor throughout. */
export function worstThroughout(
  { groups, byLot, spreads }: MassModel,
  slips: readonly MassSlip[],
): { group: GroupEffect; slip: MassSlip; odds: number } | undefined {
  let worst: ReturnType<typeof worstThroughout>;
  for (const group of groups) {
    const others = groups.filter(({ column, name }) => column === group.column && name !== group.name);
    if (others.length === 0 || group.members.length < LEAST_PICKS) continue;
    const above = group.effect - median(others.map(({ effect }) => effect));
    const lots = new Set(group.members.map(({ pick }) => pick.lot)).size;
    const besides = beyondEffect(group, byLot, spreads.pick);
    const [off, spread] =
      besides.spread < WELL_KNOWN
        ? [above + besides.off, Math.hypot(BETWEEN, besides.spread)]
        : [
            above,
            Math.hypot(BETWEEN, (1.3 * spreads.pick) / Math.sqrt(group.members.length), spreads.lot / lots),
          ];
    for (const slip of slips) {
      const odds = OFF_THROUGHOUT + logTail(off - Math.log(slip.factor), spread) - logTail(off, spread);
      if (odds > 0 && !(worst && worst.odds >= odds)) worst = { group, slip, odds };
    }
  }
  return worst;
}

/**
 * By how much a group is above the others in the same flushes of the same lots, beyond its effect: who keeps to lots of
 * their own raises those lots, and only the few picks of others show it.
 */
function beyondEffect(
  { column, name, members }: GroupEffect,
  byLot: MassModel['byLot'],
  ofPick: number,
): { off: number; spread: number } {
  const ahead: { off: number; weight: number }[] = [];
  for (const lot of new Set(members.map(({ pick }) => pick.lot!))) {
    for (const flush of byLot.get(lot)!.flushes) {
      const [theirs, others]: [number[], number[]] = [[], []];
      for (const { pick, off } of flush) {
        const of = pick.record[column];
        if (of === name) theirs.push(off);
        else if (of !== '') others.push(off);
      }
      if (theirs.length === 0 || others.length === 0) continue;
      const variance = ofPick ** 2 * (1 / theirs.length + 1 / others.length);
      ahead.push({ off: median(theirs) - median(others), weight: 1 / variance });
    }
  }
  if (ahead.length === 0) return { off: 0, spread: Infinity };
  ahead.sort((a, b) => a.off - b.off);
  const all = ahead.reduce((sum, { weight }) => sum + weight, 0);
  let below = 0;
  const middle = ahead.find(({ weight }) => (below += weight) >= all / 2)!;
  return { off: middle.off, spread: Math.sqrt((1 + MEDIAN_WIDER) / all) };
}
