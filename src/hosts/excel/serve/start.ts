import { buildAndWatch, DIST } from './build';
import { openInBrowser } from './openInBrowser';
import { OFFICE_FOLDER, serveNear } from './staticServer';

/** `npm start`: the workbench on this machine, rebuilt when a source changes. */
async function start(): Promise<void> {
  console.log('Building the workbench …');
  await buildAndWatch({ mode: 'development', env: { namespace: 'PINSET' } });
  const { url } = await serveNear(
    { root: DIST, beside: { office: OFFICE_FOLDER }, home: 'workbench.html' },
    8080,
  );
  console.log(`The workbench is at ${url} (only this machine can reach it; Ctrl+C ends it).`);
  openInBrowser(url);
}

start().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
