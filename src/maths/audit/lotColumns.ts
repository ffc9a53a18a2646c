import { median } from '../shared/statistics';
import { dryMassOf, found, type KnownBook, type KnownLot } from './knownBook';
import { heldSpread, logTail, tail, weigh, type Explanation } from './likelihood';
import { columnsOf, type Column, type Meant } from './lotColumnSlips';
import type { MassModel } from './massModel';
import type { MassUnit } from './yieldRecords';

const RIGHT = Math.log(0.985);
/** A value that no other lot has: a new format, another recipe. */
const NEW_VALUE = 0.25;
/** What other strains' lots tell of a value, against the strain's own. */
const OTHER_STRAINS = 0.25;
/** A lot whose yield is nearer to its strain's than this, on the scale of natural logarithms, is plain. */
const PLAIN = 1;
/** Lots that yielded far more or less than others: this often, and this wide (judgement, no source). */
const ODD_LOT = 0.03;
const ODD_LOT_SPREAD = 1.2;
/** A strain with fewer lots than this is measured by its efficiency in strains. */
const FEW = 3;
/** A value that so few of a strain's lots share may be the same slip made again. */
const RARE = 0.12;
/** Values within so many spreads are as good as the same. */
const ALIKE = 3;
/** A value typed in another unit was rounded there by up to this share. */
const ROUNDING = 0.001;

/**
 * Block masses, moistures and counts of blocks that are odd among the strain's other lots, where the lot's yield does not
 * speak for them.
 */
export function judgeLotColumns(book: KnownBook, model: MassModel, unit: MassUnit | undefined): void {
  const { lot: ofLot, flush, pick } = model.spreads;
  for (const column of columnsOf(unit)) {
    const lots = [...book.lots.values()].filter((lot) => column.of(lot) !== undefined);
    if (lots.length < 2) continue;
    const values = new OtherValues(lots, column);
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

/** How often the lots have each value: few values mostly, so they are counted. */
class OtherValues {
  private readonly counts = new Map<string, Map<number, number>>();
  private readonly all = new Map<number, number>();
  private readonly sizes = new Map<string, number>();
  private readonly middles = new Map<string, number>();
  private readonly spread: number;
  private readonly step: number;

  constructor(
    lots: readonly KnownLot[],
    private readonly column: Column,
  ) {
    const byStrain = new Map<string, number[]>();
    for (const lot of lots) {
      const own = byStrain.get(lot.strainKey);
      const at = column.onScale(column.of(lot)!);
      if (own) own.push(at);
      else byStrain.set(lot.strainKey, [at]);
    }
    const offs: number[] = [];
    for (const [strainOf, own] of byStrain) {
      const middle = median(own);
      this.middles.set(strainOf, middle);
      if (own.length > 2) for (const at of own) offs.push(at - middle);
    }
    this.spread = Math.max(
      column.spread / 2,
      Math.min(3 * column.spread, heldSpread(offs, column.spread, 6)),
    );
    this.step = this.spread / 2;
    for (const [strain, own] of byStrain) {
      const counts = new Map<number, number>();
      for (const at of own) {
        const bin = Math.round(at / this.step);
        counts.set(bin, (counts.get(bin) ?? 0) + 1);
        this.all.set(bin, (this.all.get(bin) ?? 0) + 1);
      }
      this.counts.set(strain, counts);
      this.sizes.set(strain, own.length);
    }
  }

  lotsOf({ strainKey }: KnownLot): number {
    return this.sizes.get(strainKey)!;
  }

  /** Whether several of the strain's lots have the value, or as good as the same. */
  isUsual({ strainKey }: KnownLot, value: number): boolean {
    if (this.column.name === 'blocks') return true;
    const alike = this.counts.get(strainKey)!.get(Math.round(this.column.onScale(value) / this.step)) ?? 0;
    return alike > Math.max(1, RARE * this.sizes.get(strainKey)!);
  }

  /** A value that is the usual one but for its rounding in another unit: 2.5002 is 2.5. */
  asUsual(lot: KnownLot, value: number): number {
    const usual = this.usual(lot);
    return Math.abs(value / usual - 1) < ROUNDING ? usual : value;
  }

  usual({ strainKey }: KnownLot): number {
    const at = this.middles.get(strainKey)!;
    const value = this.column.name === 'moisture' ? 1 / (1 + Math.exp(-at)) : Math.exp(at);
    return Number(value.toPrecision(3));
  }

  /** ln of how likely the other lots make `asked`; the lot's own value takes no part. */
  logLikelihood({ strainKey }: KnownLot, own: number, asked: number): number {
    const [self, at] = [this.column.onScale(own), this.column.onScale(asked)];
    const selfBin = Math.round(self / this.step);
    // A few lots with the same odd value, or as good as the same, bear each other out no more than one.
    const ofStrain = this.counts.get(strainKey)!;
    const isAlike = (bin: number): boolean => Math.abs(bin - selfBin) * this.step <= ALIKE * this.spread;
    let alike = 0;
    for (const [bin, count] of ofStrain) if (isAlike(bin)) alike += count;
    const isRare = alike <= RARE * this.sizes.get(strainKey)!;
    const near = (counts: ReadonlyMap<number, number>): number => {
      let sum = 0;
      for (const [bin, count] of counts) {
        const left = isRare && isAlike(bin) ? 0 : bin === selfBin ? count - 1 : count;
        sum += left * tail(bin * this.step - at, this.spread);
      }
      return sum;
    };
    const strain = near(ofStrain);
    const all = near(this.all);
    const size = this.sizes.get(strainKey)! - 1;
    let total = -1;
    for (const count of this.all.values()) total += count;
    const others = OTHER_STRAINS * Math.min(1, 20 / Math.max(1, total));
    const fresh = NEW_VALUE * tail((at - self) / 2, 2);
    return Math.log((strain + others * all + fresh) / (size + others * total + NEW_VALUE));
  }
}
