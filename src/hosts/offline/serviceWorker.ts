// What a browser runs beside the pages: it keeps their own files, and nothing of what a grower typed or opened. With a
// network every file comes from the server, as it would without; only what does not come is taken from the kept ones.

/** Set by the build before this script: what it is called, and which files each group of pages needs. */
declare const PINSET_BUILD: {
  readonly version: string;
  readonly files: { readonly workbench: readonly string[]; readonly guide: readonly string[] };
};

interface Waits extends Event {
  waitUntil(done: Promise<unknown>): void;
}
interface Fetches extends Event {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}
declare const registration: ServiceWorkerRegistration;

const group = registration.scope.endsWith('/workbench') ? 'workbench' : 'guide';
const KEPT = `pinset ${group} `;
const kept = KEPT + PINSET_BUILD.version;

/** All or nothing: a build that did not come whole leaves the one before in place. */
const keep = async (): Promise<void> => {
  const files = PINSET_BUILD.files[group].map((file) => new Request(file, { cache: 'no-cache' }));
  await (await caches.open(kept)).addAll(files);
};

/** Once no page of the build before is open. */
const forgetOlder = async (): Promise<void> => {
  const older = (await caches.keys()).filter((name) => name.startsWith(KEPT) && name !== kept);
  await Promise.all(older.map((name) => caches.delete(name)));
};

async function answerTo(request: Request): Promise<Response> {
  const fromKept = async (): Promise<Response | undefined> =>
    (await caches.open(kept)).match(request, { ignoreSearch: true });
  try {
    const response = await fetch(request);
    // A page that was open through an update still asks for files that the server no longer has.
    return response.status < 400 ? response : ((await fromKept()) ?? response);
  } catch (fault) {
    const file = await fromKept();
    if (file) return file;
    throw fault;
  }
}

addEventListener('install', (event) => (event as Waits).waitUntil(keep()));
addEventListener('activate', (event) => (event as Waits).waitUntil(forgetOlder()));
addEventListener('fetch', (event) => {
  const { request } = event as Fetches;
  const isOwn = new URL(request.url).origin === location.origin;
  if (request.method === 'GET' && isOwn) (event as Fetches).respondWith(answerTo(request));
});

export {};
