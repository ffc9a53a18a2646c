#!/usr/bin/env node
// Starts the command.
const { join } = require('node:path');
const { bundled } = require('./bundled.js');

// Reading no further, as `head` does, is no fault.
process.stdout.on('error', ({ code }) => process.exit(code === 'EPIPE' ? 0 : 2));

/** The command, from a bundle where one can be kept; else tsx reads the TypeScript, which takes three times as long. */
async function command() {
  const file = bundled();
  if (file !== undefined) return import(file);
  process.env.TSX_TSCONFIG_PATH = join(__dirname, '../../../tsconfig.json');
  await import('tsx');
  return require('./command.ts');
}

void (async () => {
  const { run } = await command();
  process.exitCode = await run(process.argv.slice(2), {
    out: (line) => process.stdout.write(`${line}\n`),
    error: (line) => process.stderr.write(`${line}\n`),
  });
})();
