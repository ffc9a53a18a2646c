import { spawn, spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from '@jest/globals';
import { buildSync } from 'esbuild';

// The command is bundled once. What is kept must never be older than its sources, whoever starts it when.

const ROOT = join(__dirname, '../../..');
const COMMAND = 'src/hosts/headless/command.ts';
const WORDS = 'prints every function';

/** A copy of what the command needs, with packages that are links to ours. */
let root: string;
const launcher = (): string => join(root, 'src/hosts/headless/pinset.js');
const kept = (): string[] => readdirSync(join(root, 'node_modules/.cache/pinset/command'));

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinset-'));
  for (const part of ['src', 'package.json', 'tsconfig.json']) {
    cpSync(join(ROOT, part), join(root, part), { recursive: true });
  }
  mkdirSync(join(root, 'node_modules'));
  for (const name of readdirSync(join(ROOT, 'node_modules'))) {
    if (name !== '.cache') symlinkSync(join(ROOT, 'node_modules', name), join(root, 'node_modules', name));
  }
});

afterEach(() => rmSync(root, { recursive: true }));

const help = (): string => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [launcher(), '--help'], {
    encoding: 'utf8',
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  return stdout;
};

test('a source that changed counts at once, though its length and time are as before', () => {
  expect(help()).toContain(WORDS);
  const bundle = kept();
  help();
  expect(kept()).toEqual(bundle);
  const file = join(root, COMMAND);
  const { atime, mtime } = statSync(file);
  writeFileSync(file, readFileSync(file, 'utf8').replaceAll(WORDS, WORDS.toUpperCase()));
  utimesSync(file, atime, mtime);
  expect(help()).toContain(WORDS.toUpperCase());
});

test('starts at the same time make one bundle, whole for each', async () => {
  const starts = Array.from({ length: 4 }, async () => {
    const child = spawn(process.execPath, [launcher(), 'calc', '=1+1']);
    let text = '';
    for await (const piece of child.stdout) text += String(piece);
    return text;
  });
  expect(await Promise.all(starts)).toEqual(['2\n', '2\n', '2\n', '2\n']);
  expect(kept()).toHaveLength(1);
});

test('where no bundle can be kept, the command runs from its sources', () => {
  writeFileSync(join(root, 'node_modules/.cache'), 'no folder');
  expect(help()).toContain(WORDS);
});

test('packages of which no list tells what is installed are not in the bundle', () => {
  rmSync(join(root, 'node_modules/.package-lock.json'));
  expect(help()).toContain(WORDS);
  const [bundle] = kept();
  const folder = join(root, 'node_modules/.cache/pinset/command', bundle!);
  const texts = readdirSync(folder).map((name) => readFileSync(join(folder, name), 'utf8'));
  expect(texts.some((text) => /from "fflate"/.test(text))).toBe(true);
});

test('a bundle is made of the sources, the packages and nothing else that could change unseen', () => {
  const { metafile } = buildSync({
    absWorkingDir: ROOT,
    entryPoints: [COMMAND],
    bundle: true,
    platform: 'node',
    format: 'esm',
    external: ['highs'],
    metafile: true,
    write: false,
  });
  const others = Object.keys(metafile.inputs).filter(
    (file) => !/^(src|node_modules)\/|^package\.json$/.test(file),
  );
  expect(others).toEqual([]);
});
