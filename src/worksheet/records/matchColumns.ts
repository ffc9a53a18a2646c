import { block, table } from '../cells/arguments';
import { key, required } from '../cells/columns';
import { text } from '../cells/kinds';
import { mixed, namedIn, tableResult } from '../cells/results';
import { defineFunction } from '../define';

export const nameColumns = {
  header: key(text(), 'header as your sheet has it', 'your header', 'yours', 'from'),
  means: required(text(), 'what Pinset calls that column', 'pinset', 'becomes', 'to'),
};
export const renamedResult = tableResult({
  columns: namedIn(mixed('header, with its cells as they are')),
});

export const MATCHCOLUMNS = defineFunction({
  name: 'MATCHCOLUMNS',
  family: 'records',
  arguments: [
    block('table', 'your table, titles above it and all'),
    table(
      'names',
      nameColumns,
      'list with the columns header (as in your sheet) and means (as Pinset calls it)',
    ),
  ],
  result: renamedResult,
  needs: ['converting'],
  whole: (grid, { rows: names }, { tools }) => tools.converting.renamedTable(grid, names),
});
