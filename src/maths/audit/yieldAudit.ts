import { flushNumbers } from '../harvest/flushNumbers';
import { requirePositive } from '../shared/checks';
import { labelKey } from '../shared/labels';
import { compensatedSum } from '../shared/numeric';
import { outOfOrder } from './flushOrder';
import { massResiduals, type PlacedMass } from './massResiduals';
import { massSlip } from './massSlip';
import {
  RULES,
  type Entry,
  type Finding,
  type LotRecord,
  type PickRecord,
  type RuleCode,
  type Severity,
  type StrainFacts,
} from './yieldRecords';

/** Where a record stops being plausible. */
export interface AuditLimits {
  /** Robust standard deviations from which a mass is out of place. */
  readonly deviations: number;
  /** Range of biological efficiencies that a finished lot may have. */
  readonly lowestEfficiency: number;
  readonly highestEfficiency: number;
}

export const USUAL_LIMITS: AuditLimits = { deviations: 3, lowestEfficiency: 0.1, highestEfficiency: 2 };

const SURENESS: readonly Severity[] = ['cannot be', 'unlikely', 'look again'];

/** Shares of the strain's own times from which a date is too early or too late. */
const EARLY = 0.4;
const LATE = 2;
const UNRIPE = 0.75;
const GRACE_DAYS = 30;
/** How far above the first flush the second may be. */
const RISING = 2.5;
/** A mass less than 1.7 times too high or too low is no slip of unit or decimal, and nothing to trouble anybody with. */
const LEAST_RESIDUAL = Math.log(1.7);
/** Typed totals are rounded: this share, and this much for each row, may be off. */
const TOTAL_SHARE = 0.002;
const TOTAL_PER_ROW = 0.005;
const DAYS_A_YEAR = [365, 366];
/** A lot picked on more days than these is not sought through for its flushes. */
const MOST_DAYS = 200;
const MOST_SUGGESTIONS = 200;

/**
 * What cannot be right, is unlikely, or wants a second look in a book of picks and lots. Nothing is changed.
 *
 * Each rule stands in `RULES` with its code. Masses are judged on the logarithmic scale against the lot's other picks and
 * the strain's other lots (`massResiduals`), in robust standard deviations of the book itself, so that a book with a wide
 * natural spread is not flooded. A mass out of place is called a slip of unit or decimal where one explains it. Lot
 * totals and efficiencies are reckoned with suspected slips mended, so that one slip is not reported thrice.
 *
 * @param strains by the key of their label
 * @returns findings, the surest first, then by table and row
 * @throws invalid where a limit is out of range
 */
export function yieldAudit(
  picks: readonly PickRecord[],
  lots: readonly LotRecord[],
  strains: ReadonlyMap<string, StrainFacts>,
  limits: AuditLimits = USUAL_LIMITS,
): Finding[] {
  requirePositive('settings, deviations', limits.deviations);
  requirePositive('settings, highest efficiency', limits.highestEfficiency);
  return new Audit(picks, lots, strains, limits).run();
}

/** A lot as far as it can be read. */
interface KnownLot {
  readonly record: LotRecord;
  readonly strain: StrainFacts | undefined;
  readonly blocks: number | undefined;
  readonly dryMass: number | undefined;
  readonly inoculated: number | undefined;
  readonly loaded: number | undefined;
  readonly total: number | undefined;
}

/** A pick as far as it can be read. */
interface KnownPick {
  readonly record: PickRecord;
  readonly day: number | undefined;
  readonly mass: number | undefined;
  readonly flush: number | undefined;
}

/** One pass over a book; holds what the rules share. */
class Audit {
  private readonly findings: Finding[] = [];
  private readonly lotsByKey = new Map<string, KnownLot>();
  private readonly picksByLot = new Map<string, KnownPick[]>();
  /** Mass with the suspected slip mended. */
  private readonly mended = new Map<KnownPick, number>();
  private lastDay = -Infinity;
  private lotsHaveLoads = false;

  constructor(
    private readonly picks: readonly PickRecord[],
    private readonly lots: readonly LotRecord[],
    private readonly strains: ReadonlyMap<string, StrainFacts>,
    private readonly limits: AuditLimits,
  ) {}

  run(): Finding[] {
    this.readLots();
    this.readPicks();
    this.judgeMasses();
    for (const [key, picks] of this.picksByLot) this.judgeLotPicks(this.lotsByKey.get(key), picks);
    for (const [key, lot] of this.lotsByKey) this.judgeLot(lot, this.picksByLot.get(key) ?? []);
    const rank = ({ code, table, row }: Finding): number =>
      SURENESS.indexOf(RULES[code].severity) * 4e7 + (table === 'harvests' ? 0 : 2e7) + row;
    return this.findings.sort((a, b) => rank(a) - rank(b));
  }

  private add(
    where: PickRecord | LotRecord,
    code: RuleCode,
    value: number | string,
    more: Partial<Pick<Finding, 'measure' | 'expected' | 'corrected' | 'slip'>> = {},
  ): void {
    this.findings.push({
      table: 'mass' in where ? 'harvests' : 'lots',
      row: where.row,
      lot: where.lot,
      code,
      measure: 'plain',
      value,
      expected: '',
      corrected: '',
      slip: '',
      ...more,
    });
  }

  /** A figure as a number, or the finding that it is none. Undefined where nothing stands there. */
  private figure(
    where: PickRecord | LotRecord,
    entry: Entry,
    what: string,
    measure: Finding['measure'] = 'plain',
  ): number | undefined {
    if (entry === undefined) return undefined;
    if (typeof entry === 'number') {
      if (Number.isFinite(entry) && (entry > 0 || what === 'mass')) return entry;
      this.add(where, 'figure-bad', entry, { expected: `${what} above 0` });
      return undefined;
    }
    const number = Number(entry.trim().replace(',', '.'));
    const readable = entry.trim() !== '' && Number.isFinite(number);
    this.add(where, 'figure-text', entry, {
      measure,
      expected: `${what} as a number`,
      corrected: readable ? number : '',
      slip: readable ? 'typed or pasted as text' : '',
    });
    return readable && number > 0 ? number : undefined;
  }

  private readLots(): void {
    this.lotsHaveLoads = this.lots.some(({ loaded }) => loaded !== undefined);
    for (const record of this.lots) {
      const key = labelKey(record.lot);
      const first = this.lotsByKey.get(key);
      if (first) {
        this.add(record, 'lot-twice', record.lot, {
          expected: `one row; the first is row ${first.record.row}`,
        });
        continue;
      }
      const blocks = this.figure(record, record.blocks, 'blocks');
      const blockMass = this.figure(record, record.blockMass, 'block mass');
      const moisture = this.figure(record, record.moisture, 'moisture', 'percent');
      const dry = moisture === undefined || !(moisture < 1) ? undefined : 1 - moisture;
      if (moisture !== undefined && dry === undefined) {
        this.add(record, 'figure-bad', moisture, {
          expected: 'moisture below 1',
          corrected: moisture <= 100 ? moisture / 100 : '',
          slip: moisture <= 100 ? 'percent typed without its sign' : '',
        });
      }
      this.lotsByKey.set(key, {
        record,
        strain: this.strains.get(labelKey(record.strain)),
        blocks,
        dryMass:
          blocks === undefined || blockMass === undefined || dry === undefined
            ? undefined
            : blocks * blockMass * dry,
        inoculated: this.figure(record, record.inoculated, 'a date', 'date'),
        loaded: this.figure(record, record.loaded, 'a date', 'date'),
        total: this.figure(record, record.total, 'a total'),
      });
    }
  }

  private readPicks(): void {
    const keys = new Map<string, string>();
    const similar = new SimilarLabels(this.lots.map(({ lot }) => lot));
    for (const record of this.picks) {
      let key = keys.get(record.lot);
      if (key === undefined) keys.set(record.lot, (key = labelKey(record.lot)));
      const lot = this.lotsByKey.get(key);
      if (key === '') this.add(record, 'lot-missing', '', { expected: 'a lot of lots' });
      else if (!lot) {
        const meant = similar.to(record.lot);
        this.add(record, 'lot-unknown', record.lot, {
          expected: 'a lot of lots',
          corrected: meant ?? '',
          slip: meant === undefined ? '' : 'a slip in the label',
        });
      }
      const pick = this.readPick(record, lot);
      if (pick.day !== undefined && pick.day > this.lastDay && lot && !this.isLate(pick.day, lot)) {
        this.lastDay = pick.day;
      }
      if (key === '') continue;
      const own = this.picksByLot.get(key);
      if (own) own.push(pick);
      else this.picksByLot.set(key, [pick]);
    }
  }

  private readPick(record: PickRecord, lot: KnownLot | undefined): KnownPick {
    const mass = this.figure(record, record.mass, 'mass');
    if (record.mass === undefined) this.add(record, 'mass-missing', '', { expected: 'a mass above 0' });
    else if (mass !== undefined && mass < 0) {
      this.add(record, 'mass-negative', mass, {
        expected: 'a mass above 0',
        corrected: -mass,
        slip: 'a minus too many',
      });
    }
    const date = this.figure(record, record.date, 'a date', 'date');
    if (record.date === undefined) this.add(record, 'date-missing', '', { expected: 'the day of the pick' });
    const day = date === undefined ? undefined : Math.floor(date);
    if (day !== undefined && lot) this.judgeDate(record, day, lot);
    let flush = this.figure(record, record.flush, 'a flush');
    if (flush !== undefined && !(Number.isInteger(flush) && flush <= 20)) {
      this.add(record, 'flush-bad', flush, { expected: 'a whole number from 1 to 20' });
      flush = undefined;
    }
    const blocks = this.figure(record, record.blocks, 'blocks');
    if (blocks !== undefined && lot?.blocks !== undefined && blocks > lot.blocks) {
      this.add(record, 'blocks-over', blocks, { expected: `at most ${lot.blocks} loaded` });
    }
    return { record, day, mass: mass !== undefined && mass > 0 ? mass : undefined, flush };
  }

  /** Last day a lot may be picked on by its strain's times; undefined where they are not known. */
  private lastExpected({ loaded, strain }: KnownLot): number | undefined {
    if (loaded === undefined || strain?.firstPick === undefined) return undefined;
    const gaps = (strain.flushes - 1) * (strain.flushGap ?? 0);
    return Math.floor(loaded) + strain.firstPick + gaps + (strain.pickDays ?? 0);
  }

  private isLate(day: number, lot: KnownLot): boolean {
    const last = this.lastExpected(lot);
    return (
      last !== undefined &&
      day > Math.floor(lot.loaded!) + LATE * (last - Math.floor(lot.loaded!)) + GRACE_DAYS
    );
  }

  private judgeDate(record: PickRecord, day: number, lot: KnownLot): void {
    if (lot.loaded === undefined) {
      if (this.lotsHaveLoads && lot.record.loaded === undefined) {
        this.add(record, 'lot-not-loaded', day, { measure: 'date', expected: 'a load date in lots' });
      }
      return;
    }
    const load = Math.floor(lot.loaded);
    const first = lot.strain?.firstPick;
    const year = (sign: number): Pick<Finding, 'corrected' | 'slip'> => {
      const last = this.lastExpected(lot) ?? load + 150;
      const meant = DAYS_A_YEAR.map((days) => day + sign * days).find(
        (moved) => moved > load && moved <= last + GRACE_DAYS,
      );
      return { corrected: meant ?? '', slip: meant === undefined ? '' : 'another year' };
    };
    if (day <= load) {
      this.add(record, 'date-before-load', day, {
        measure: 'date',
        expected: load + (first ?? 1),
        ...year(1),
      });
    } else if (first !== undefined && day < load + EARLY * first) {
      this.add(record, 'date-early', day, { measure: 'date', expected: load + first });
    } else if (this.isLate(day, lot)) {
      this.add(record, 'date-late', day, { measure: 'date', expected: this.lastExpected(lot)!, ...year(-1) });
    }
  }

  private judgeMasses(): void {
    const judged: KnownPick[] = [];
    const placed: PlacedMass[] = [];
    const kinds = new Map<string, number>();
    let lotNumber = 0;
    for (const [key, picks] of this.picksByLot) {
      const lot = this.lotsByKey.get(key);
      const flushes = this.flushesOf(picks, lot);
      picks.forEach((pick, i) => {
        if (pick.mass === undefined) return;
        const kind = `${labelKey(lot?.record.strain ?? '')}\n${flushes[i] ?? ''}`;
        let label = kinds.get(kind);
        if (label === undefined) kinds.set(kind, (label = kinds.size));
        judged.push(pick);
        placed.push({ mass: pick.mass, lot: lotNumber, kind: label, size: lot?.dryMass ?? 1 });
      });
      lotNumber++;
    }
    const { residuals, deviations } = massResiduals(placed);
    judged.forEach((pick, i) => {
      const [residual, deviation] = [residuals[i]!, deviations[i]!];
      if (!(Math.abs(residual) > Math.max(LEAST_RESIDUAL, this.limits.deviations * deviation))) return;
      const expected = pick.mass! / Math.exp(residual);
      const slip = massSlip(residual, deviation);
      if (!slip) {
        // A mass that no slip explains must lie farther out before anybody is troubled with it.
        if (!(Math.abs(residual) > 1.3 * this.limits.deviations * deviation)) return;
        this.add(pick.record, 'mass-outlying', pick.mass!, { expected });
        return;
      }
      const corrected = pick.mass! / slip.factor;
      this.mended.set(pick, corrected);
      this.add(pick.record, slip.code, pick.mass!, { expected, corrected, slip: slip.slip });
    });
  }

  /** The flush of each pick: as recorded, or else by its date where lot and strain tell enough. */
  private flushesOf(picks: readonly KnownPick[], lot: KnownLot | undefined): (number | undefined)[] {
    const known = picks.map(({ flush }) => flush);
    const { firstPick, pickDays, flushGap } = lot?.strain ?? {};
    if (firstPick === undefined || pickDays === undefined || known.every((flush) => flush !== undefined))
      return known;
    const dated = [...picks.keys()].filter((i) => picks[i]!.day !== undefined);
    if (new Set(dated.map((i) => picks[i]!.day)).size > MOST_DAYS) return known;
    const found = flushNumbers(
      dated.map((i) => ({ dateSerial: picks[i]!.day!, flush: known[i] })),
      lot?.loaded,
      { firstPick, pickDays, flushGap },
    );
    dated.forEach((i, n) => (known[i] = found[n]));
    return known;
  }

  private judgeLotPicks(lot: KnownLot | undefined, picks: readonly KnownPick[]): void {
    const seen = new Map<string, PickRecord>();
    for (const { record, day, mass, flush } of picks) {
      if (day === undefined || mass === undefined) continue;
      const same = `${String(record.date)} ${mass} ${flush ?? ''}`;
      const first = seen.get(same);
      if (first) {
        this.add(record, 'pick-twice', mass, {
          expected: `not the same as row ${first.row}`,
          slip: 'typed twice',
        });
      } else seen.set(same, record);
    }
    const ordered = picks.filter(
      ({ day, flush }) =>
        day !== undefined && flush !== undefined && !(lot?.loaded !== undefined && day <= lot.loaded),
    );
    const odd = outOfOrder(ordered.map(({ day, flush }) => ({ day: day!, flush: flush! })));
    for (const { at, flush } of odd) {
      this.add(ordered[at]!.record, 'flush-order', ordered[at]!.flush!, {
        expected: flush ?? 'flushes in the order of their dates',
        corrected: flush ?? '',
        slip: flush === undefined ? '' : 'flush or date of another pick',
      });
    }
  }

  private judgeLot(lot: KnownLot, picks: readonly KnownPick[]): void {
    const { record, strain, inoculated, loaded, total, dryMass } = lot;
    if (loaded !== undefined && inoculated !== undefined) {
      const ripe = strain?.earliest === undefined ? undefined : inoculated + strain.earliest;
      if (loaded < inoculated) {
        this.add(record, 'load-before-inoculation', loaded, {
          measure: 'date',
          expected: ripe ?? 'a later date',
        });
      } else if (strain?.earliest !== undefined && loaded < inoculated + UNRIPE * strain.earliest) {
        this.add(record, 'load-unripe', loaded, { measure: 'date', expected: ripe! });
      }
    }
    const last = this.lastExpected(lot);
    const over = last !== undefined && this.lastDay > last + GRACE_DAYS / 2;
    if (picks.length === 0) {
      if (over) this.add(record, 'lot-not-picked', loaded!, { measure: 'date', expected: 'picks by now' });
      return;
    }
    const massOf = (pick: KnownPick): number => this.mended.get(pick) ?? pick.mass ?? 0;
    const written = compensatedSum(picks.map((pick) => pick.mass ?? 0));
    const mass = compensatedSum(picks.map(massOf));
    if (total !== undefined) {
      const allowed = TOTAL_SHARE * total + TOTAL_PER_ROW * picks.length;
      // A total that agrees once the suspected slips are mended bears them out and is no finding of its own.
      if (![written, mass].some((sum) => Math.abs(total - sum) <= allowed)) {
        this.add(record, 'total-differs', total, { expected: written, corrected: written });
      }
    }
    if (dryMass !== undefined && mass > 0) {
      const efficiency = mass / dryMass;
      const { lowestEfficiency, highestEfficiency } = this.limits;
      if (efficiency > highestEfficiency || (over && efficiency < lowestEfficiency)) {
        this.add(record, 'efficiency-out', efficiency, {
          measure: 'percent',
          expected:
            strain?.efficiency ?? (efficiency > highestEfficiency ? highestEfficiency : lowestEfficiency),
        });
      }
    }
    const ofFlush = (flush: number): number =>
      compensatedSum(picks.filter((pick) => pick.flush === flush).map(massOf));
    const [first, second] = [ofFlush(1), ofFlush(2)];
    if (first > 0 && second > RISING * first) {
      this.add(record, 'flush-rising', second, { expected: first });
    }
  }
}

/** Labels that differ in one character: dropped, added, changed, or two neighbours swapped. */
class SimilarLabels {
  private readonly known = new Map<string, string | undefined>();
  private asked = 0;

  constructor(private readonly labels: readonly string[]) {}

  /** The one label that differs from `label` by one slip; undefined where none or several do. */
  to(label: string): string | undefined {
    if (this.known.has(label) || this.asked >= MOST_SUGGESTIONS) return this.known.get(label);
    this.asked++;
    const typed = labelKey(label);
    const near = new Map(
      this.labels.filter((one) => oneSlipApart(typed, labelKey(one))).map((one) => [labelKey(one), one]),
    );
    const meant = near.size === 1 ? [...near.values()][0] : undefined;
    this.known.set(label, meant);
    return meant;
  }
}

function oneSlipApart(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (
    end < a.length - start &&
    end < b.length - start &&
    a[a.length - 1 - end] === b[b.length - 1 - end]
  ) {
    end++;
  }
  const [left, right] = [a.slice(start, a.length - end), b.slice(start, b.length - end)];
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && right.length === 2 && left[0] === right[1] && left[1] === right[0];
}
