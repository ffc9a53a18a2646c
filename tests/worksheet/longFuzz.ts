import { run } from 'jest';

// `npm run fuzz [NAME]`: a hundred times the random calls of `npm test`, for every function or for one.

process.env['PINSET_FUZZ_CALLS'] = '200000';
const [name] = process.argv.slice(2);
void run([
  'tests/worksheet/fuzz',
  '--selectProjects',
  'node',
  ...(name ? ['--testNamePattern', `^${name} `] : []),
]);
