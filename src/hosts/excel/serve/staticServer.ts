import { promises as files } from 'node:fs';
import http from 'node:http';
import https from 'node:https';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';

/** The vendor's library as its npm package ships it: what pages load while developing and testing. */
export const OFFICE_FOLDER = path.join(
  path.dirname(require.resolve('@microsoft/office-js/package.json')),
  'dist',
);

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.xml': 'application/xml; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.wasm': 'application/wasm',
  '.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
};

export interface Served {
  /** What `/` is the start of. */
  readonly root: string;
  /** Folders offered under a further path: `office` → where it lies. */
  readonly beside?: Readonly<Record<string, string>>;
  /** The page shown at `/`. */
  readonly home: string;
  readonly certificate?: { readonly cert: Buffer; readonly key: Buffer };
}

export interface RunningServer {
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** The file a request asks for, or undefined where it points outside the folders offered. */
function fileOf({ root, beside = {}, home }: Served, pathname: string): string | undefined {
  const asked = pathname === '/' ? home : pathname.slice(1);
  const [first = '', ...rest] = asked.split('/');
  const folder = path.resolve(beside[first] ?? root);
  const file = path.resolve(folder, beside[first] === undefined ? asked : rest.join('/'));
  return file.startsWith(folder + path.sep) ? file : undefined;
}

async function answer(
  served: Served,
  request: http.IncomingMessage,
  response: http.ServerResponse,
): Promise<void> {
  const refuse = (status: number): void => {
    response.writeHead(status, { 'Content-Type': 'text/plain' }).end(http.STATUS_CODES[status]);
  };
  if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405);
  let pathname: string;
  try {
    pathname = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
  } catch {
    return refuse(400);
  }
  const file = fileOf(served, pathname);
  const found = file === undefined ? undefined : await files.stat(file).catch(() => undefined);
  if (file === undefined || !found?.isFile()) return refuse(404);
  const headers = {
    'Content-Type': TYPES[path.extname(file)] ?? 'application/octet-stream',
    'Content-Length': found.size,
    'Cache-Control': 'no-cache',
    'X-Content-Type-Options': 'nosniff',
    // Excel on the web reads functions.json from its own address (the vendor's page on metadata of functions).
    'Access-Control-Allow-Origin': '*',
  };
  if (request.method === 'HEAD') {
    response.writeHead(200, headers).end();
    return undefined;
  }
  // Opened before anything is answered: a build may take the file away meanwhile.
  const opened = await files.open(file).catch(() => undefined);
  if (!opened) return refuse(404);
  return pipeline(opened.createReadStream(), response.writeHead(200, headers));
}

/**
 * Serves files on this machine's own loopback address only. Port 0 takes any free one.
 * @throws the system's error (`EADDRINUSE`) where the port is taken.
 */
export async function serve(served: Served, port = 0): Promise<RunningServer> {
  const listener: http.RequestListener = (request, response) => {
    answer(served, request, response).catch(() => response.destroy());
  };
  const server = served.certificate
    ? https.createServer(served.certificate, listener)
    : http.createServer(listener);
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', resolve);
  });
  const taken = (server.address() as AddressInfo).port;
  return {
    url: `${served.certificate ? 'https' : 'http'}://localhost:${taken}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/** Serves on the first free port from `port` on. */
export async function serveNear(served: Served, port: number): Promise<RunningServer> {
  for (let next = port; next < port + 20; next++) {
    try {
      return await serve(served, next);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
    }
  }
  return serve(served);
}
