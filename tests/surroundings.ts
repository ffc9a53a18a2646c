import { execFile } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { dirname, join, parse } from 'node:path';
import { promisify } from 'node:util';
import { buildSync } from 'esbuild';
import { cache, ROOT } from './loop/steps';

// Zones that catch different mistakes: west of Greenwich, a quarter of an hour off, a day that was left out of the
// calendar (Apia had no 30 December 2011), and a summer time of half an hour. Locales that write 1.234,5, whose small I
// has no dot, and that have digits of their own.

/** Each zone and the minutes that UTC is ahead of it on 1 January 2026. */
const ZONES = {
  UTC: 0,
  'America/Sao_Paulo': 180,
  'Asia/Kathmandu': -345,
  'Pacific/Apia': -780,
  'Australia/Lord_Howe': -660,
};
/** The zone a process starts in matters to what is worked out while its modules load. */
const STARTS = [
  ['en-US', 'UTC'],
  ['de-DE', 'Pacific/Apia'],
  ['tr-TR', 'America/Sao_Paulo'],
  ['ar-EG', 'Asia/Kathmandu'],
] as const;

/** Windows gives a process its owner's language, whatever the environment says. */
const hasOwnLocale = process.platform === 'win32';

export interface Heard {
  /** The minutes and the locale that a process finds itself in. */
  readonly surroundings: string;
  readonly answers: readonly unknown[];
}

/** A program as one script: each process would take longer to compile its files than to answer. */
export function scriptOf(program: string): string {
  const outfile = join(ROOT, cache('surroundings'), `${parse(program).name}.cjs`);
  mkdirSync(dirname(outfile), { recursive: true });
  const define = { __dirname: JSON.stringify(dirname(program)) };
  buildSync({
    entryPoints: [program],
    outfile,
    define,
    bundle: true,
    platform: 'node',
    packages: 'external',
  });
  return outfile;
}

/** What a program of the tests prints, a line for each time zone, started in each locale. */
export async function heardFrom(program: string): Promise<Heard[]> {
  const script = scriptOf(program);
  const heard = STARTS.map(async ([locale, zone]) => {
    const words = [script, ...Object.keys(ZONES)];
    const language = `${locale.replace('-', '_')}.UTF-8`;
    const env = { ...process.env, TZ: zone, LC_ALL: language, LANG: language };
    const { stdout } = await promisify(execFile)(process.execPath, words, { env, maxBuffer: 2 ** 30 });
    return stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as Heard);
  });
  return (await Promise.all(heard)).flat();
}

/** The surroundings that those lines must tell of, so that equal answers mean something. */
export const ASKED_FOR = STARTS.flatMap(([locale]) =>
  Object.values(ZONES).map((minutes) => (hasOwnLocale ? `${minutes}` : `${minutes} ${locale}`)),
);

/** What is not answered as in the first surroundings: where, and the answer there. */
export function differences([first, ...others]: readonly Heard[]): unknown[] {
  const wanted = first!.answers.map((answer) => JSON.stringify(answer));
  return others.flatMap(({ surroundings, answers }) => [
    ...(answers.length === wanted.length ? [] : [`${surroundings}: ${answers.length} answers`]),
    ...answers
      .filter((answer, n) => JSON.stringify(answer) !== wanted[n])
      .map((answer) => ({ surroundings, answer })),
  ]);
}

/** Prints, for each time zone on the command line, the surroundings and the answers there. */
export async function tell(answers: () => Promise<unknown[]>): Promise<void> {
  for (const zone of process.argv.slice(2)) {
    process.env['TZ'] = zone;
    const minutes = new Date(Date.UTC(2026, 0, 1)).getTimezoneOffset();
    const { locale } = Intl.NumberFormat().resolvedOptions();
    const surroundings = hasOwnLocale ? `${minutes}` : `${minutes} ${locale}`;
    console.log(JSON.stringify({ surroundings, answers: await answers() }));
  }
}
