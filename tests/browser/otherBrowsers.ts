import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from '../../src/hosts/excel/serve/build';
import { described } from '../../src/worksheet/described';
import { exampleGrid } from '../../src/worksheet/examples';
import { BUILT, serveBuilt } from './site';

// The pages in Firefox and WebKit, off `npm test`: `npm run browsers`, on Debian after
// `apt-get install firefox-esr webkit2gtk-driver xvfb`. Both are driven by the W3C's WebDriver, WebKit over its own
// server, Firefox over the port that it opens itself (Marionette).

interface Driven {
  readonly go: (url: string) => Promise<unknown>;
  /** Runs a script, a function's body, in the page. */
  readonly run: (body: string) => Promise<unknown>;
  readonly close: () => void;
}

const pause = (milliseconds: number): Promise<void> => new Promise((done) => setTimeout(done, milliseconds));

/** Tries until it works: a program takes a moment to listen. */
async function patiently<T>(once: () => Promise<T>): Promise<T> {
  for (let tries = 0; ; tries++) {
    try {
      return await once();
    } catch (fault) {
      if (tries > 60) throw fault;
      await pause(500);
    }
  }
}

const asynchronous = (body: string): string =>
  `const done = arguments[arguments.length - 1];
   (async () => { ${body} })().then((found) => done(JSON.stringify(found ?? null)), (fault) => done(JSON.stringify(String(fault))));`;

async function firefox(): Promise<Driven> {
  const profile = mkdtempSync(path.join(tmpdir(), 'pinset-firefox-'));
  const words = ['--headless', '--no-remote', '--marionette', '--profile', profile];
  const program = spawn('firefox-esr', words, { stdio: 'ignore', env: { ...process.env, HOME: profile } });
  const socket = await patiently(
    () =>
      new Promise<ReturnType<typeof connect>>((ready, fail) => {
        const trying = connect(2828, '127.0.0.1', () => ready(trying)).once('error', fail);
      }),
  );
  let [held, number] = [Buffer.alloc(0), 0];
  const waiting = new Map<number, (answer: [unknown, unknown]) => void>();
  // Each message is its length, a colon and a list: kind, number, fault, result.
  socket.on('data', (more) => {
    held = Buffer.concat([held, Buffer.from(more)]);
    for (let colon = held.indexOf(':'); colon > 0; colon = held.indexOf(':')) {
      const end = colon + 1 + Number(held.subarray(0, colon).toString());
      if (held.length < end) return;
      const message = JSON.parse(held.subarray(colon + 1, end).toString()) as unknown;
      held = held.subarray(end);
      if (Array.isArray(message)) waiting.get(message[1] as number)?.([message[2], message[3]]);
    }
  });
  const tell = (command: string, parameters: object): Promise<unknown> =>
    new Promise((found, fail) => {
      const text = JSON.stringify([0, ++number, `WebDriver:${command}`, parameters]);
      waiting.set(number, ([fault, result]) =>
        fault ? fail(new Error(JSON.stringify(fault))) : found(result),
      );
      socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
  await pause(500);
  await tell('NewSession', {});
  await tell('SetTimeouts', { script: 60_000 });
  return {
    go: (url) => tell('Navigate', { url }),
    run: async (body) => {
      const script = asynchronous(body);
      const { value } = (await tell('ExecuteAsyncScript', { script, args: [] })) as { value: string };
      return JSON.parse(value) as unknown;
    },
    close: () => (socket.destroy(), program.kill()),
  };
}

const MINI_BROWSER = ['x86_64', 'aarch64']
  .map((machine) => `/usr/lib/${machine}-linux-gnu/webkit2gtk-4.1/MiniBrowser`)
  .find((file) => existsSync(file));

async function webkit(): Promise<Driven> {
  if (!MINI_BROWSER) throw new Error('WebKit’s own small browser is not installed');
  const [display, port] = [':97', 9444];
  const programs: ChildProcess[] = [spawn('Xvfb', [display], { stdio: 'ignore' })];
  const surroundings = { DISPLAY: display, WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1' };
  programs.push(
    spawn('WebKitWebDriver', [`--port=${port}`], {
      stdio: 'ignore',
      env: { ...process.env, ...surroundings },
    }),
  );
  const tell = async (at: string, body: object): Promise<unknown> => {
    const response = await fetch(`http://127.0.0.1:${port}${at}`, {
      method: 'POST',
      body: JSON.stringify(body),
    });
    const { value } = (await response.json()) as { value: unknown };
    if (!response.ok) throw new Error(JSON.stringify(value));
    return value;
  };
  const options = { binary: MINI_BROWSER, args: ['--automation'] };
  const capabilities = { alwaysMatch: { 'webkitgtk:browserOptions': options } };
  const session = await patiently(() => tell('/session', { capabilities }));
  const at = `/session/${(session as { sessionId: string }).sessionId}`;
  await tell(`${at}/timeouts`, { script: 60_000 });
  return {
    go: (url) => tell(`${at}/url`, { url }),
    run: async (body) =>
      JSON.parse(
        (await tell(`${at}/execute/async`, { script: asynchronous(body), args: [] })) as string,
      ) as unknown,
    close: () => programs.reverse().forEach((program) => program.kill()),
  };
}

const until = (condition: string): string =>
  `for (let n = 0; n < 200 && !(${condition}); n++) await new Promise((done) => setTimeout(done, 100));`;
const mix = described.find(({ name }) => name === 'CHEAPESTMIX')!.examples[0]!;
const given = JSON.stringify(mix.arguments.map(exampleGrid));
const HANDLERS = 'CustomFunctions._association.mappings';

/** What is asked of each page, and what it must answer. The worker and its WebAssembly work out the mix. */
const CHECKS: readonly (readonly [page: string, what: string, body: string, expected: unknown])[] = [
  [
    'guide.html',
    'functions in the guide',
    "return document.querySelectorAll('article[id]').length",
    described.length,
  ],
  ['taskpane.html', 'functions for Excel', `return Object.keys(${HANDLERS}).length`, described.length],
  [
    'taskpane.html',
    'a dew point',
    `return ${HANDLERS}.DEWPOINT([[18]], [[0.9]], {})[0][0].toFixed(1)`,
    '16.3',
  ],
  [
    'taskpane.html',
    'a mix solved in a worker, against no rule of the policy',
    `let broken = 0; addEventListener('securitypolicyviolation', () => broken++);
     const answer = await ${HANDLERS}.CHEAPESTMIX(...${given}, {}); return [answer[0][0], broken]`,
    ['what', 0],
  ],
  [
    'taskpane.html',
    'the pane',
    `${until("document.querySelector('.functions')")} return document.querySelectorAll('.functions b').length`,
    described.length,
  ],
  [
    'workbench.html',
    'the farm’s workbook',
    `${until("document.querySelectorAll('#tabs button').length > 1")}
     return [document.getElementById('file').textContent, document.querySelectorAll('#grid canvas').length]`,
    ['farm-book.xlsx', 1],
  ],
];

async function main(): Promise<void> {
  await build({ env: { office: 'local' }, mode: 'production', output: BUILT });
  const server = await serveBuilt();
  for (const open of [firefox, webkit]) {
    const browser = await open();
    console.log(await browser.run('return navigator.userAgent').catch(() => open.name));
    for (const [page, what, body, expected] of CHECKS) {
      await browser.go(`${server.url}${page}`);
      const found = await browser.run(body);
      const isRight = JSON.stringify(found) === JSON.stringify(expected);
      if (!isRight) process.exitCode = 1;
      console.log(`  ${isRight ? 'right' : `WRONG, ${JSON.stringify(found)}`}  ${page}: ${what}`);
    }
    browser.close();
  }
  await server.close();
}

void main();
