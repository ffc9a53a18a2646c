// The command as JavaScript, made once of its sources and again when they change.
const { createHash } = require('node:crypto');
const { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync } = require('node:fs');
const { join } = require('node:path');
const { pathToFileURL } = require('node:url');

const ROOT = join(__dirname, '../../..');
const KEPT = join(ROOT, 'node_modules/.cache/pinset/command');
/** npm's own list of what it has installed. */
const INSTALLED = join(ROOT, 'node_modules/.package-lock.json');
const HOUR = 3_600_000;

/** The address of a bundle of the sources as they are now; undefined where none can be kept. */
function bundled() {
  try {
    const state = stateOfSources();
    const command = join(KEPT, state, 'command.mjs');
    if (!existsSync(command)) make(state);
    return pathToFileURL(command).href;
  } catch {
    return undefined;
  }
}

/** Tells all that a bundle is made of by what it holds: a time may be the same for two versions of a file. */
function stateOfSources() {
  const sources = readdirSync(join(ROOT, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name));
  const state = createHash('sha256');
  for (const file of [...sources, join(ROOT, 'package.json'), join(ROOT, 'tsconfig.json'), INSTALLED]) {
    if (!existsSync(file)) continue;
    const bytes = readFileSync(file);
    state.update(`${file}\n${bytes.length}\n`).update(bytes);
  }
  return state.digest('hex').slice(0, 32);
}

/** Makes a bundle aside and puts it in its place in one step: another start may be making the same. */
function make(state) {
  const folder = join(KEPT, state);
  const aside = `${folder}.${process.pid}`;
  try {
    require('esbuild').buildSync({
      entryPoints: [join(__dirname, 'command.ts')],
      outdir: aside,
      outExtension: { '.js': '.mjs' },
      bundle: true,
      splitting: true,
      platform: 'node',
      target: 'node20',
      format: 'esm',
      tsconfig: join(ROOT, 'tsconfig.json'),
      // The solver finds its own file beside it. Packages of which no list tells what is installed stay where they are.
      ...(existsSync(INSTALLED) ? { external: ['highs'] } : { packages: 'external' }),
      logLevel: 'silent',
    });
    if (stateOfSources() !== state) throw new Error('the sources changed meanwhile');
    renameSync(aside, folder);
  } catch (fault) {
    rmSync(aside, { recursive: true, force: true });
    if (!existsSync(folder)) throw fault;
  }
  for (const other of readdirSync(KEPT).map((name) => join(KEPT, name))) {
    // One that is newer may be running.
    const made = statSync(other, { throwIfNoEntry: false })?.mtimeMs;
    if (Date.now() - made > HOUR) rmSync(other, { recursive: true, force: true });
  }
}

module.exports = { bundled };
