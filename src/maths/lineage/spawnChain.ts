import {
  requireAtLeast,
  requireFractionBelowOne,
  requireNumber,
  requirePositive,
  requireWhole,
} from '../shared/checks';
import { dateOf, invalid, shareOf, type Placed } from '../shared/fault';
import { wholeUnitsFor, wholeUnitsIn } from '../shared/rounding';

declare module '../shared/fault' {
  interface FaultDetails {
    /** So many units that some step would start more than the arithmetic carries. */
    tooManyUnits: { readonly most: number; readonly given: number };
    /** A step that does not say how many units of the next it makes. */
    makesUnknown: { readonly step: string };
  }
}

/** A step from the mother culture to the block, as the grower's table has it. */
export interface SpawnStep extends Placed {
  readonly step: string;
  /** Units of the next step that one good unit makes, above 0; not asked of the last step. */
  readonly makes: number | undefined;
  /** Days from the start of a unit until it can be used, 0 or more. */
  readonly days: number;
  /** Share of the units started that are lost, 0 up to but not 1. */
  readonly loss: number;
  /** Mass of one unit, above 0. */
  readonly mass: number | undefined;
  /** Units are started in whole batches of this many. */
  readonly batch: number;
  /** The highest generation this step should have. */
  readonly maxGeneration: number | undefined;
}

/** What to do at a step. */
export interface PlannedStep {
  readonly step: string;
  /** 0 for the first step of the table, one more at each step after it. */
  readonly generation: number;
  readonly start: number;
  /** Good units to count on: whole ones left after the loss. */
  readonly good: number;
  readonly startSerial: number;
  readonly readySerial: number;
  /** Mass of the units to start; undefined where the step has no mass. */
  readonly mass: number | undefined;
  readonly isPastMaxGeneration: boolean;
}

/** Beyond this the allowance for floating point in a quotient would no longer be far below a unit. */
const MOST_UNITS = 1_000_000;

/**
 * What to start when, at each step from the mother culture on, so that enough good units of the last step are there on a
 * date.
 *
 * Backwards from the last step: the good units needed are what the next step starts, over what one unit makes, in whole
 * units; the units to start are the fewest whole batches of which, after the loss, that many whole units are left. Each
 * step starts its days before the next one needs it, on a whole day. Losses are expected shares, not worst cases: the
 * allowance is for those.
 *
 * @param units good units wanted of the last step, a whole number of 1 or more
 * @param neededSerial date they are wanted, a worksheet serial
 * @param steps from the mother culture to the last step, one or more
 * @param allowance share of units planned over what is wanted, 0 to 1
 * @returns one entry a step, in the order given
 * @throws invalid where an input is out of its range, a step but the last has no `makes`, or it would start before the
 * first day of the calendar
 */
export function spawnChain(
  units: number,
  neededSerial: number,
  steps: readonly SpawnStep[],
  allowance: number,
): PlannedStep[] {
  requireWhole('units', units, 1);
  requirePositive('needed', neededSerial);
  requireNumber('allowance', allowance, { from: shareOf(0), to: shareOf(1) });
  if (steps.length === 0) throw invalid('steps', 'tooFew', { least: 1, things: 'step', found: 0 });

  const plan: PlannedStep[] = [];
  let wanted = wholeUnitsFor(units * (1 + allowance));
  let readySerial = neededSerial;
  for (let at = steps.length - 1; at >= 0; at--) {
    const row = steps[at]!;
    const { step, makes, days, loss, mass, batch, maxGeneration } = row;
    if (at < steps.length - 1) {
      if (makes === undefined) throw invalid('steps, makes', 'makesUnknown', { step }, row);
      wanted = wholeUnitsFor(wanted / requirePositive('steps, makes', makes, row));
    }
    requireAtLeast('steps, days', days, 0, row);
    requireFractionBelowOne('steps, loss', loss, row);
    requireWhole('steps, batch', batch, 1, row);
    const start = batch * wholeUnitsFor(wholeUnitsFor(wanted / (1 - loss)) / batch);
    if (!(start <= MOST_UNITS)) throw invalid('units', 'tooManyUnits', { most: MOST_UNITS, given: units });
    const startSerial = Math.floor(readySerial - days);
    if (!(startSerial >= 1)) throw invalid('needed', 'beforeCalendar', { given: dateOf(neededSerial) });
    plan.unshift({
      step,
      generation: at,
      start,
      good: wholeUnitsIn(start * (1 - loss)),
      startSerial,
      readySerial,
      mass: mass === undefined ? undefined : start * requirePositive('steps, mass', mass, row),
      isPastMaxGeneration: maxGeneration !== undefined && at > maxGeneration,
    });
    wanted = start;
    readySerial = startSerial;
  }
  return plan;
}
