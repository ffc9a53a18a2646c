import type { KnownBook, KnownLot, KnownPick } from './knownBook';
import { grouped } from './likelihood';

/** Rows that share a lot and a day, as a book begins: counts as many of each kind. */
const USUAL_PAIRS = 4;
/** A row that is missing from its day, as often as this, leaves a company that was never seen. */
const UNSEEN = 0.003;
/** Evidence of company is believed this far. */
export const MOST_COMPANY = 8;

type Named = 'picker' | 'scale' | 'crate';

/**
 * What rows of one lot and day have in common: which grades are weighed together, and whether one person, scale or crate
 * served them all. A second grade without its first asks for a row that another lot or day has too many.
 */
export class DayCompany {
  private readonly sets = new Map<string, number>();
  private days = 0;
  private readonly columns: { readonly column: Named; readonly same: number; readonly other: number }[] = [];
  private readonly hasGrades: boolean;

  constructor({ picks, lots }: KnownBook) {
    this.hasGrades = picks.some(({ record }) => record.grade !== '');
    const named = (['picker', 'scale', 'crate'] as const).filter((column) =>
      picks.some(({ record }) => record[column] !== ''),
    );
    if (!this.hasGrades && named.length === 0) return;
    const pairs = new Map(named.map((column) => [column, { same: 0, all: 0 }]));
    for (const lot of lots.values()) {
      for (const members of grouped(lot.picks, ({ day }) => day).values()) {
        this.days++;
        const set = gradesOf(members);
        this.sets.set(set, (this.sets.get(set) ?? 0) + 1);
        for (const [column, count] of pairs) {
          count.all += members.length - 1;
          for (const { record } of members.slice(1)) {
            if (record[column] === members[0]!.record[column]) count.same++;
          }
        }
      }
    }
    for (const [column, { same, all }] of pairs) {
      const names = [...grouped(picks, ({ record }) => record[column]).values()];
      const chance = names.reduce((sum, { length }) => sum + (length / picks.length) ** 2, 0);
      if (chance > 0.95) continue;
      const share = (same + USUAL_PAIRS * chance) / (all + USUAL_PAIRS);
      this.columns.push({
        column,
        same: Math.log(share / chance),
        other: Math.log((1 - share) / (1 - chance)),
      });
    }
  }

  /** ln of how much likelier the rows of both days are with the pick on this day of this lot. */
  gain(pick: KnownPick, lot: KnownLot, day: number, strangeness = this.strangeness(pick)): number {
    if (!this.hasGrades && this.columns.length === 0) return 0;
    const there = rowsOn(lot, day, pick);
    if (there.length === 0 && !this.hasGrades) return bounded(strangeness);
    const gain = strangeness + this.likely([...there, pick]) - this.likely(there);
    return bounded(gain);
  }

  /** ln of how much likelier the rows of its day are without the pick. */
  strangeness(pick: KnownPick): number {
    if (!this.hasGrades && this.columns.length === 0) return 0;
    const here = pick.lot ? rowsOn(pick.lot, pick.day!, pick) : [];
    if (here.length === 0 && !this.hasGrades) return 0;
    return this.likely(here) - this.likely([...here, pick]);
  }

  private likely(rows: readonly KnownPick[]): number {
    if (rows.length === 0) return 0;
    let sum = this.hasGrades ? Math.log((this.sets.get(gradesOf(rows)) ?? 0) / this.days + UNSEEN) : 0;
    for (const { column, same, other } of this.columns) {
      for (const { record } of rows.slice(1)) {
        sum += record[column] === rows[0]!.record[column] ? same : other;
      }
    }
    return sum;
  }
}

const bounded = (gain: number): number => Math.max(-MOST_COMPANY, Math.min(MOST_COMPANY, gain));

const gradesOf = (rows: readonly KnownPick[]): string =>
  [...new Set(rows.map(({ record }) => record.grade))].sort().join('\n');

function rowsOn({ picks }: KnownLot, day: number, self: KnownPick): KnownPick[] {
  const rows: KnownPick[] = [];
  for (const pick of picks) if (pick.day === day && pick !== self && !pick.isCopy) rows.push(pick);
  return rows;
}
