import { spawnSync } from 'node:child_process';
import { relative } from 'node:path';
import { expect, test } from '@jest/globals';
import { ROOT } from './steps';
import { filesOf, stepsOf } from './trySteps';

test('npm run try runs the tests of one function and no others', () => {
  const listed = stepsOf('MIXWATER', 'substrate')
    .filter(([, command]) => command === 'jest')
    .flatMap(([, , words]) => {
      const { stdout } = spawnSync('npx', ['jest', '--listTests', '--json', ...words], {
        cwd: ROOT,
        encoding: 'utf8',
      });
      return (JSON.parse(stdout) as string[]).map((path) => relative(ROOT, path));
    });
  expect(listed).toEqual([
    'tests/maths/substrate/waterToAdd.test.ts',
    'tests/worksheet/substrate.contract.test.ts',
    'tests/samples/calls.test.ts',
  ]);
});

test('a function names its files', () => {
  expect(filesOf('MIXWATER', 'substrate')).toEqual([
    'src/worksheet/substrate/mixWater.ts',
    'src/worksheet/substrate/mixWater.words.ts',
    'src/maths/substrate/waterToAdd.ts',
    'tests/maths/substrate/waterToAdd.test.ts',
  ]);
});
