import { carbonToNitrogen } from '../../maths/substrate/carbonToNitrogen';
import { mixNitrogen } from '../../maths/substrate/mixNitrogen';
import type { Weighing } from '../../maths/substrate/weighingList';
import { isCellError, type CellError } from '../cells/cell';
import { orFault } from '../cells/fault';
import { fraction, orNone } from '../cells/kinds';
import type { Faulty } from '../cells/results';
import { refuse } from '../readCell';
import { METRIC } from '../voice';
import { PROTEIN_TO_NITROGEN } from './contents';

interface Fed {
  readonly at: number;
  readonly moisture: number;
  readonly carbon: number | undefined;
  readonly nitrogen: number | undefined;
  readonly protein: number | undefined;
}

/** Nitrogen and C:N under the headers of a weighing list; undefined where the recipe does not tell. */
export interface Nutrients {
  readonly nitrogen: number | '' | Faulty | undefined;
  readonly 'C:N': number | '' | Faulty | undefined;
}

/** A figure that its column has for other ingredients: a blank is not 0. */
const lacking = (header: string, row: number): CellError =>
  refuse(
    orNone(fraction()),
    null,
    { argument: `recipe, ${header}`, row },
    { dateSystem: 1900, voice: METRIC },
  ).error;

const areNumbers = (list: readonly (number | CellError)[]): list is readonly number[] =>
  !list.some(isCellError);

/** Nitrogen and C:N of each ingredient, and of the whole. One that lacks a figure spoils the whole's, not the list. */
export function nutrientsOf(
  rows: readonly Fed[],
  weighed: readonly Weighing[],
): { readonly ofEach: readonly Nutrients[]; readonly ofMix: Nutrients } {
  const tellsNitrogen = rows.some(({ nitrogen, protein }) => (nitrogen ?? protein) !== undefined);
  const tellsCarbon = tellsNitrogen && rows.some(({ carbon }) => carbon !== undefined);
  if (!tellsNitrogen) {
    const none = { nitrogen: undefined, 'C:N': undefined };
    return { ofEach: rows.map(() => none), ofMix: none };
  }
  const nitrogen = rows.map(({ nitrogen: own, protein, at }): number | CellError => {
    if (own !== undefined) return own;
    return protein === undefined ? lacking('nitrogen', at) : protein / PROTEIN_TO_NITROGEN;
  });
  const carbon = rows.map(({ carbon: own, at }): number | CellError => own ?? lacking('carbon', at));
  const ratioOf = (c: number | CellError, n: number | CellError): number | '' | CellError =>
    isCellError(c) ? c : isCellError(n) ? n : n > 0 ? c / n : '';
  const masses = weighed.map(({ mass }) => mass);
  const moistures = rows.map(({ moisture }) => moisture);
  const ratio = (): number | Faulty => {
    if (!areNumbers(nitrogen)) return nitrogen.find(isCellError)!;
    if (!areNumbers(carbon)) return carbon.find(isCellError)!;
    return orFault(() => carbonToNitrogen(masses, moistures, carbon, nitrogen));
  };
  return {
    ofEach: nitrogen.map((share, i) => ({
      nitrogen: share,
      'C:N': tellsCarbon ? ratioOf(carbon[i]!, share) : undefined,
    })),
    ofMix: {
      nitrogen: areNumbers(nitrogen)
        ? mixNitrogen(
            weighed.map(({ dryMass }) => dryMass),
            nitrogen,
          )
        : nitrogen.find(isCellError)!,
      'C:N': tellsCarbon ? ratio() : undefined,
    },
  };
}
