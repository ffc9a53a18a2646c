import { readFileSync } from 'node:fs';
import path from 'node:path';
import { buildAndWatch, DIST } from './build';
import { localhostCertificate, trust, trustSteps } from './certificate';
import { handSteps, OPEN_STEPS, sideload } from './sideload';
import { OFFICE_FOLDER, serve } from './staticServer';

/** The port of the address in manifest.xml. */
const PORT = 3000;

/** `npm run excel`: the add-in served to the Excel of this machine, rebuilt when a source changes. */
async function excel(): Promise<void> {
  console.log('Building the add-in …');
  await buildAndWatch({ mode: 'development' });
  const { authority, ...certificate } = await localhostCertificate();
  const { url } = await serve(
    { root: DIST, beside: { office: OFFICE_FOLDER }, home: 'taskpane.html', certificate },
    PORT,
  );
  console.log(`The add-in is at ${url} (only this machine can reach it; Ctrl+C ends it).\n`);
  if (!(await trust(authority))) console.log(`${trustSteps(authority)}\n`);
  const manifest = path.join(DIST, 'manifest.xml');
  const id = /<Id>(.*)<\/Id>/.exec(readFileSync(manifest, 'utf8'))![1]!;
  const steps = sideload(manifest, id) ? [OPEN_STEPS] : ['To use it in Excel:', ...handSteps(manifest)];
  console.log(steps.join('\n'));
}

excel().catch((error: NodeJS.ErrnoException) => {
  const taken = `Port ${PORT} is in use: end what uses it (another "npm run excel"?) and run this again.`;
  console.error(error.code === 'EADDRINUSE' ? taken : error.message);
  process.exit(1);
});
