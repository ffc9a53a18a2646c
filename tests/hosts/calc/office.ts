import { execFileSync, spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { chmodSync, cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { pathToFileURL } from 'node:url';
import { extension } from '../../../src/hosts/calc/build';

/** A cell of Calc: an error by Calc's own number for it. */
export type OfficeCell = number | string | null | { readonly error: number };

/** The program that has the office's own bridge, where there is one. */
const PYTHON = ['/usr/bin/python3', 'python3'].find(
  (program) => spawnSync(program, ['-c', 'import uno']).status === 0,
);

export const isInstalled = PYTHON !== undefined && spawnSync('soffice', ['--version']).status === 0;

/** The office's tool for extensions refuses to be run by root. */
const AS_USER = process.getuid?.() === 0 ? ['runuser', '-u', 'nobody', '--'] : [];

/** A running office with Pinset's extension in a fresh profile of its own. */
export class Office {
  private readonly lines: AsyncIterator<string>;

  private constructor(
    readonly folder: string,
    private readonly driver: ChildProcess,
  ) {
    this.lines = createInterface({ input: driver.stdout! })[Symbol.asyncIterator]();
  }

  static async start(): Promise<Office> {
    const folder = mkdtempSync(join(tmpdir(), 'pinset-calc-'));
    writeFileSync(join(folder, 'pinset.oxt'), await extension());
    cpSync(join(__dirname, 'drive.py'), join(folder, 'drive.py'));
    chmodSync(folder, 0o777);
    const profile = pathToFileURL(join(folder, 'profile')).href;
    // On a busy machine a plan takes longer than a window should wait.
    const settings = [`HOME=${folder}`, 'PINSET_PLAN_SECONDS=120'];
    const run = (...words: string[]): string[] => [...AS_USER, 'env', ...settings, ...words];
    const [program, ...words] = run(
      'unopkg',
      'add',
      join(folder, 'pinset.oxt'),
      `-env:UserInstallation=${profile}`,
    );
    execFileSync(program!, words, { stdio: 'pipe' });
    const [driver, ...its] = run(PYTHON!, join(folder, 'drive.py'), profile, `pinset${process.pid}`);
    return new Office(folder, spawn(driver!, its, { stdio: ['pipe', 'pipe', 'ignore'] }));
  }

  async ask<T = unknown>(question: object): Promise<T> {
    this.driver.stdin!.write(`${JSON.stringify(question)}\n`);
    const next = await this.lines.next();
    if (next.done === true) throw new Error('the office has ended');
    const answer = JSON.parse(next.value) as { is?: T; fault?: string };
    if (answer.fault !== undefined) throw new Error(answer.fault);
    return answer.is!;
  }

  async end(): Promise<void> {
    const ended = new Promise((resolve) => this.driver.once('exit', resolve));
    this.driver.stdin!.end();
    await ended;
    rmSync(this.folder, { recursive: true, force: true });
  }
}
