import type { KnownPick } from './knownBook';
import { grouped } from './likelihood';

/** The days of one flush of a lot. */
export interface FlushDays {
  readonly flush: number | undefined;
  /** In order, each once. */
  readonly days: readonly number[];
  /** Rows by day and grade, the row that is judged among them. */
  readonly rows: ReadonlyMap<string, number>;
}

export const rowsKey = (day: number, grade: string): string => `${day}\n${grade}`;

export function flushDays(picks: readonly KnownPick[]): FlushDays[] {
  const dated = picks.filter((pick) => !pick.isCopy && pick.day !== undefined);
  return [...grouped(dated, ({ flush }) => flush)].map(([flush, picks]) => {
    const rows = new Map<string, number>();
    const days: number[] = [];
    for (const { day, record } of picks) {
      const key = rowsKey(day!, record.grade);
      rows.set(key, (rows.get(key) ?? 0) + 1);
      if (!days.includes(day!)) days.push(day!);
    }
    return { flush, days: days.sort((a, b) => a - b), rows };
  });
}
