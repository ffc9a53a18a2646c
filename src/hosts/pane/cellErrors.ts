import { node, type PageNode } from './node';

/** Where the page of errors that cells show lies: no function is called so. */
export const CELL_ERRORS = 'cell-errors';

interface CellErrorWords {
  readonly shows: string;
  readonly means: string;
  readonly then: readonly string[];
}

const CALCULATE_AGAIN =
  'Open the Pinset pane, choose Check, and click Calculate again. In Excel for Windows Ctrl+Alt+Shift+F9 does the same.';
const RESTART = 'If that does not help, save, close Excel, and open the workbook again.';

/** What a cell may show instead of an answer, in the order in which growers meet it. */
const ERRORS: readonly CellErrorWords[] = [
  {
    shows: '#VALUE! and #N/A',
    means: '#VALUE! means that an argument is wrong, #N/A that something was not found.',
    then: [
      'Point at the cell, or at the mark in its corner, to read which cell is wrong and what was expected.',
      'Where Excel shows no reason, open the pane and click Check this workbook: it names the cell and the reason.',
    ],
  },
  {
    shows: '#BUSY!',
    means:
      'The answer is not there yet. A loading plan may take some seconds; most others are there at once.',
    then: [
      'Finish editing: while a cell is being typed into, or a dialog is open, Excel waits.',
      'If it stays for more than a minute, Excel has lost the answer. This happens after a computer slept, and on a Mac.',
      CALCULATE_AGAIN,
      RESTART,
    ],
  },
  {
    shows: '#NAME?',
    means: 'Excel did not know the function when it calculated the cell.',
    then: [
      'Look whether Pinset is there: type =PINSET. in an empty cell. If no list of functions opens, add Pinset again with Home, Add-ins.',
      CALCULATE_AGAIN,
      'On another person’s computer Pinset must be added there too.',
      'A new version may have added the function. Excel can keep an old list for a day: close Excel and open it again.',
    ],
  },
  {
    shows: '#REF!',
    means: 'The formula refers to cells, a sheet or a table that were deleted.',
    then: [
      'Undo the deletion, or choose the cells in the formula again.',
      'If every Pinset formula shows #REF!, two copies of Pinset are installed. Remove one of them.',
    ],
  },
  {
    shows: '#SPILL!',
    means: 'The answer fills several cells, and one of them is not empty.',
    then: ['Clear the cells below and to the right of the formula, or move the formula.'],
  },
  {
    shows: '#CONNECT! or #CALC!',
    means: 'Excel could not reach Pinset, or was given more cells than it can hand over.',
    then: [
      'Go online once, so that Excel can load Pinset.',
      'Name a range with an end (A2:A500) or a column of a table, not a whole column (A:A).',
      CALCULATE_AGAIN,
    ],
  },
  {
    shows: '####',
    means: 'Nothing is wrong: the column is too narrow for the date or number.',
    then: ['Double-click the line between the letters of this column and the next.'],
  },
  {
    shows: 'A number such as 46124 instead of a date',
    means: 'Dates are numbers to Excel, and this version shows them plainly.',
    then: ['Select the cells, press Ctrl+1 (on a Mac Command+1), and choose Date.'],
  },
  {
    shows: 'An old answer after something was changed',
    means:
      'Excel calculates again only what it sees has changed. Renamed sheets and inserted rows can escape it.',
    then: ['Look whether Formulas, Calculation Options is set to Automatic.', CALCULATE_AGAIN],
  },
  {
    shows: 'All of these at once, in formulas that were fine',
    means: 'Another add-in that fails can take Pinset down with it: they share one place in Excel.',
    then: ['Remove the add-in that you added last, close Excel and open it again.', RESTART],
  },
];

/** What each error in a cell means, and what to do. */
export function cellErrorsArticle(title: 'h2' | 'h3' = 'h3'): PageNode {
  const heading = title === 'h2' ? 'h3' : 'h4';
  return node(
    'article',
    { id: CELL_ERRORS, 'aria-labelledby': `${CELL_ERRORS}-title` },
    node(title, { id: `${CELL_ERRORS}-title`, tabindex: '-1' }, 'Cells that show an error'),
    ERRORS.flatMap(({ shows, means, then }) => [
      node(heading, {}, shows),
      node('p', {}, means),
      node(
        'ul',
        {},
        then.map((step) => node('li', {}, step)),
      ),
    ]),
  );
}
