import { median } from '../shared/statistics';
import { dryMassOf, found, type KnownBook, type KnownLot } from './knownBook';
import { logTail, weigh, type Explanation } from './likelihood';
import type { MassSlip } from './massSlips';

/** From fewer lots a whole book is not judged. */
const LEAST_LOTS = 5;
const RIGHT = Math.log(0.995);
/** How often a whole book is in another unit than its header says: judgement, no source. */
const ANOTHER_UNIT = Math.log(0.005);
/** Efficiencies in strains are often a good deal better or worse than the farm's, on the scale of natural logarithms. */
const ABOUT_TABLE = 0.3;
/** Of strains without an efficiency: what blocks yield of their dry mass, and how widely it differs (common practice, no source). */
const USUAL_EFFICIENCY = 0.65;
const ABOUT_USUAL = 0.45;
/** The middle lot of a book does not yield more than this of its dry mass, nor less than this once the lots are over. */
const MOST = 1.5;
const LEAST = 0.1;
const IMPOSSIBLE = -12;
const TOLD = 0.9;

const possible = (efficiency: number): number => (efficiency > MOST || efficiency < LEAST ? IMPOSSIBLE : 0);

/**
 * All masses of a book in another unit than that of its block masses: one finding, and what follows if they are
 * converted. Nothing shows among the picks, since all are off alike; what blocks yield of their dry mass does. A pound
 * book that yields less than half of what strains expects may be a poor farm, and is not told.
 */
export function judgeWholeBook(
  { lots, findings }: KnownBook,
  slips: readonly MassSlip[],
  isOver: (lot: KnownLot) => boolean,
): void {
  const lotEfficiencies = (
    own: readonly KnownLot[],
  ): { efficiency: number; expected: number | undefined }[] =>
    own.flatMap((lot) => {
      const dry = dryMassOf(lot);
      const mass = lot.picks.reduce((sum, pick) => sum + (pick.isCopy ? 0 : (pick.mass ?? 0)), 0);
      if (dry === undefined || !(mass > 0)) return [];
      return [{ efficiency: mass / dry, expected: lot.strain?.efficiency }];
    });
  const over = lotEfficiencies([...lots.values()].filter(isOver));
  const areOver = over.length >= LEAST_LOTS;
  const judged = areOver ? over : lotEfficiencies([...lots.values()]);
  if (judged.length < LEAST_LOTS) return;
  const efficiency = median(judged.map((lot) => lot.efficiency));
  // Lots that are still being picked yield less than they will: of them only too much is told.
  if (!areOver && efficiency <= MOST) return;
  const tabled = judged.filter(({ expected }) => expected !== undefined);
  const isTabled = 2 * tabled.length > judged.length;
  const off = isTabled
    ? median(tabled.map((lot) => Math.log(lot.efficiency / lot.expected!)))
    : Math.log(efficiency / USUAL_EFFICIENCY);
  const spread = isTabled ? ABOUT_TABLE : ABOUT_USUAL;
  const others: Explanation<MassSlip>[] = slips
    .filter(({ slip }) => !slip.includes('decimal'))
    .map((slip) => ({
      weight:
        ANOTHER_UNIT + logTail(off - Math.log(slip.factor), spread) + possible(efficiency / slip.factor),
      of: slip,
    }));
  const { best, share, wrong } = weigh(RIGHT + logTail(off, spread) + possible(efficiency), others);
  if (!best || wrong < TOLD || share < TOLD) return;
  const first = [...lots.values()]
    .flatMap((lot) => lot.picks)
    .reduce((one, other) => (other.record.row < one.record.row ? other : one));
  findings.push({
    ...found(first.record, 'book', 'mass', efficiency, {
      expected: efficiency / Math.exp(off),
      slip: best.slip,
      about: efficiency / best.factor,
      sure: wrong,
    }),
    lot: '',
  });
}
