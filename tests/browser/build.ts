import { writeFileSync } from 'node:fs';
import { build } from '../../src/hosts/excel/serve/build';
import { findBrowser } from './chromium';
import { inBundles } from '../licences/shipped';
import { BUILT, IN_BUNDLES } from './site';

/** Once before the browser tests: the pages as built for use, and a browser to open them in. */
export default async function prepare(): Promise<void> {
  findBrowser();
  const stats = await build({ env: { office: 'local' }, mode: 'production', output: BUILT });
  writeFileSync(IN_BUNDLES, JSON.stringify(inBundles(stats)));
}
