import { missing } from '../../maths/shared/fault';
import { nearestLabel } from '../../maths/shared/labels';
import type { Need } from '../../maths/substrate/mixProgram';
import type { Cell } from '../cells/cell';
import { SheetFault } from '../cells/fault';
import { headerKey } from '../cells/headerWords';
import { fraction, number, orNone } from '../cells/kinds';
import type { Table } from '../cells/table';
import { isRefusal, readCell } from '../readCell';
import { METRIC } from '../voice';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A need that no column of the ingredients tells of, and the column that was most likely meant. */
    noColumnFor: { readonly header: string; readonly nearest?: string };
  }
}

interface IngredientRow {
  readonly at: number;
  readonly contents: ReadonlyMap<string, Cell | undefined>;
}

/** Protein holds 16% nitrogen, the convention of feed labels. */
export const PROTEIN_TO_NITROGEN = 6.25;

/** Needs that are shares: the others are in whatever unit the ingredients tell them. */
const SHARES = ['carbon', 'nitrogen', 'protein', 'ash', 'moisture'];
export const isShare = (need: string): boolean => SHARES.includes(headerKey(need));

/** What each ingredient holds of a need, by the need's name. */
export function contentOf(
  { need, at }: { readonly need: string; readonly at: number },
  { rows }: Table<IngredientRow>,
): Pick<Need, 'content' | 'per'> {
  const wanted = headerKey(need);
  if (wanted === 'moisture') return { content: 'moisture' };
  const headers = [...(rows[0]?.contents.keys() ?? [])];
  const headerOf = (name: string): string | undefined => headers.find((header) => headerKey(header) === name);
  const read = ({ contents, at: row }: IngredientRow, header: string): number => {
    const kind = orNone(isShare(header) ? fraction() : number({ above: 0 }));
    const place = { argument: `ingredients, ${header}`, row };
    const content = readCell(kind, contents.get(header) ?? null, place, { dateSystem: 1900, voice: METRIC });
    if (isRefusal(content)) throw new SheetFault(content.error);
    return content;
  };
  const held = (name: string): number[] => {
    const header = headerOf(name);
    const protein = name === 'nitrogen' ? headerOf('protein') : undefined;
    if (header === undefined && protein === undefined) {
      const nearest = nearestLabel(name, headers);
      throw missing('needs', 'noColumnFor', { header: name, ...(nearest && { nearest }) }, { at });
    }
    return rows.map((row) =>
      protein !== undefined && (header === undefined || row.contents.get(header) === undefined)
        ? read(row, protein) / PROTEIN_TO_NITROGEN
        : read(row, header!),
    );
  };
  if (['c:n', 'c/n', 'cn'].includes(wanted)) return { content: held('carbon'), per: held('nitrogen') };
  return { content: held(wanted) };
}
