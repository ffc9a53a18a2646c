import { allRan, cache } from './steps';

// `npm run check`: format, types and lint of everything, on two cores. Format is told first. The linter keeps nothing
// for the next time: with types, what it finds in a file depends on others.

const found = cache('check');

void allRan(
  [
    [
      'format',
      'prettier',
      ['--check', '--log-level', 'warn', '--cache', '--cache-location', `${found}.format`, '.'],
    ],
    ['types', 'tsc', ['-p', 'tsconfig.json', '--incremental', '--tsBuildInfoFile', `${found}.types`]],
    [
      'types of the maths by itself',
      'tsc',
      ['-p', 'src/maths/tsconfig.json', '--incremental', '--tsBuildInfoFile', `${found}.maths`],
    ],
  ],
  [['lint', 'eslint', ['.']]],
);
