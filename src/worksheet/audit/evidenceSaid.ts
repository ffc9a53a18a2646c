import type { Cause, Finding, LotRecord, MassUnit, PickRecord, Rival } from '../../maths/audit/yieldRecords';
import { labelKey } from '../../maths/shared/labels';
import type { DateSystem } from '../calendar';
import { shownCell } from '../cells/shown';
import { counted } from '../wording/phrases';
import { slipSaid } from './findingsSaid';

// What speaks for a finding, in one sentence, from the figures as they were typed.

const numbersOf = (entries: readonly unknown[]): number[] =>
  entries
    .filter((entry): entry is number => typeof entry === 'number' && entry > 0)
    .sort((one, other) => one - other);

/** The records of a book, found by lot, and how what they say is worded. */
export class Evidence {
  private readonly picks = new Map<string, PickRecord[]>();
  private readonly byRow: ReadonlyMap<number, PickRecord>;
  private readonly lots: ReadonlyMap<string, LotRecord>;

  constructor(
    picks: readonly PickRecord[],
    private readonly allLots: readonly LotRecord[],
    private readonly unit: MassUnit | undefined,
    private readonly dateSystem: DateSystem,
  ) {
    for (const pick of picks) {
      const key = labelKey(pick.lot);
      const own = this.picks.get(key);
      if (own) own.push(pick);
      else this.picks.set(key, [pick]);
    }
    this.byRow = new Map(picks.map((pick) => [pick.row, pick]));
    this.lots = new Map(allLots.map((lot) => [labelKey(lot.lot), lot]));
  }

  /** Picks of the lot that a finding is about. */
  picksOf(lot: string): readonly PickRecord[] {
    return this.picks.get(labelKey(lot)) ?? [];
  }

  lotOf(label: string): LotRecord | undefined {
    return this.lots.get(labelKey(label));
  }

  private readonly says: Readonly<Partial<Record<Cause, (finding: Finding) => string>>> = {
    mass: (finding) => this.ofMass(finding),
    'mass odd': (finding) => this.ofMass(finding),
    group: (finding) => this.ofGroup(finding),
    book: (finding) => this.ofBook(finding),
    date: (finding) => this.ofDate(finding),
    'date odd': (finding) => this.ofDate(finding),
    flush: (finding) => this.ofDate(finding),
    'lot other': (finding) => this.ofLot(finding),
    'lot unknown': (finding) => this.ofLot(finding),
    'lot spelling': (finding) => this.ofLot(finding),
    'load date': (finding) => this.ofLoad(finding),
    inoculated: (finding) => this.ofRun(finding),
    unripe: (finding) => this.ofRun(finding),
    moisture: (finding) => this.ofColumn(finding),
    'block mass': (finding) => this.ofColumn(finding),
    'flush missing': (finding) => this.ofMissing(finding),
  };

  /** The sentence; empty where the finding itself says all. */
  of(finding: Finding): string {
    const said = [this.says[finding.cause]?.(finding) ?? '', this.rivalsOf(finding)];
    return said.filter((one) => one !== '').join(' ');
  }

  private day(serial: number): string {
    return shownCell(serial, 'date', this.dateSystem);
  }

  private mass(mass: number): string {
    return `${shownCell(Number(mass.toPrecision(3)))}${this.unit === undefined ? '' : ` ${this.unit}`}`;
  }

  private span(figures: readonly number[], said: (figure: number) => string): string {
    const [first, last] = [figures[0]!, figures.at(-1)!];
    return first === last ? said(first) : `${said(first)} to ${said(last)}`;
  }

  private others(finding: Finding): PickRecord[] {
    return this.picksOf(finding.lot).filter(({ row }) => !finding.rows.includes(row));
  }

  private ofMass(finding: Finding): string {
    const flush = this.byRow.get(finding.row)?.flush;
    const others = this.others(finding);
    const same = others.filter((pick) => pick.flush === flush);
    const near = numbersOf((same.length > 1 ? same : others).map(({ mass }) => mass));
    const typed = this.typedOf(finding);
    if (near.length === 0) return typed;
    const inFlush = same.length > 1 && typeof flush === 'number' ? ` of flush ${flush}` : '';
    const expected =
      typeof finding.expected === 'number' ? `; about ${this.mass(finding.expected)} was to be expected` : '';
    return `The lot’s ${counted(near.length, 'other pick')}${inFlush} weigh ${this.span(near, (one) => this.mass(one))}${expected}.${typed === '' ? '' : ` ${typed}`}`;
  }

  /** The figures with the tare, which are those that stand in the cell. */
  private typedOf({ value, corrected, tare }: Finding): string {
    if (tare === undefined || typeof value !== 'number') return '';
    const typed = (mass: number): string => shownCell(Number((mass + tare).toPrecision(9)));
    const now = typeof corrected === 'number' ? ` and ${typed(corrected)} if corrected` : '';
    return `With its tare of ${shownCell(tare)} it is ${typed(value)} as typed${now}.`;
  }

  private rivalsOf({ column, corrected, rivals = [] }: Finding): string {
    const meant = ({ slip, corrected: value }: Rival): string => {
      if (typeof value === 'string' || slip === 'flush') return String(value);
      return column === 'mass' ? this.mass(value) : this.day(value);
    };
    const said = rivals.map((rival) => `${slipSaid(rival.slip, this.unit)}, ${meant(rival)}`);
    if (said.length === 0) return '';
    return `It may ${corrected === undefined ? '' : 'also '}be ${said.join('; or ')}.`;
  }

  private ofGroup({ rows, factor, added }: Finding): string {
    if (added !== undefined) {
      return 'Next to other people’s picks of the same lots the light ones are too heavy by a larger share than the heavy ones, as a crate makes them.';
    }
    if (factor === undefined) return '';
    const many = factor > 1 ? factor : 1 / factor;
    const lots = new Set(rows.map((row) => this.byRow.get(row)?.lot)).size;
    return `Next to other picks of the same ${counted(lots, 'lot')} they are about ${shownCell(Number(many.toPrecision(3)))} times too ${factor > 1 ? 'heavy' : 'light'}.`;
  }

  private ofBook({ value, about, slip }: Finding): string {
    const [now, converted] = [value, about].map((share) => shownCell(Number(share), 'percent'));
    return `The middle lot yields ${now} of its dry mass; if all masses are ${slip}, it is ${converted}. Look at the unit of the block masses too.`;
  }

  private ofDate(finding: Finding): string {
    const { cause, lot, row } = finding;
    const own = this.byRow.get(row);
    const others = this.others(finding);
    const wanted = cause === 'flush' ? finding.expected : own?.flush;
    const same = others.filter(({ flush }) => flush === wanted);
    const isSame = typeof wanted === 'number' && same.length > 0;
    const days = numbersOf((isSame ? same : others).map(({ date }) => date));
    const loaded = this.lotOf(lot)?.loaded;
    const fromLoad = typeof loaded === 'number' ? `The lot was loaded on ${this.day(loaded)}` : '';
    if (days.length === 0) return fromLoad === '' ? '' : `${fromLoad}.`;
    const what = isSame ? `picks of flush ${wanted}` : 'other picks';
    const isOne = days.length === 1;
    const are = isOne ? 'is' : 'are';
    const picked = `${fromLoad === '' ? 'The lot’s' : ' and its'} ${isOne ? what.replace('picks', 'pick') : what} ${are} from ${this.span(days, (one) => this.day(one))}`;
    const date = own?.date;
    const this_ = cause === 'flush' && typeof date === 'number' ? `; this one is from ${this.day(date)}` : '';
    return `${fromLoad}${picked}${this_}.`;
  }

  private ofLot(finding: Finding): string {
    const date = this.byRow.get(finding.row)?.date;
    if (typeof date !== 'number' || typeof finding.corrected !== 'string') return '';
    const spanOf = (picks: readonly PickRecord[]): string => {
      const days = numbersOf(picks.map((pick) => pick.date));
      return days.length === 0 ? '' : this.span(days, (one) => this.day(one));
    };
    const there = spanOf(this.picksOf(finding.corrected));
    if (finding.cause !== 'lot other') {
      const are = `the picks of lot ${finding.corrected} are from ${there}`;
      return there === '' ? '' : `This pick is from ${this.day(date)}; ${are}.`;
    }
    const meant = there === '' ? '' : `, and those of lot ${finding.corrected} from ${there}`;
    const here = spanOf(this.others(finding));
    return `This pick is from ${this.day(date)}${here === '' ? '' : `, other picks of lot ${finding.lot} from ${here}`}${meant}.`;
  }

  private ofLoad(finding: Finding): string {
    const days = numbersOf(this.picksOf(finding.lot).map(({ date }) => date));
    if (days.length === 0 || typeof finding.value !== 'number') return '';
    const after = days[0]! - finding.value;
    const when =
      after > 0
        ? `${counted(after, 'day')} after it`
        : after === 0
          ? 'on that day'
          : `${counted(-after, 'day')} before it`;
    const expected =
      typeof finding.expected === 'number' ? `; they fit a load on about ${this.day(finding.expected)}` : '';
    return `The lot’s ${counted(days.length, 'pick')} begin on ${this.day(days[0]!)}, ${when}${expected}.`;
  }

  private ofRun({ lot, cause, expected }: Finding): string {
    const record = this.lotOf(lot);
    if (typeof record?.inoculated !== 'number' || typeof record.loaded !== 'number') return '';
    const run = record.loaded - record.inoculated;
    const usual =
      typeof expected !== 'number'
        ? ''
        : `; the strain usually takes ${counted(
            Math.abs(cause === 'unripe' ? expected - record.inoculated : record.loaded - expected),
            'day',
          )}`;
    return run < 0
      ? `The lot was loaded ${counted(-run, 'day')} before it was inoculated${usual}.`
      : `The lot ran ${counted(run, 'day')} before it was loaded${usual}.`;
  }

  private ofColumn({ lot, column }: Finding): string {
    const record = this.lotOf(lot);
    if (!record) return '';
    const isMoisture = column === 'moisture';
    const others = this.allLots.filter((one) => one.row !== record.row);
    const own = others.filter(({ strain }) => labelKey(strain) === labelKey(record.strain));
    const valuesOf = (lots: readonly LotRecord[]): number[] =>
      numbersOf(lots.map(({ moisture, blockMass }) => (isMoisture ? moisture : blockMass)));
    const isOwn = valuesOf(own).length > 1;
    const values = valuesOf(isOwn ? own : others);
    if (values.length === 0) return '';
    const middle = values[values.length >> 1]!;
    const said = isMoisture ? shownCell(middle, 'percent') : this.mass(middle);
    return `The ${counted(values.length, 'other lot')}${isOwn ? ` of ${record.strain}` : ''} mostly ${values.length === 1 ? 'has' : 'have'} ${said}.`;
  }

  private ofMissing({ lot, about }: Finding): string {
    const picks = this.picksOf(lot);
    const daysOf = (isWanted: (flush: number) => boolean): number[] =>
      numbersOf(
        picks.filter(({ flush }) => typeof flush === 'number' && isWanted(flush)).map(({ date }) => date),
      );
    const [before, after] = [
      daysOf((flush) => flush < Number(about)),
      daysOf((flush) => flush > Number(about)),
    ];
    if (before.length > 0 && after.length > 0) {
      return `Nothing was picked between ${this.day(before.at(-1)!)} and ${this.day(after[0]!)}.`;
    }
    const days = numbersOf(picks.map(({ date }) => date));
    if (days.length === 0) return '';
    return `The lot’s picks on record are from ${this.span(days, (one) => this.day(one))}.`;
  }
}
