#!/usr/bin/env node
// The command runs from source: tsx reads the TypeScript, by this project's own settings wherever it is called from.
const { join } = require('node:path');

process.env.TSX_TSCONFIG_PATH = join(__dirname, '../../../tsconfig.json');

// Reading no further, as `head` does, is no fault.
process.stdout.on('error', ({ code }) => process.exit(code === 'EPIPE' ? 0 : 2));

void (async () => {
  await import('tsx');
  const { run } = require('./command.ts');
  process.exitCode = await run(process.argv.slice(2), {
    out: (line) => process.stdout.write(`${line}\n`),
    error: (line) => process.stderr.write(`${line}\n`),
  });
})();
