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
  list: `pinset list [--json]

Prints every function of Pinset: how it is called, a tab, what it gives.

    --json            prints one object per line, with each argument and the sources

Exit status: 0, or 2 when the command cannot be read.`,
} as const;

const USAGE = `pinset calc FORMULA          calculates one formula: pinset calc '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)'
pinset recalc FILE.xlsx      calculates a workbook and prints one line per Pinset formula
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
      throw new CommandFault(`there is no command ${command}, only calc, recalc, list and help`);
  }
}

function told(text: string, { out }: Output): Status {
  out(text);
  return 0;
}

/** A formula may begin with a minus: only words that begin with two are options of `calc`. */
function parsed<C extends keyof typeof OPTIONS>(command: C, words: readonly string[]) {
  try {
    return parseArgs({
      args: command === 'calc' ? words.map((word) => word.replace(/^-(?!-)/, '=-')) : [...words],
      options: OPTIONS[command],
      allowPositionals: true,
    });
  } catch (fault) {
    throw new CommandFault((fault as Error).message.split(/\. |\n/)[0]);
  }
}

function only(positionals: readonly string[], needed: string): string {
  if (positionals.length !== 1)
    throw new CommandFault(`${needed} needed, got ${positionals.length || 'none'}`);
  return positionals[0]!;
}
