import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Family } from '../../src/worksheet/constants';
import { ROOT, type Step } from './steps';

/** Jest takes every word after this one for a project: it comes last. */
const NODE = ['--verbose=false', '--selectProjects', 'node'];

const lines = (command: string, ...words: string[]): string[] =>
  spawnSync(command, words, { cwd: ROOT, encoding: 'utf8' })
    .stdout.split('\n')
    .filter((line) => line !== '');

const isThere = (path: string): boolean => existsSync(join(ROOT, path));
const textOf = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

/** The files by hand of a function, as far as they are there: definition, words, maths, and the tests of the maths. */
export function filesOf(name: string, family: Family): readonly string[] {
  const definition = readdirSync(join(ROOT, 'src/worksheet', family))
    .map((file) => `src/worksheet/${family}/${file}`)
    .find((path) => path.endsWith('.ts') && textOf(path).includes(`export const ${name} = defineFunction`));
  if (!definition) return [];
  const maths = [...textOf(definition).matchAll(/from '[./]*(maths\/[^']+)'/g)].map(([, to]) => to!);
  return [
    definition,
    definition.replace(/\.ts$/, '.words.ts'),
    ...maths.map((path) => `src/${path}.ts`),
    ...maths.map((path) => `tests/${path}.test.ts`),
  ].filter(isThere);
}

/** What `npm run try NAME` runs: a step without files to look at is left out, since a command would take all there are. */
export function stepsOf(name: string, family: Family): readonly Step[] {
  const changed = [
    ...lines('git', 'diff', '--name-only', 'HEAD'),
    ...lines('git', 'ls-files', '-o', '--exclude-standard'),
  ].filter(isThere);
  const mathsTests = filesOf(name, family).filter((path) => path.endsWith('.test.ts'));
  const steps: readonly (readonly [files: readonly string[], step: Step])[] = [
    [['.'], ['types and lint', 'oxlint', []]],
    [changed, ['format', 'oxfmt', ['--check', '--no-error-on-unmatched-pattern', ...changed]]],
    [mathsTests, ['maths', 'jest', [...mathsTests, ...NODE]]],
    [
      ['.'],
      ['contract', 'jest', [`tests/worksheet/${family}.contract.test.ts`, '-t', `^${name}\\b`, ...NODE]],
    ],
    [['.'], ['samples', 'jest', ['tests/samples/calls.test.ts', '-t', name, ...NODE]]],
  ];
  return steps.filter(([files]) => files.length > 0).map(([, step]) => step);
}
