import type { CalcError } from '../../maths/shared/fault';
import { keyColumn, optionalSetting, range } from '../cells/arguments';
import { isCellError, type Cell, type CellError } from '../cells/cell';
import { anything, choice, text } from '../cells/kinds';
import { label, value } from '../cells/results';
import { defineFunction } from '../define';
import { refusedIn } from './ownCells';

const view = choice({
  labels: 'each label as the list writes it',
  changes: 'beside each label that was changed, what it was and how many rows changed',
});

const rowsWord = (rows: number): string => (rows === 1 ? '1 row' : `${rows} rows`);

export const MATCHLABELS = defineFunction({
  name: 'MATCHLABELS',
  family: 'records',
  arguments: [
    keyColumn('labels', anything(), 'labels as your sheet has them: strains, lots, products'),
    range('list', text(), 'the labels as they should be, such as the strains of your strains table'),
    optionalSetting('view', view, 'labels', 'labels or changes; labels if left out'),
  ],
  result: value('label', label()),
  needs: ['converting'],
  beside: (cells, list, shown, context) => {
    const kind = text();
    const labels = cells.map((cell: Cell) => (isCellError(cell) ? undefined : kind.accept(cell)));
    const matched = context.tools.converting.matchedLabels(labels, list);
    const rows = new Map<string, number>();
    let changed = 0;
    labels.forEach((own, at) => {
      if (typeof matched[at] !== 'string' || matched[at] === own) return;
      changed++;
      rows.set(own!, (rows.get(own!) ?? 0) + 1);
    });
    return cells.map((cell: Cell, at): string | CalcError | CellError => {
      const [own, match] = [labels[at], matched[at]];
      if (isCellError(cell)) return cell;
      if (own === undefined || match === undefined) return refusedIn('labels', kind, cell, at, context);
      if (shown === 'labels' || typeof match !== 'string') return match;
      if (match === own) return '';
      return `“${own}” is now “${match}” in ${rowsWord(rows.get(own)!)}; ${changed} of ${rowsWord(cells.length)} changed`;
    });
  },
});
