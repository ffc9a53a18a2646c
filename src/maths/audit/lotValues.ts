import { median } from '../shared/statistics';
import type { KnownLot } from './knownBook';
import { heldSpread, learntOften, tail } from './likelihood';
import type { Column, Meant } from './lotColumnSlips';

/** A value that no other lot has: a new format, another recipe. */
const NEW_VALUE = 0.25;
/** What other strains' lots tell of a value, against the strain's own, until the book shows that strains keep apart. */
const OTHER_STRAINS = 0.25;
const MOST_OTHERS = 20;
/** A value that so few of a strain's lots share may be the same slip made again. */
const RARE = 0.12;
/** Values within so many spreads are as good as the same. */
const ALIKE = 3;
/** From fewer lots nothing is said to be what most have. */
const LEAST_COMMON = 3;
/** Of so many lots, and so large a share of the strain's, a value is its own. */
const [LEAST_ALIKE, NEARLY_ALL] = [6, 0.85];
/** A value typed in another unit was rounded there by up to this share. */
const ROUNDING = 0.001;

/** How many lots have a value, by its bin. */
type Counts = Map<number, number>;

interface StrainValues {
  readonly counts: Counts;
  readonly size: number;
  readonly middle: number;
  /** The lots of all other strains. */
  readonly elsewhere: Counts;
  readonly elsewhereSize: number;
  /** The value that most of its lots have, as it is typed, and how many have it. */
  readonly common: number;
  readonly commonLots: number;
}

/** How often the lots of a book have each value of a column: few values mostly, so they are counted. */
export class LotValues {
  private readonly ofStrains = new Map<string, StrainValues>();
  private readonly spread: number;
  private readonly step: number;
  /** How many lots of its strain those of all others count for, by what every lot but itself shows. */
  private readonly others: ReadonlyMap<KnownLot, number>;

  constructor(
    lots: readonly KnownLot[],
    private readonly column: Column,
  ) {
    const byStrain = new Map<string, number[]>();
    for (const lot of lots) {
      const own = byStrain.get(lot.strainKey);
      const value = column.of(lot)!;
      if (own) own.push(value);
      else byStrain.set(lot.strainKey, [value]);
    }
    const middles = new Map<string, number>();
    const offs: number[] = [];
    for (const [strain, values] of byStrain) {
      const own = values.map(column.onScale);
      const middle = median(own);
      middles.set(strain, middle);
      if (own.length > 2) for (const at of own) offs.push(at - middle);
    }
    this.spread = Math.max(
      column.spread / 2,
      Math.min(3 * column.spread, heldSpread(offs, column.spread, 6)),
    );
    this.step = this.spread / 2;
    const all: Counts = new Map();
    const counted = Array.from(byStrain, ([strain, values]) => {
      const counts: Counts = new Map();
      const typed: Counts = new Map();
      for (const value of values) {
        const bin = this.binOf(value);
        add(counts, bin, 1);
        add(all, bin, 1);
        add(typed, value, 1);
      }
      return { strain, counts, typed, size: values.length };
    });
    for (const { strain, counts, typed, size } of counted) {
      const elsewhere = new Map(all);
      for (const [bin, count] of counts) add(elsewhere, bin, -count);
      const [common, commonLots] = [...typed].reduce((one, other) => (other[1] > one[1] ? other : one));
      this.ofStrains.set(strain, {
        counts,
        size,
        middle: middles.get(strain)!,
        elsewhere,
        elsewhereSize: lots.length - size,
        common,
        commonLots,
      });
    }
    this.others = this.learntOthers(lots);
  }

  /** Learns how far strains keep to values of their own: in most books no lot has another strain's. */
  private learntOthers(lots: readonly KnownLot[]): Map<KnownLot, number> {
    let expected = 0;
    const odds = lots.map((lot) => {
      const { counts, size, elsewhere, elsewhereSize } = this.of(lot);
      const bin = this.binOf(this.column.of(lot)!);
      const at = bin * this.step;
      const others = othersOf(elsewhereSize);
      expected += others / (size - 1 + others + NEW_VALUE);
      const own = this.near(counts, at, (other, count) => (other === bin ? count - 1 : count));
      const there = elsewhereSize ? (others * this.near(elsewhere, at)) / elsewhereSize : 0;
      return there / (own + NEW_VALUE * tail(0, 2));
    });
    const often = Math.exp(learntOften(odds, expected));
    return new Map(
      lots.map((lot, i) => {
        // No lot is its own witness.
        const itself = (often * odds[i]!) / (1 + often * odds[i]!);
        return [lot, othersOf(this.of(lot).elsewhereSize) * (often - itself / (expected + 1))];
      }),
    );
  }

  private of({ strainKey }: KnownLot): StrainValues {
    return this.ofStrains.get(strainKey)!;
  }

  private binOf(value: number): number {
    return Math.round(this.column.onScale(value) / this.step);
  }

  lotsOf(lot: KnownLot): number {
    return this.of(lot).size;
  }

  /** Whether several of the strain's lots have the value, or as good as the same. */
  isUsual(lot: KnownLot, value: number): boolean {
    if (this.column.name === 'blocks') return true;
    const { counts, size } = this.of(lot);
    return (counts.get(this.binOf(value)) ?? 0) > Math.max(1, RARE * size);
  }

  /** A value that is the usual one but for its rounding in another unit: 2.5002 is 2.5. */
  asUsual(lot: KnownLot, value: number): number {
    const usual = this.usual(lot);
    return Math.abs(value / usual - 1) < ROUNDING ? usual : value;
  }

  usual(lot: KnownLot): number {
    const { middle } = this.of(lot);
    const value = this.column.name === 'moisture' ? 1 / (1 + Math.exp(-middle)) : Math.exp(middle);
    return Number(value.toPrecision(3));
  }

  /**
   * The value that most of the strain's lots have, where another was typed: it may have been taken from a lot of another
   * strain, where lots of those have it; where none has it, nearly all of the strain's have to have theirs. Undefined where
   * no value is so usual.
   *
   * @returns the value, and ln of how often it is so, as `logLikelihood` has it of other values
   */
  usualBeside(lot: KnownLot, own: number): (Meant & { weight: number }) | undefined {
    const often = this.column.ofAnotherLot;
    const { size, common, commonLots, elsewhere } = this.of(lot);
    const share = Math.min(1, commonLots / (size - 1));
    if (often === 0 || own === common || commonLots < LEAST_COMMON || share <= 0.5) return undefined;
    if (this.isAlike(this.binOf(own), this.binOf(common))) return undefined;
    if (this.isRareElsewhere(lot, this.binOf(own))) {
      const isAlone = commonLots >= LEAST_ALIKE && share >= NEARLY_ALL;
      // As any value that no lot has.
      return isAlone
        ? { value: common, slip: 'unusual mass', weight: Math.log(often * share * tail(0, 2)) }
        : undefined;
    }
    let others = 0;
    for (const [bin, count] of elsewhere) if (!this.isAlike(bin, this.binOf(common))) others += count;
    const typed = this.near(elsewhere, this.column.onScale(own)) / others;
    return { value: common, slip: 'other strain', weight: Math.log(often * share * typed) };
  }

  private isAlike(bin: number, other: number): boolean {
    return Math.abs(bin - other) * this.step <= ALIKE * this.spread;
  }

  private alikeIn(counts: Counts, bin: number): number {
    let alike = 0;
    for (const [other, count] of counts) if (this.isAlike(other, bin)) alike += count;
    return alike;
  }

  private isRareElsewhere(lot: KnownLot, bin: number): boolean {
    const { elsewhere, elsewhereSize } = this.of(lot);
    return this.alikeIn(elsewhere, bin) <= Math.max(1, RARE * elsewhereSize);
  }

  /** How densely lots lie about a place on the scale; `left` is how many of a bin's are asked. */
  private near(counts: Counts, at: number, left = (_bin: number, count: number): number => count): number {
    let sum = 0;
    for (const [bin, count] of counts) sum += left(bin, count) * tail(bin * this.step - at, this.spread);
    return sum;
  }

  /** ln of how likely the other lots make `asked`; the lot's own value takes no part. */
  logLikelihood(lot: KnownLot, own: number, asked: number): number {
    const { counts, size, elsewhere, elsewhereSize } = this.of(lot);
    const [self, at] = [this.column.onScale(own), this.column.onScale(asked)];
    const selfBin = this.binOf(own);
    // A few lots with the same odd value, or as good as the same, bear each other out no more than one.
    const isRare = this.alikeIn(counts, selfBin) <= RARE * size && this.isRareElsewhere(lot, selfBin);
    const believed = (bin: number, count: number): number =>
      isRare && this.isAlike(bin, selfBin) ? 0 : count;
    const ofStrain = this.near(counts, at, (bin, count) =>
      believed(bin, bin === selfBin ? count - 1 : count),
    );
    const others = this.others.get(lot)!;
    const ofOthers = elsewhereSize ? (others * this.near(elsewhere, at, believed)) / elsewhereSize : 0;
    const fresh = NEW_VALUE * tail((at - self) / 2, 2);
    return Math.log((ofStrain + ofOthers + fresh) / (size - 1 + others + NEW_VALUE));
  }
}

const add = (counts: Counts, key: number, count: number): void => {
  counts.set(key, (counts.get(key) ?? 0) + count);
};

/** How many lots of its own strain those of all others count for. */
const othersOf = (size: number): number => OTHER_STRAINS * Math.min(MOST_OTHERS, size);
