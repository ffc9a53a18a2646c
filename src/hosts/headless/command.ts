import { parseArgs } from 'node:util';

/** Where a command's lines go. */
export interface Output {
  readonly out: (line: string) => void;
  readonly error: (line: string) => void;
}

/** 0: all is well. 1: a formula faults. 2: what was asked cannot be done. */
export type Status = 0 | 1 | 2;

/** Something asked that cannot be done, in one sentence. */
export class CommandFault extends Error {}

const USAGE = `pinset calc FORMULA                calculates one formula: pinset calc '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)'
pinset recalc FILE.xlsx            calculates a workbook and prints one line per Pinset formula
    --out RESULT.xlsx              writes the workbook with the new results, all else as it was
    --values                       with --out: writes results in place of Pinset's formulas, for people without them
    --json                         one object per line
pinset list [--json]               prints every function

Exit status: 0 when no Pinset formula faults, 1 when some do, 2 when a file or a command cannot be read.`;

const OPTIONS = {
  calc: { json: { type: 'boolean' } },
  recalc: { out: { type: 'string' }, values: { type: 'boolean' }, json: { type: 'boolean' } },
  list: { json: { type: 'boolean' } },
} as const;

/** Runs the command with these words. Never throws. */
export async function run(words: readonly string[], output: Output): Promise<Status> {
  try {
    return await dispatch(words, output);
  } catch (fault) {
    output.error(`pinset: ${oneLine(fault instanceof Error ? fault.message : String(fault))}`);
    return 2;
  }
}

/** Each command loads only what it needs: the engine is large. */
async function dispatch([command, ...words]: readonly string[], output: Output): Promise<Status> {
  switch (command) {
    case 'calc': {
      const { values, positionals } = parsed('calc', words);
      const { calc } = await import('./calc');
      return calc(only(positionals, 'one formula in quotes'), values.json === true, output);
    }
    case 'recalc': {
      const { values, positionals } = parsed('recalc', words);
      const { out, values: asValues = false, json = false } = values;
      const { recalc } = await import('./recalc');
      return recalc(only(positionals, 'one file'), { out, asValues, json }, output);
    }
    case 'list': {
      const { values, positionals } = parsed('list', words);
      if (positionals.length > 0) throw new CommandFault('list takes no further words');
      const { list } = await import('./list');
      return list(values.json === true, output);
    }
    case 'help':
    case '--help':
    case '-h':
      output.out(USAGE);
      return 0;
    case undefined:
      output.error(USAGE);
      return 2;
    default:
      throw new CommandFault(`there is no command ${command}, only calc, recalc, list and help`);
  }
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

export const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();
