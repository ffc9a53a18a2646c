import { found, type KnownBook, type KnownPick } from './knownBook';
import { grouped } from './likelihood';
import { decimalsOf } from './massSlips';

/** How often a row is typed twice. */
const TWICE = 0.0015;
/** 1 / (2 √π σ) with σ = 0.35: how likely two masses of one lot and day are to be the same, times mass over step. */
const ALIKE = 0.8;

/** A copy is as often near its original as far from it. */
const HALF = 0.5;
const NEAR_ROWS = 3;

const alikeBy = (places: number, mass: number): number => Math.min(1, ALIKE / 10 ** places / mass);

/** Rows that are the same as another in every column: typed twice, unless the book has as many by chance. */
export function judgeCopies({ picks, findings }: KnownBook): void {
  const whole = picks.filter(({ day, mass }) => day !== undefined && mass !== undefined && mass > 0);
  if (whole.length === 0) return;
  // A few slipped decimals are no finer scale.
  const places = whole.map(({ mass }) => decimalsOf(mass!)).sort()[Math.floor(0.9 * whole.length)]!;
  const placeOf = ({ record: { lot, date, picker, scale, grade, crate, flush } }: KnownPick): string =>
    [lot, date, picker, scale, grade, crate, flush].join('\n');
  const byPlace = [...grouped(whole, placeOf).values()].filter(({ length }) => length > 1);
  for (const members of byPlace) members.sort((a, b) => a.record.row - b.record.row);
  const isNear = (one: KnownPick, other: KnownPick): boolean =>
    Math.abs(one.record.row - other.record.row) <= NEAR_ROWS;
  let [others, near] = [0.1, 0.1];
  const pairs = byPlace.flatMap((members) =>
    members.slice(1).map((pick, i) => {
      const first = members.slice(0, i + 1).find(({ mass }) => mass === pick.mass);
      if (!first) {
        others++;
        if (isNear(pick, members[0]!)) near++;
      }
      return { pick, first };
    }),
  );
  for (const { pick, first } of pairs) {
    if (!first) continue;
    // Where honest second weighings are typed one after the other, one that is not is no second weighing.
    const habit = isNear(pick, first) ? near / others : 1 - (near - 0.05) / others;
    const chance = (habit / HALF) * alikeBy(places, pick.mass!);
    const sure = TWICE / (TWICE + (others / whole.length) * chance);
    if (sure < 0.5) continue;
    pick.isCopy = true;
    const { row } = first.record;
    findings.push(
      found(pick.record, 'twice', 'mass', pick.mass!, {
        slip: 'twice',
        about: row,
        sure,
        rows: [pick.record.row],
      }),
    );
  }
}
