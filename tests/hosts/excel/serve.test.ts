import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import http from 'node:http';
import https from 'node:https';
import { networkInterfaces, tmpdir } from 'node:os';
import path from 'node:path';
import { localhostCertificate } from '../../../src/hosts/excel/serve/certificate';
import { serve, type RunningServer } from '../../../src/hosts/excel/serve/staticServer';

const folder = mkdtempSync(path.join(tmpdir(), 'pinset-serve-'));
const root = path.join(folder, 'root');
let server: RunningServer;

beforeAll(async () => {
  mkdirSync(path.join(folder, 'office'), { recursive: true });
  mkdirSync(root);
  writeFileSync(path.join(root, 'home.html'), '<p>home</p>');
  writeFileSync(path.join(folder, 'office', 'office.js'), '// office');
  writeFileSync(path.join(folder, 'secret.txt'), 'secret');
  server = await serve({ root, beside: { office: path.join(folder, 'office') }, home: 'home.html' });
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

/** The status and body of a request whose path is sent exactly as written. */
function ask(url: string, options: https.RequestOptions = {}): Promise<{ status: number; body: string }> {
  return new Promise((resolve, reject) => {
    const { hostname, port, protocol } = new URL(url);
    const module = protocol === 'https:' ? https : http;
    const request = module.request({ hostname, port, ...options }, (response) => {
      let body = '';
      response.on('data', (part: Buffer) => (body += part.toString()));
      response.on('end', () => resolve({ status: response.statusCode!, body }));
    });
    request.on('error', reject).end();
  });
}

describe('the static server', () => {
  test.each([
    ['the home page at /', '/', 200, '<p>home</p>'],
    ['a file', '/home.html?version=2', 200, '<p>home</p>'],
    ['a file of a folder offered beside', '/office/office.js', 200, '// office'],
    ['nothing for a file that is not there', '/other.html', 404, 'Not Found'],
    ['nothing for a folder', '/office', 404, 'Not Found'],
    ['nothing above its folders', '/..%2fsecret.txt', 404, 'Not Found'],
    ['nor above one beside', '/office/..%2fsecret.txt', 404, 'Not Found'],
    ['a refusal for a path that cannot be read', '/%E0%A4%A', 400, 'Bad Request'],
  ])('gives %s', async (_what, asked, status, body) => {
    expect(await ask(server.url, { path: asked })).toEqual({ status, body });
  });

  test('cannot be reached but by this machine’s own name', async () => {
    const { port } = new URL(server.url);
    const others = Object.values(networkInterfaces())
      .flat()
      .filter((one) => one?.family === 'IPv4' && !one.internal)
      .map((one) => one!.address);
    for (const address of ['127.0.0.2', ...others]) {
      await expect(ask(`http://${address}:${port}/`, { timeout: 5000 })).rejects.toThrow();
    }
    expect((await ask(`http://127.0.0.1:${port}/`, { path: '/' })).status).toBe(200);
  });

  // "Server settings on the server that hosts the JSON file must have CORS enabled" (the vendor's page on metadata).
  test('lets a page of Excel on the web read its files', async () => {
    const { headers } = await fetch(`${server.url}home.html`);
    expect(headers.get('Access-Control-Allow-Origin')).toBe('*');
  });

  // A file that opens and then cannot be read, as one does that is taken away meanwhile; elsewhere than on Linux there is
  // none, and the answer is that.
  test('outlives a file that fails while it is read', async () => {
    const other = await serve({ root: '/proc/self', home: 'environ' });
    await ask(other.url, { path: '/mem', timeout: 5000 }).catch(() => undefined);
    expect((await ask(other.url, { path: '/none' })).status).toBe(404);
    await other.close();
  });
  test('says of a file what it is without sending it', async () => {
    const { status, headers } = await fetch(`${server.url}home.html`, { method: 'HEAD' });
    expect([status, headers.get('Content-Length')]).toEqual([200, '11']);
  });

  test('takes no uploads', async () => {
    expect(await ask(server.url, { path: '/home.html', method: 'POST' })).toMatchObject({ status: 405 });
  });
});

test('the certificate it makes is accepted where its authority is trusted, kept, and refused elsewhere', async () => {
  const certificates = path.join(folder, 'certificates');
  const made = await localhostCertificate(certificates);
  const kept = await localhostCertificate(certificates);
  expect(kept.cert.equals(made.cert)).toBe(true);
  const secure = await serve({ root, home: 'home.html', certificate: made });
  const ca = readFileSync(made.authority);
  expect(secure.url).toMatch(/^https:/);
  expect(await ask(secure.url, { path: '/', ca })).toEqual({ status: 200, body: '<p>home</p>' });
  await expect(ask(secure.url, { path: '/' })).rejects.toThrow(/certificate/);
  await secure.close();
});
