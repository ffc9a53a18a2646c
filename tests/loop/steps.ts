import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';

export const ROOT = join(__dirname, '../..');
/** Where a command keeps what it found last time: `npm ci` clears it. */
export const cache = (name: string): string => join('node_modules/.cache/pinset', name);

/** A command of this project's packages, under the name that its outcome is told with. */
export type Step = readonly [what: string, command: string, words: readonly string[]];

/** Runs a step and tells its outcome; what it says itself only where it fails. */
export function ran([what, command, words]: Step): Promise<boolean> {
  const start = performance.now();
  return new Promise((done) => {
    const program = spawn(join(ROOT, 'node_modules/.bin', command), words, { cwd: ROOT });
    let said = '';
    for (const stream of [program.stdout, program.stderr])
      stream.on('data', (part) => (said += String(part)));
    program.on('close', (code) => {
      const seconds = ((performance.now() - start) / 1000).toFixed(0);
      console.log(
        `${what}: ${code === 0 ? 'good' : 'NOT GOOD'} (${seconds} s)${code === 0 ? '' : `\n${said}`}`,
      );
      done(code === 0);
    });
  });
}

/** Runs steps in their order, on each core one at a time. Ends the process with 1 where one fails. */
export async function allRan(steps: readonly Step[]): Promise<void> {
  const waiting = [...steps];
  const core = async (): Promise<boolean> => {
    const step = waiting.shift();
    if (!step) return true;
    const good = await ran(step);
    return (await core()) && good;
  };
  const outcomes = await Promise.all(Array.from({ length: availableParallelism() }, core));
  process.exitCode = outcomes.every((good) => good) ? 0 : 1;
}
