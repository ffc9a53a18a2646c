import { found, moveTo, type KnownBook, type KnownPick } from './knownBook';
import { grouped, weigh } from './likelihood';
import type { PickHabits } from './pickExplanations';
import { findFlushes } from './pickTimes';
import type { Finding } from './yieldRecords';

/** An unknown label may be of a lot that is missing from lots: its picks then have any day. */
const NOT_IN_LOTS = Math.log(0.05);
const ANY_DAY = Math.log(1 / 400);
const REPEATED = 3;

/** Picks of lots that are not in lots: the lot meant, where dates tell it from others with a label one slip away. */
export function placeUnknownLabels(
  { picks: all, findings }: KnownBook,
  { stories, labels, lots }: PickHabits,
): void {
  const unknown = all.filter(({ lot, record }) => lot === undefined && record.lot !== '');
  for (const [label, picks] of grouped(unknown, ({ record }) => record.lot)) {
    const alike = labels.alike(label);
    const candidates = alike.length ? alike : labels.oneSlipFrom(label);
    const weights = candidates.map((lot) => ({
      weight: picks.reduce((sum, pick) => {
        const likely = pick.day === undefined ? 0 : stories.logGain(lot, pick.day, pick);
        return sum + likely + lots.meant(pick, lot);
      }, -Math.log(candidates.length)),
      of: lot,
    }));
    const missing = NOT_IN_LOTS + picks.length * ANY_DAY;
    const { best, share } = weigh(missing, weights);
    const meant = share > 0.5 ? best : undefined;
    const isSpelling = alike.length > 0 && meant !== undefined;
    const findingOf = (own: readonly KnownPick[]): Finding =>
      found(own[0]!.record, isSpelling ? 'lot spelling' : 'lot unknown', 'lot', label, {
        rows: own.map(({ record }) => record.row),
        corrected: meant?.record.lot,
        slip: meant === undefined ? undefined : isSpelling ? 'spelling' : 'label',
      });
    if (isSpelling || picks.length >= REPEATED) findings.push(findingOf(picks));
    else for (const pick of picks) findings.push(findingOf([pick]));
    for (const pick of picks) moveTo(pick, meant);
    if (!meant) continue;
    findFlushes(meant, true);
    stories.forget(meant);
  }
}
