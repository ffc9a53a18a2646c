import type { Finding } from '../../../../src/maths/audit/yieldRecords';
import type { Book } from './farms';
import type { PlantedSlip, SlipKind } from './slips';

/** What an audit must say, as far as it is scored: any method's findings can be put so. */
export type Said = Pick<Finding, 'table' | 'rows' | 'lot' | 'cause' | 'corrected' | 'slip' | 'about'>;
export type Audit = (book: Book) => readonly Said[];

/** The cause that names each slip. */
const CAUSES: Record<SlipKind, (said: Said) => boolean> = {
  'decimal × 10': ({ cause, slip }) => cause === 'mass' && slip === 'decimal right',
  'decimal ÷ 10': ({ cause, slip }) => cause === 'mass' && slip === 'decimal left',
  'kilograms for grams': ({ cause, slip }) => cause === 'mass' && slip === 'kilograms',
  grams: ({ cause, slip }) => cause === 'mass' && slip === 'grams',
  'pounds or kilograms': ({ cause, slip }) => cause === 'mass' && (slip === 'pounds' || slip === 'kilograms'),
  'ounces for pounds': ({ cause, slip }) => cause === 'mass' && slip === 'ounces',
  'day and month swapped': ({ cause, slip }) => cause === 'date' && slip === 'swapped date',
  'label unknown': ({ cause }) => cause === 'lot unknown' || cause === 'lot spelling',
  'label of another lot': ({ cause }) => cause === 'lot other',
  'row typed twice': ({ cause }) => cause === 'twice',
  'wrong flush number': ({ cause }) => cause === 'flush',
  'wrong block mass': ({ cause }) => cause === 'block mass',
  'block mass of another strain': ({ cause }) => cause === 'block mass',
  'wrong moisture': ({ cause }) => cause === 'moisture',
  'flush missing': ({ cause }) => cause === 'flush missing',
  'last flush missing': ({ cause }) => cause === 'flush missing',
  'load date wrong': ({ cause }) => cause === 'load date',
  'crate not taken off': () => false,
  'blocks counted twice': ({ cause }) => cause === 'blocks',
  'a picker’s day off by a factor': ({ cause }) => cause === 'group',
  'a picker off by a factor': ({ cause }) => cause === 'group',
  'a picker’s crate never taken off': ({ cause, slip }) => cause === 'group' && slip === 'crate',
};

export interface Tally {
  planted: number;
  caught: number;
  cause: number;
  /** Of those whose slip has a figure: how many corrected figures are within 2% of the truth (dates: on the day). */
  figures: number;
  right: number;
}

export interface Score {
  readonly kinds: Map<SlipKind, Tally>;
  alarms: number;
  /** Alarms of these that are so: a total that its lot's picks no longer add up to, since one of them was slipped. */
  totals: number;
  rows: number;
  books: number;
}

export const newScore = (): Score => ({ kinds: new Map(), alarms: 0, totals: 0, rows: 0, books: 0 });

function isRight(truth: number | string, { corrected }: Said): boolean {
  if (typeof truth === 'string') return String(corrected).toLowerCase() === truth.toLowerCase();
  if (typeof corrected !== 'number') return false;
  // Dates are tens of thousands of days: 2% of one is no measure.
  return Math.abs(corrected - truth) <= (truth > 20_000 ? 0 : 0.02 * truth);
}

/** Lots that a slipped row is in, or was taken from. */
function lotsOfSlips(book: Book, slips: readonly PlantedSlip[]): Set<string> {
  const lotOf = new Map(book.picks.map(({ row, lot }) => [row, lot]));
  const lots = slips
    .filter(({ table }) => table === 'harvests')
    .flatMap(({ rows, truth }) => [...rows.map((row) => lotOf.get(row)), truth]);
  return new Set(lots.map((lot) => String(lot).toLowerCase()));
}

/**
 * Scores one book. A slip is caught where a finding names one of its rows (of a group: at least six rows in ten of it). A
 * finding that names no slipped row is a false alarm, whatever led to it.
 */
export function scoreBook(
  score: Score,
  { book, slips }: { book: Book; slips: readonly PlantedSlip[] },
  audit: Audit,
): void {
  // What could not be judged is neither caught nor an alarm; a flush that the farm itself never weighed is no alarm.
  const findings = audit(book).filter(
    ({ cause, lot }) => cause !== 'not judged' && !(cause === 'flush missing' && book.unweighed?.has(lot)),
  );
  const used = new Set<Said>();
  for (const { kind, table, rows, truth } of slips) {
    const tally = score.kinds.get(kind) ?? { planted: 0, caught: 0, cause: 0, figures: 0, right: 0 };
    score.kinds.set(kind, tally);
    tally.planted++;
    const own = findings.filter(
      (said) => said.table === table && said.rows.some((row) => rows.includes(row)),
    );
    own.forEach((said) => used.add(said));
    const isGroup = rows.length > 2;
    const caught = isGroup
      ? own.filter((said) => rows.filter((row) => said.rows.includes(row)).length >= 0.6 * rows.length)
      : own;
    const named = caught.find(CAUSES[kind]);
    if (caught.length) tally.caught++;
    if (named) tally.cause++;
    if (truth === undefined) continue;
    tally.figures++;
    if (named && isRight(truth, named)) tally.right++;
  }
  const alarms = findings.filter((said) => !used.has(said));
  const lots = lotsOfSlips(book, slips);
  score.alarms += alarms.length;
  score.totals += alarms.filter(({ cause, lot }) => cause === 'total' && lots.has(lot.toLowerCase())).length;
  score.rows += book.picks.length;
  score.books++;
}
