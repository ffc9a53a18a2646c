import { requirePositive, requireWhole } from '../shared/checks';
import { invalid } from '../shared/fault';
import { wholeUnitsFor, wholeUnitsIn } from '../shared/rounding';
import { picksAfterLoading, type PickCurve } from './pickCurve';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A limit of a day so low that it takes more loads than any farm sets. */
    tooManyLoads: { readonly most: number; readonly loads: number };
  }
}

export interface SplitLoad {
  /** Day of the load, 0 being the first. */
  readonly day: number;
  readonly blocks: number;
}

/** Most loads of a split; more means that the limit or the mass is a typing error. */
const MOST_LOADS = 1000;

/**
 * The fewest loads into which a number of blocks is split so that no day's picking passes a limit, and the days to
 * load them. The largest load is the limit over a block's largest day. The number of loads is the blocks over that,
 * rounded up: loaded far enough apart, that many always suffice. The loads are as even as whole blocks allow, the
 * larger ones first. Each goes in on the first day on which all picking stays within the limit.
 *
 * @param blocks whole number of blocks, 1 or more
 * @param blockYield fresh mass one block gives over all flushes, above 0
 * @param dailyLimit fresh mass that can be picked in a day, above 0, in the same unit
 * @returns the loads in the order of their days, the first on day 0
 * @throws invalid where a number is out of range, one block alone passes the limit, or it would take over 1000 loads
 */
export function splitLoad(
  blocks: number,
  blockYield: number,
  dailyLimit: number,
  curve: PickCurve,
): SplitLoad[] {
  requireWhole('blocks', blocks, 1);
  requirePositive('block yield', blockYield);
  requirePositive('daily limit', dailyLimit);
  const picks = picksAfterLoading(curve, blockYield);
  const largestDay = Math.max(...picks.map(([, mass]) => mass));
  const largestLoad = wholeUnitsIn(dailyLimit / largestDay);
  if (largestLoad < 1) {
    const what = 'what one block yields on its best day';
    throw invalid('daily limit', 'outside', { from: largestDay, given: dailyLimit, what });
  }
  const loads = wholeUnitsFor(blocks / largestLoad);
  if (loads > MOST_LOADS) throw invalid('daily limit', 'tooManyLoads', { most: MOST_LOADS, loads });
  const allowed = dailyLimit * (1 + 1e-9);
  const picked: number[] = [];
  const fits = (day: number, size: number): boolean =>
    picks.every(([k, mass]) => (picked[day + k] ?? 0) + size * mass <= allowed);
  const split: SplitLoad[] = [];
  for (let n = 0; n < loads; n++) {
    const size = Math.floor(blocks / loads) + (n < blocks % loads ? 1 : 0);
    let day = split[n - 1]?.day ?? 0;
    while (!fits(day, size)) day++;
    for (const [k, mass] of picks) picked[day + k] = (picked[day + k] ?? 0) + size * mass;
    split.push({ day, blocks: size });
  }
  return split;
}
