import { unitOfBlocks } from '../../maths/audit/bookUnit';
import { USUAL_SETTINGS, yieldAudit } from '../../maths/audit/yieldAudit';
import type { Finding, LotRecord, MassUnit, PickRecord, StrainFacts } from '../../maths/audit/yieldRecords';
import { labelKey } from '../../maths/shared/labels';
import type { DateSystem } from '../calendar';
import type { Cell } from '../cells/cell';
import { shownCell } from '../cells/shown';
import { lotOf, pickOf } from './auditedBook';
import { Evidence } from './evidenceSaid';
import { expectedSaid, findingSaid, slipsSaid, surenessSaid } from './findingsSaid';

// The audit for a host that shows its findings itself: what each is about, as data and in words.

/** A row of a table: its number, counted from the header as row 1, and its cells by the column's own name. */
export interface TableRow {
  readonly at: number;
  readonly [column: string]: Cell | undefined;
}

/** A strain as the grower gave it; figures that are not known are left out. */
export interface GivenStrain {
  readonly strain: string;
  readonly facts: Partial<Omit<StrainFacts, 'flushes'>> & { readonly flushes?: number | undefined };
}

/** One pick in a picture of a lot: days are counted from the first day shown. */
export interface PicturedPick {
  readonly day: number;
  readonly mass: number;
  readonly isOdd: boolean;
}

/** A lot's picks on a line of days, and the same as a sentence. */
export interface Picture {
  readonly days: number;
  readonly loaded: number | undefined;
  readonly picks: readonly PicturedPick[];
  readonly sentence: string;
}

export interface ToldFinding extends Finding {
  readonly says: string;
  readonly slipWords: string;
  readonly sureWords: string;
  readonly evidence: string;
  readonly picture: Picture | undefined;
  /** What each row of the finding would hold; empty where no one value is meant. */
  readonly corrections: readonly { readonly row: number; readonly value: number | string }[];
}

export interface GivenBook {
  readonly harvests: readonly TableRow[];
  readonly lots: readonly TableRow[];
  readonly strains: readonly GivenStrain[];
  readonly unit: MassUnit | undefined;
  readonly dateSystem: DateSystem;
}

/** The findings of a book, those of one lot together, the lot with the surest first. */
export function toldFindings({ harvests, lots, strains, unit: named, dateSystem }: GivenBook): ToldFinding[] {
  const picks = harvests.map((row) => pickOf(row as unknown as Parameters<typeof pickOf>[0]));
  const records = lots.map((row) => lotOf(row as unknown as Parameters<typeof lotOf>[0]));
  const unit = named ?? unitOfBlocks(records);
  const facts = new Map(strains.map((one) => [labelKey(one.strain), factsIn(one)]));
  const findings = yieldAudit(picks, records, facts, { ...USUAL_SETTINGS, unit, dateSystem });
  const evidence = new Evidence(picks, records, unit, dateSystem);
  const byRow = new Map(picks.map((pick) => [pick.row, pick]));
  const told = findings.map((finding): ToldFinding => {
    const corrections = correctionsOf(finding, byRow);
    const isOpen = finding.expected === undefined && corrections.length === 0;
    const expected = isOpen ? expectedSaid(finding) : '';
    return {
      ...finding,
      says: `${findingSaid(finding)}${expected === '' ? '' : `; ${expected} is expected`}`,
      slipWords: slipsSaid(finding, unit),
      sureWords: surenessSaid(finding.sure),
      evidence: evidence.of(finding),
      picture: pictureOf(
        finding,
        evidence.picksOf(finding.lot),
        evidence.lotOf(finding.lot),
        unit,
        dateSystem,
      ),
      corrections,
    };
  });
  const first = new Map<string, number>();
  told.forEach((one, at) => {
    const key = placeKey(one);
    if (!first.has(key)) first.set(key, at);
  });
  return told
    .map((one, at) => ({ one, at, of: first.get(placeKey(one))! }))
    .sort((a, b) => a.of - b.of || a.at - b.at)
    .map(({ one }) => one);
}

/** What concerns several lots stands by itself. */
const placeKey = ({ cause, lot }: Finding): string =>
  cause === 'group' || cause === 'book' || cause === 'not judged' ? '' : labelKey(lot);

const factsIn = ({ facts }: GivenStrain): StrainFacts => ({
  earliest: facts.earliest,
  firstPick: facts.firstPick,
  pickDays: facts.pickDays,
  flushGap: facts.flushGap,
  flushes: facts.flushes ?? 1,
  efficiency: facts.efficiency,
});

function correctionsOf(
  { cause, rows, factor, corrected }: Finding,
  byRow: ReadonlyMap<number, PickRecord>,
): ToldFinding['corrections'] {
  if (factor !== undefined) {
    return rows.flatMap((row) => {
      const mass = byRow.get(row)?.mass;
      return typeof mass === 'number' ? [{ row, value: Number((mass / factor).toPrecision(9)) }] : [];
    });
  }
  if (corrected === undefined || cause === 'twice') return [];
  const value = typeof corrected === 'number' ? Number(corrected.toPrecision(9)) : corrected;
  return rows.map((row) => ({ row, value }));
}

/** Days that a picture shows beyond the lot's other picks: farther off is at its edge. */
const MARGIN = 6;

function pictureOf(
  finding: Finding,
  picks: readonly PickRecord[],
  lot: LotRecord | undefined,
  unit: MassUnit | undefined,
  dateSystem: DateSystem,
): Picture | undefined {
  if (finding.cause === 'group' || finding.cause === 'book' || finding.cause === 'not judged')
    return undefined;
  const dated = picks.filter(
    (pick): pick is PickRecord & { date: number } => typeof pick.date === 'number' && pick.date > 0,
  );
  const isOdd = ({ row }: PickRecord): boolean => finding.table === 'harvests' && finding.rows.includes(row);
  const others = dated.filter((pick) => !isOdd(pick)).map(({ date }) => date);
  if (others.length === 0) return undefined;
  const [first, last] = [Math.min(...others), Math.max(...others)];
  const load =
    typeof lot?.loaded === 'number' && first - lot.loaded <= 120 && lot.loaded <= last
      ? lot.loaded
      : undefined;
  const from = Math.min(first, load ?? first) - MARGIN;
  const days = last + MARGIN - from;
  const shownPicks = dated.map((pick): PicturedPick => ({
    day: Math.max(0, Math.min(days, pick.date - from)),
    mass: typeof pick.mass === 'number' && pick.mass > 0 ? pick.mass : 0,
    isOdd: isOdd(pick),
  }));
  const day = (serial: number): string => shownCell(serial, 'date', dateSystem);
  const odd = dated.filter(isOdd);
  const marked = odd.map(({ date, mass }) => {
    const weight =
      typeof mass === 'number' ? `${shownCell(mass)}${unit === undefined ? '' : ` ${unit}`} on ` : '';
    return `${weight}${day(date)}`;
  });
  const loaded = load === undefined ? '' : ` after the load of ${day(load)}`;
  const span = first === last ? `on ${day(first)}` : `from ${day(first)} to ${day(last)}`;
  return {
    days,
    loaded: load === undefined ? undefined : load - from,
    picks: shownPicks,
    sentence:
      `${others.length === 1 ? '1 pick' : `${others.length} picks`} of lot ${finding.lot} ${span}${loaded}` +
      (marked.length === 0 ? '.' : `; marked: ${marked.join(', ')}.`),
  };
}
