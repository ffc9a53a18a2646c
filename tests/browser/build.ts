import { build } from '../../src/hosts/excel/serve/build';
import { findBrowser } from './chromium';
import { BUILT } from './site';

/** Once before the browser tests: the pages as built for use, and a browser to open them in. */
export default async function prepare(): Promise<void> {
  findBrowser();
  await build({ env: { office: 'local' }, mode: 'production', output: BUILT });
}
