import { labelKey } from '../shared/labels';
import type { LoadingProblem, Lot } from './loadingProblem';
import { picksAfterLoading } from './pickCurve';

/** A lot as the planner sees it: days count from the start of the plan. */
export interface LotView {
  readonly lot: Lot;
  readonly key: string;
  readonly kind: number;
  /** First and last day it may be opened inside the plan; `to` is before `from` where there is no such day. */
  readonly from: number;
  readonly to: number;
  /** Last day it may be opened at all. */
  readonly expires: number;
  /** Day after loading and fresh mass picked from one block. */
  readonly picks: readonly (readonly [number, number])[];
  /** Days it takes up its places, turn-round included. */
  readonly stay: number;
  /** Cost of opening one block on a day: its own cost and that of its age. */
  readonly costOn: (day: number) => number;
  /** Cost of a block left unopened. */
  readonly leftCost: number;
}

/** Defaults of what a block's age costs, in shares of its value: judgements, not measurements. */
const EARLY_SHARE = 0.01;
const LATE_SHARE = 0.02;
const DISCARD_SHARE = 1;

export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** A fixed order of lots, so that a plan does not depend on the order of rows. */
export function inOrder(a: Lot, b: Lot): number {
  return (
    byText(labelKey(a.strain), labelKey(b.strain)) ||
    a.best - b.best ||
    byText(labelKey(a.lot), labelKey(b.lot))
  );
}

/** A lot with its days counted from the start, and with what each day of opening costs. */
export function lotView(
  lot: Lot,
  { start, days, settings }: LoadingProblem,
  kind: number,
  price: number,
): LotView {
  const value = lot.yieldPerBlock * price;
  const early = settings.earlyCost ?? EARLY_SHARE * value;
  const late = settings.lateCost ?? LATE_SHARE * value;
  const discard = settings.discardCost ?? DISCARD_SHARE * value;
  const wait = settings.waitCost ?? late;
  const best = Math.floor(lot.best) - start;
  const [bestFrom, bestTo] = [best - settings.comfortDays, best + settings.comfortDays];
  const expires = Math.min(Math.floor(lot.latest), Math.floor(lot.notAfter ?? Infinity)) - start;
  return {
    lot,
    key: labelKey(lot.lot),
    kind,
    from: Math.max(0, Math.floor(lot.earliest) - start, Math.floor(lot.notBefore ?? 0) - start),
    to: Math.min(expires, days - 1),
    expires,
    picks: picksAfterLoading(lot.curve, lot.yieldPerBlock),
    stay: lot.curve.stay + settings.turnRound,
    costOn: (day) => lot.cost + early * Math.max(0, bestFrom - day) + late * Math.max(0, day - bestTo),
    leftCost:
      expires >= days
        ? wait * Math.max(0, days - bestTo)
        : discard > 0
          ? discard + late * Math.max(0, expires + 1 - bestTo)
          : 0,
  };
}
