import { allRan } from './steps';

// `npm run check`: format, then types and lint of everything. Format is told first. `--pages` builds what the browser
// tests open beside them.

const pages = process.argv.includes('--pages');

void allRan([
  ['format', 'oxfmt', ['--check']],
  ...(pages ? ([['pages for the browser tests', 'tsx', ['tests/browser/buildPages.ts']]] as const) : []),
  ['types and lint', 'oxlint', []],
]);
