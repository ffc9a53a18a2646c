import { allRan, cache } from './steps';

// `npm run check`: format, types and lint of everything. Format is told first. The linter keeps nothing for the next
// time: with types, what it finds in a file depends on others. `--pages` builds what the browser tests open beside them.

const found = cache('check');
const pages = process.argv.includes('--pages');

void allRan([
  [
    'format',
    'prettier',
    ['--check', '--log-level', 'warn', '--cache', '--cache-location', `${found}.format`, '.'],
  ],
  ['lint', 'eslint', ['.']],
  ...(pages ? ([['pages for the browser tests', 'tsx', ['tests/browser/buildPages.ts']]] as const) : []),
  ['types', 'tsc', ['-p', 'tsconfig.json', '--incremental', '--tsBuildInfoFile', `${found}.types`]],
  [
    'types of the maths by itself',
    'tsc',
    ['-p', 'src/maths/tsconfig.json', '--incremental', '--tsBuildInfoFile', `${found}.maths`],
  ],
]);
