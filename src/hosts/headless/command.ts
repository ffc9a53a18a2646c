import { parseArgs } from 'node:util';

import { oneLine, safeLine } from './terminal';

/** Where a command's lines go. */
export interface Output {
  readonly out: (line: string) => void;
  readonly error: (line: string) => void;
}

/** 0: all is well. 1: a formula faults. 2: what was asked cannot be done. */
export type Status = 0 | 1 | 2;

/** Something asked that cannot be done, in one sentence. */
export class CommandFault extends Error {}

const STATUS = `Exit status: 0 when no Pinset formula faults, 1 when some do or cannot be calculated, 2 when a file or a
command cannot be read.`;

const HELP = {
  calc: `pinset calc FORMULA [--json]

Calculates one formula and prints what it gives, a table as lines of cells with tabs between them:

    pinset calc '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)'

    --json            prints one object instead

${STATUS}`,
  recalc: `pinset recalc FILE.xlsx [--out RESULT.xlsx [--values]] [--changed] [--json]

Calculates a workbook and prints one line per Pinset formula: its cell, a tab, the formula, a tab, its result. Where
rows fault, the line tells how many, in which cells, and why.

    --out RESULT.xlsx writes the workbook with the new results and changes nothing else
    --values          with --out: writes results in place of Pinset's formulas, for people without them
    --changed         someone changed the file outside a spreadsheet program: its stored results may be old
    --json            prints one object per line: each Pinset formula, each formula that keeps its stored result or
                      depends on one that does, and a summary at the end

Other formulas are first tried with what the file stores. One that does not give the file's own result keeps it, and
the command names it, and whatever depends on it, on standard error.

${STATUS}`,
  fit: `pinset fit FILE.xlsx [--job ready|plan|audit|mix] [--answers FILE.json] [--out RESULT.xlsx] [--template] [--json]

Fits a job to a workbook of your own, whatever its sheets and headers are called. It prints which part of which sheet
serves for what, with five of your own records as evidence, every cell that cannot be read, and what only you can know.
Once nothing is open it prints the formulas and what they give.

    --job ready       which lots are ready?
    --job plan        plan my loading
    --job audit       what came off, and what cannot be right?
    --job mix         weigh out a mix
                      without a job: what the workbook has for each, a few lines a job
    --answers FILE    what you know, as JSON: see below
    --out RESULT.xlsx writes the workbook with the formulas on sheets of their own, everything else as it was
    --template        prints answers to fill in, what is known put in; "?" is still open
    --json            prints one object per line instead

The answers are one object; each part may be left out. What an earlier fit wrote into the workbook is remembered.

    {
      "tables":   { "lots": "'Grow log'!A4:H13" },           the part that serves; a sheet's name where it is the only one
      "columns":  { "lots": { "inoculated": "Date inoc" } },  the header of a column; null where none holds it
      "dates":    { "lots, inoculated": "month first" },      or day first, or year first
      "years":    { "harvests, date": 2026 },                the year of dates that are written without one
      "decimals": { "orders, mass": "comma" },                or point: what begins the decimals of 1,250
      "blanks":   { "orders, due": "as above" },              or blank: what a blank below a filled cell means
      "products": { "Shiitake": ["Alder-3", "Birch-1"] },     the strains that orders call by a product
      "fill":     { "rooms": [{ "room": "North", "shelves": 10, "blocks per shelf": 12 }] },
      "rows":     { "lots": { "Status": ["resting", "blank"] } },  the words of the rows that count
      "lost":     { "lots": { "Casualties": "gone" } },       or not gone: whether blocks under a header no longer count
      "leaveOut": { "lots": true },                           plan: leaves out, and counts, what cannot be read
      "figures":  { "today": "2026-03-30", "days": 28 }        the day it is for, else today; mix: blocks, block mass …
    }

Exit status: 0 when all is read and nothing faults, 1 when a question is open, a cell cannot be read or a formula
faults, 2 when a file or a command cannot be read.`,
  list: `pinset list [--json]

Prints every function of Pinset: how it is called, a tab, what it gives.

    --json            prints one object per line, with each argument and the sources

Exit status: 0, or 2 when the command cannot be read.`,
} as const;

const USAGE = `pinset calc FORMULA          calculates one formula: pinset calc '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)'
pinset recalc FILE.xlsx      calculates a workbook and prints one line per Pinset formula
pinset fit FILE.xlsx         finds what your own sheets can answer, and writes the formulas
pinset list                  prints every function
pinset COMMAND --help        tells what a command takes

${STATUS}`;

const OPTIONS = {
  calc: { json: { type: 'boolean' }, help: { type: 'boolean' } },
  recalc: {
    out: { type: 'string' },
    values: { type: 'boolean' },
    changed: { type: 'boolean' },
    json: { type: 'boolean' },
    help: { type: 'boolean' },
  },
  fit: {
    job: { type: 'string' },
    answers: { type: 'string' },
    out: { type: 'string' },
    template: { type: 'boolean' },
    json: { type: 'boolean' },
    help: { type: 'boolean' },
  },
  list: { json: { type: 'boolean' }, help: { type: 'boolean' } },
} as const;

/** Runs the command with these words. Never throws. */
export async function run(words: readonly string[], output: Output): Promise<Status> {
  const loud = silenced();
  const safe: Output = {
    out: (line) => output.out(safeLine(line)),
    error: (line) => output.error(safeLine(line)),
  };
  try {
    return await dispatch(words, safe);
  } catch (fault) {
    safe.error(`pinset: ${oneLine(fault instanceof Error ? fault.message : String(fault))}`);
    return 2;
  } finally {
    loud();
  }
}

const CONSOLE = ['log', 'info', 'warn', 'error', 'debug', 'trace'] as const;

/** Keeps whatever a library prints out of the command's own lines, until the function it gives is called. */
function silenced(): () => void {
  const before = { ...console };
  for (const name of CONSOLE) console[name] = () => undefined;
  return () => {
    Object.assign(console, before);
  };
}

/** Each command loads only what it needs: the engine is large. */
async function dispatch([command, ...words]: readonly string[], output: Output): Promise<Status> {
  switch (command) {
    case 'calc': {
      const { values, positionals } = parsed('calc', words);
      if (values.help === true) return told(HELP.calc, output);
      const { calc } = await import('./calc');
      return calc(only(positionals, 'one formula in quotes'), values.json === true, output);
    }
    case 'recalc': {
      const { values, positionals } = parsed('recalc', words);
      if (values.help === true) return told(HELP.recalc, output);
      const { out, values: asValues = false, changed = false, json = false } = values;
      const { recalc } = await import('./recalc');
      return recalc(only(positionals, 'one file'), { out, asValues, changed, json }, output);
    }
    case 'fit': {
      const { values, positionals } = parsed('fit', words);
      if (values.help === true) return told(HELP.fit, output);
      const { job, answers, out, template = false, json = false } = values;
      const { fit } = await import('./fit');
      return fit(only(positionals, 'one file'), { job, answers, out, template, json }, output);
    }
    case 'list': {
      const { values, positionals } = parsed('list', words);
      if (values.help === true) return told(HELP.list, output);
      if (positionals.length > 0) throw new CommandFault('list takes no further words');
      const { list } = await import('./list');
      return list(values.json === true, output);
    }
    case 'help':
    case '--help':
    case '-h':
      return told(
        words[0] !== undefined && words[0] in HELP ? HELP[words[0] as keyof typeof HELP] : USAGE,
        output,
      );
    case undefined:
      output.error(USAGE);
      return 2;
    default:
      throw new CommandFault(`there is no command ${command}, only calc, recalc, fit, list and help`);
  }
}

function told(text: string, { out }: Output): Status {
  out(text);
  return 0;
}

/** A formula may begin with a minus: only words that begin with two are options of `calc`. */
function parsed<C extends keyof typeof OPTIONS>(command: C, words: readonly string[]) {
  try {
    const { tokens, ...own } = parseArgs({
      args: command === 'calc' ? words.map((word) => word.replace(/^-(?!-)/, '=-')) : [...words],
      options: OPTIONS[command],
      allowPositionals: true,
      tokens: true,
    });
    const names = tokens.flatMap((token) => (token.kind === 'option' ? [token.rawName] : []));
    const twice = names.find((name, i) => names.indexOf(name) < i);
    if (twice === undefined) return own;
    throw new Error(`${twice} is given twice`);
  } catch (fault) {
    throw new CommandFault((fault as Error).message.split(/\. |\n/)[0]);
  }
}

function only(positionals: readonly string[], needed: string): string {
  if (positionals.length !== 1)
    throw new CommandFault(`${needed} needed, got ${positionals.length || 'none'}`);
  return positionals[0]!;
}
