import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, ROOT } from '../../src/hosts/excel/serve/build';
import { inBundles } from '../licences/shipped';
import { findBrowser } from './chromium';
import { BUILT, IN_BUNDLES } from './site';

/** What the pages are made of. */
const SOURCES = [
  'src',
  'sample-workbooks',
  'manifest.xml',
  'webpack.config.js',
  'tsconfig.json',
  'package-lock.json',
];

/** When a file or anything in a folder was last written, added, removed or renamed. */
function lastChange(place: string): number {
  const { mtimeMs, ctimeMs } = statSync(place);
  const within = statSync(place).isDirectory() ? readdirSync(place) : [];
  return Math.max(mtimeMs, ctimeMs, ...within.map((name) => lastChange(join(place, name))));
}

const builtSince = (change: number): boolean =>
  existsSync(BUILT) && existsSync(IN_BUNDLES) && statSync(IN_BUNDLES).mtimeMs > change;

/** Before the browser tests: the pages as built for use, unless they are, and a browser to open them in. */
export default async function prepare(): Promise<void> {
  findBrowser();
  if (builtSince(Math.max(...SOURCES.map((place) => lastChange(join(ROOT, place)))))) return;
  const stats = await build({ env: { office: 'local' }, mode: 'production', output: BUILT });
  writeFileSync(IN_BUNDLES, JSON.stringify(inBundles(stats)));
}
