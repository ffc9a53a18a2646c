import { median } from '../shared/statistics';
import { dryMassOf, found, type KnownBook, type KnownLot } from './knownBook';
import { logTail, weigh, type Explanation } from './likelihood';
import { columnsOf, type Meant } from './lotColumnSlips';
import { LotValues } from './lotValues';
import type { MassModel } from './massModel';
import type { MassUnit } from './yieldRecords';

const RIGHT = Math.log(0.985);
/** A lot whose yield is nearer to its strain's than this, on the scale of natural logarithms, is plain. */
const PLAIN = 1;
/** Lots that yielded far more or less than others: this often, and this wide (judgement, no source). */
const ODD_LOT = 0.03;
const ODD_LOT_SPREAD = 1.2;
/** A strain with fewer lots than this is measured by its efficiency in strains. */
const FEW = 3;

/**
 * Block masses, moistures and counts of blocks that are odd among the strain's other lots, where the lot's yield does not
 * speak for them.
 */
export function judgeLotColumns(book: KnownBook, model: MassModel, unit: MassUnit | undefined): void {
  const { lot: ofLot, flush, pick } = model.spreads;
  for (const column of columnsOf(unit)) {
    const lots = [...book.lots.values()].filter((lot) => column.of(lot) !== undefined);
    if (lots.length < 2) continue;
    const values = new LotValues(lots, column);
    for (const lot of lots) {
      const value = column.of(lot)!;
      const own = (model.byLot.get(lot)?.all ?? []).map(({ off }) => off);
      // The only lots of a strain are no measure of themselves: its efficiency in strains is.
      const off = values.lotsOf(lot) < FEW ? offOfStrain(lot, own.length) : own.length ? median(own) : 0;
      if (Math.abs(off) < PLAIN && values.isUsual(lot, value)) continue;
      const spread = Math.hypot(ofLot, flush / 1.4, pick / Math.sqrt(own.length || 1));
      const yielded = (moved: number): number => (own.length ? logYield(off - moved, spread) : 0);
      const right = RIGHT + column.possible(value) + values.logLikelihood(lot, value, value) + yielded(0);
      const others: Explanation<Meant>[] = [];
      for (const { value: other, slip, often } of column.meants(value)) {
        if (often === 0) continue;
        others.push({
          weight:
            Math.log(often) +
            column.possible(other) +
            values.logLikelihood(lot, value, other) +
            yielded(column.moves(value, other)),
          of: { value: values.asUsual(lot, Number(other.toPrecision(6))), slip },
        });
      }
      const another = values.usualBeside(lot, value);
      if (another)
        others.push({
          weight: another.weight + yielded(column.moves(value, another.value)),
          of: another,
        });
      const { best, wrong, share } = weigh(right, others);
      if (wrong < 0.5 || !best) continue;
      const isClear = share > 0.5;
      book.findings.push(
        found(lot.record, column.name, column.name, value, {
          expected: values.usual(lot),
          ...(isClear && { corrected: best.value, slip: best.slip }),
          sure: isClear ? share : wrong,
          wrong,
        }),
      );
      for (const one of model.byLot.get(lot)?.all ?? []) one.off -= column.moves(value, best.value);
      column.correct(lot, best.value);
    }
  }
}

/** ln of how likely a lot's yield is: some lots fail, and some are far better, for reasons that no column holds. */
const logYield = (off: number, spread: number): number =>
  Math.log((1 - ODD_LOT) * Math.exp(logTail(off, spread)) + ODD_LOT * Math.exp(logTail(off, ODD_LOT_SPREAD)));

/** ln of the lot's efficiency over its strain's; 0 where one is not known. */
function offOfStrain(lot: KnownLot, picks: number): number {
  const dry = dryMassOf(lot);
  const efficiency = lot.strain?.efficiency;
  const mass = lot.picks.reduce((sum, pick) => sum + (pick.mass ?? 0), 0);
  return picks === 0 || dry === undefined || efficiency === undefined || mass === 0
    ? 0
    : Math.log(mass / dry / efficiency);
}
