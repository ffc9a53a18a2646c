import type { LotParents, Relative } from '../../maths/lineage/spawnFamily';
import { column, keyColumn, setting } from '../cells/arguments';
import { orBlank, text } from '../cells/kinds';
import { amount, label, tableResult, type ResultRow } from '../cells/results';

// What DESCENDANTS and ANCESTORS share: the same records looked at downwards and upwards.

export const familyArguments = (lotMeaning: string) =>
  [
    setting('lot', text(), lotMeaning),
    keyColumn('lots', text(), 'every lot: spawn, jars, bags, blocks; a lot may be in several rows'),
    column(
      'parents',
      orBlank(text()),
      'the lot each was made from; several with commas between; blank where bought in or not known',
    ),
  ] as const;

const columns = {
  lot: label(),
  steps: amount('generations between the two'),
  path: label('the shortest way to it'),
  note: label(),
};
export const familyResult = tableResult(columns);

const SEPARATORS = /[,;]/;

/** Several parents of a row are in one cell. */
function splitParents(cell: string | null): string[] {
  if (cell === null) return [];
  if (!SEPARATORS.test(cell)) return [cell];
  return cell
    .split(SEPARATORS)
    .map((parent) => parent.trim())
    .filter((parent) => parent !== '');
}

export const recordsOf = (lots: readonly string[], parents: readonly (string | null)[]): LotParents[] =>
  lots.map((lot, i) => ({ lot, parents: splitParents(parents[i]!) }));

export function relativeRow({
  lot,
  steps,
  path,
  isRecorded,
  unknownParents,
}: Relative): ResultRow<typeof columns> {
  const unknown = unknownParents.map((parent) => `parent ${parent} is not in lots`);
  return { lot, steps, path: path.join(' → '), note: isRecorded ? unknown.join('; ') : 'not in lots' };
}
