import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { expect, test } from '@jest/globals';

// The grid of the workbench asks for Node 22 by its package, and calls what Node 20 lacks (`Object.groupBy`): a browser
// has to run it, never Node.
test.each([
  ['the command', 'headless/command.ts'],
  ['the engine that Calc asks', 'calc/engine.ts'],
])('%s loads nothing of the workbench’s grid', (_what, file) => {
  const { outputFiles } = buildSync({
    entryPoints: [join(__dirname, '../../../src/hosts', file)],
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    write: false,
  });
  const loaded = [...outputFiles[0]!.text.matchAll(/(?:from |import\()"([^"]+)"/g)].map(([, name]) => name!);
  expect(loaded).toEqual(expect.arrayContaining(['fflate', 'highs']));
  expect(loaded.filter((name) => name.startsWith('@odoo/'))).toEqual([]);
});
