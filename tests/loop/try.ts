import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { described } from '../../src/worksheet/described';

// `npm run try NAME`: what one function promises, in the time of a sip of tea. Types and lint of what changed, the
// tests of its maths, its contract, and the sample workbooks that call it.

const root = join(__dirname, '../..');
const [name = ''] = process.argv.slice(2);
const definition = described.find((f) => f.name === name);
if (!definition) {
  console.error(
    `npm run try NAME: there is no function ${name || 'without a name'}; npm run docs lists new ones`,
  );
  process.exit(2);
}
const { family } = definition;

const lines = (command: string, ...words: string[]): string[] =>
  spawnSync(command, words, { cwd: root, encoding: 'utf8' })
    .stdout.split('\n')
    .filter((line) => line !== '');
const changed = [
  ...lines('git', 'diff', '--name-only', 'HEAD'),
  ...lines('git', 'ls-files', '-o', '--exclude-standard'),
].filter((path) => existsSync(join(root, path)));
const withEnding = (ending: RegExp): string[] => changed.filter((path) => ending.test(path));

/** The tests of the maths that the definition calls. */
const mathsTests = lines('git', 'grep', '-l', `export const ${name} = defineFunction`, '--', 'src/worksheet')
  .concat(
    withEnding(/^src\/worksheet\/.*\.ts$/).filter((path) =>
      readFileSync(join(root, path), 'utf8').includes(`export const ${name} =`),
    ),
  )
  .flatMap((path) =>
    [...readFileSync(join(root, path), 'utf8').matchAll(/from '[./]*maths\/([^']+)'/g)].map(
      ([, to]) => `tests/maths/${to!}.test.ts`,
    ),
  )
  .filter((path) => existsSync(join(root, path)));

const steps: readonly (readonly [what: string, command: string, words: readonly string[]])[] = [
  [
    'types',
    'tsc',
    ['-p', 'tsconfig.json', '--incremental', '--tsBuildInfoFile', 'node_modules/.cache/try.tsbuildinfo'],
  ],
  ['lint', 'eslint', ['--no-warn-ignored', ...withEnding(/\.ts$/)]],
  ['format', 'prettier', ['--check', '--ignore-unknown', ...changed]],
  ['maths', 'jest', ['--selectProjects', 'node', ...mathsTests]],
  [
    'contract',
    'jest',
    ['--selectProjects', 'node', `tests/worksheet/${family}.contract.test.ts`, '-t', `^${name}\\b`],
  ],
  ['samples', 'jest', ['--selectProjects', 'node', 'tests/samples/calls.test.ts', '-t', name]],
];

function run(what: string, command: string, words: readonly string[]): Promise<boolean> {
  if (words.length === 0 || (command === 'eslint' && words.length === 1)) return Promise.resolve(true);
  return new Promise((done) => {
    const program = spawn(join(root, 'node_modules/.bin', command), words, { cwd: root });
    let said = '';
    for (const stream of [program.stdout, program.stderr])
      stream.on('data', (part) => (said += String(part)));
    program.on('close', (code) => {
      console.log(code === 0 ? `${what}: good` : `${what}: NOT GOOD\n${said}`);
      done(code === 0);
    });
  });
}

void Promise.all(steps.map(([what, command, words]) => run(what, command, words))).then((all) => {
  process.exitCode = all.every((good) => good) ? 0 : 1;
});
