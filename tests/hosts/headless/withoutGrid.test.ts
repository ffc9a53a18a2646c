import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { expect, test } from '@jest/globals';

// The grid of the workbench and the pane's controls ask for Node 22 by their packages, and the grid calls what Node 20
// lacks (`Object.groupBy`): a browser has to run them, never Node.
test.each([
  ['the command', 'headless/command.ts'],
  ['the engine that Calc asks', 'calc/engine.ts'],
])('%s loads nothing of the workbench’s grid and the pane’s controls', (_what, file) => {
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
  expect(loaded.filter((name) => /^@(odoo|fluentui|microsoft)\//.test(name))).toEqual([]);
});
