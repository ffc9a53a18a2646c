import { worstStretch } from './groupStretches';
import { worstThroughout } from './groupsThroughout';
import { tellTare, worstTare } from './groupTares';
import type { JudgedPick } from './judgedPick';
import { found, type KnownBook } from './knownBook';
import { massModel, type MassModel } from './massModel';
import { undone, type MassSlip } from './massSlips';
import { PickingDays } from './pickingDays';

const MOST_FINDINGS = 20;

/**
 * Masses that are all off by one factor: of a picker, a scale or a crate throughout, or on a stretch of days. Nothing
 * shows in a single mass; together they do.
 *
 * @returns the model of the book with what was found corrected
 */
export function judgeGroups(book: KnownBook, known: MassModel, slips: readonly MassSlip[]): MassModel {
  let model = known;
  const picking = new PickingDays(book);
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const throughout = worstThroughout(model, slips);
    if (!throughout) break;
    const { group, slip, odds } = throughout;
    tell(book, group.members, slip, odds, `${group.column} ${group.name}`);
    model = massModel(book);
  }
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const tare = worstTare(model);
    if (!tare) break;
    tellTare(book, tare);
    model = massModel(book);
  }
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const stretch = worstStretch(model, slips, picking);
    if (!stretch) break;
    const { members, slip, odds, about } = stretch;
    tell(book, members, slip, odds, about);
    for (const one of members) one.off -= Math.log(slip.factor);
  }
  return model;
}

function tell(
  book: KnownBook,
  members: readonly JudgedPick[],
  of: MassSlip,
  odds: number,
  about: string,
): void {
  const rows = members.map(({ pick }) => pick.record.row).sort((a, b) => a - b);
  const first = members.reduce((one, other) =>
    other.pick.record.row < one.pick.record.row ? other : one,
  ).pick;
  book.findings.push(
    found(first.record, 'group', 'mass', first.mass!, {
      rows,
      corrected: undone(first.mass!, of),
      slip: of.slip,
      factor: of.factor,
      about,
      sure: Math.min(0.9999, 1 / (1 + Math.exp(-odds))),
    }),
  );
  for (const { pick } of members) pick.mass = undone(pick.mass!, of);
}
