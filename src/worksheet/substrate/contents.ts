import { missing } from '../../maths/shared/fault';
import type { Need } from '../../maths/substrate/cheapestMix';
import type { Cell } from '../cells/cell';
import { SheetFault } from '../cells/fault';
import { fraction, number } from '../cells/kinds';
import { headerKey } from '../cells/headers';
import type { Table } from '../cells/table';
import { isRefusal, readCell } from '../readCell';
import { METRIC } from '../voice';

interface IngredientRow {
  readonly at: number;
  readonly contents: ReadonlyMap<string, Cell | undefined>;
}

/** Protein holds 16% nitrogen, the convention of feed labels. */
const PROTEIN_TO_NITROGEN = 6.25;
const SHARES_OF_DRY = ['carbon', 'nitrogen', 'protein', 'ash'];

/** What each ingredient holds of a need, by the need's name. */
export function contentOf(
  { need, at }: { readonly need: string; readonly at: number },
  ingredients: Table<IngredientRow>,
): Pick<Need, 'content' | 'per'> {
  const wanted = headerKey(need);
  if (wanted === 'moisture') return { content: 'moisture' };
  const columnOf = (name: string): number[] | undefined => {
    const header = [...(ingredients.rows[0]?.contents.keys() ?? [])].find((one) => headerKey(one) === name);
    if (header === undefined) return undefined;
    const kind = SHARES_OF_DRY.includes(name) ? fraction() : number({ from: 0 });
    return ingredients.rows.map(({ contents, at: row }) => {
      const place = { argument: `ingredients, ${header}`, row };
      const read = readCell(kind, contents.get(header) ?? 0, place, { dateSystem: 1900, voice: METRIC });
      if (isRefusal(read)) throw new SheetFault(read.error);
      return read;
    });
  };
  const held = (name: string): number[] => {
    const content = columnOf(name);
    if (name === 'nitrogen') {
      const protein = columnOf('protein');
      const nitrogen = protein?.map((share, i) => content?.[i] || share / PROTEIN_TO_NITROGEN);
      if (nitrogen) return nitrogen;
    }
    if (!content) throw missing('needs', 'noColumnFor', { header: name }, { at });
    return content;
  };
  if (['c:n', 'c/n', 'cn'].includes(wanted)) return { content: held('carbon'), per: held('nitrogen') };
  return { content: held(wanted) };
}
