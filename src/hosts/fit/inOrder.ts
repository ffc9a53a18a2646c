import type { ColumnMatch } from './candidate';
import type { WantedTable } from './jobs';

/** Matches in the order in which their table has its columns. */
export const inOrder = (table: WantedTable, matches: readonly ColumnMatch[]): ColumnMatch[] => {
  const at = ({ wanted }: ColumnMatch): number =>
    table.columns.findIndex(({ name }) => wanted === name || wanted.startsWith(`${name} `));
  return [...matches].sort((a, b) => at(a) - at(b));
};
