import { ROWS } from '../../xlsx/address';
import type { BuiltIn, Kind } from './builtIn';
import type { Compiler, Node } from './compiler';
import type { Frame } from './frame';
import { Lacking } from './lacking';
import { lifted } from './operators';
import { isCut, withBlankTail } from './tails';
import {
  isError,
  isMatrix,
  Lambda,
  Reference,
  VALUE,
  type Argument,
  type Scalar,
  type Value,
} from './values';

type RunArgument = (frame: Frame) => Argument;

/** A call of a built-in. @throws Lacking where it takes another number of arguments */
export function callOf(
  compiler: Compiler,
  builtIn: BuiltIn,
  given: readonly (Node | null)[],
): (frame: Frame) => Value {
  const { name, least, most } = builtIn;
  if (given.length < least || given.length > most) {
    const takes = given.length > most ? `it takes ${most}` : `it needs ${least}`;
    const count = given.length === 1 ? '1 argument' : `${given.length} arguments`;
    throw new Lacking(`${name} with ${count} (${takes})`);
  }
  const kinds = given.map((_, at) => kindOf(builtIn, at));
  const passesErrors = builtIn.takesErrors !== true;
  const run = given.map((node, at) => {
    const argument = argumentOf(compiler, node, kinds[at]!);
    return passesErrors || kinds[at] !== 'value' ? argument : orError(argument);
  });
  const single = kinds.flatMap((kind, at) => (kind === 'value' ? [at] : []));
  const wholes = kinds.flatMap((kind, at) => (kind === 'array' ? [at] : []));
  return (frame) => {
    const values = new Array<Argument>(run.length);
    for (let at = 0; at < run.length; at++) values[at] = run[at]!(frame);
    let isLifted = false;
    for (const at of single) {
      const value = values[at];
      if (isMatrix(value)) isLifted = true;
      else if (passesErrors && isError(value)) return value;
    }
    if (wholes.length > 1) lengthen(values, wholes);
    return isLifted ? liftedCall(frame, builtIn, values, single, passesErrors) : builtIn.call(frame, values);
  };
}

/** An error that ends the calculation of an argument is its value: ISERROR asks about it, COUNTIF counts it. */
const orError =
  (argument: RunArgument): RunArgument =>
  (frame) => {
    try {
      return argument(frame);
    } catch (fault) {
      if (isError(fault)) return fault;
      throw fault;
    }
  };

/** Whole columns beside something calculated from whole columns come to their full height too. */
function lengthen(values: Argument[], among: readonly number[]): void {
  const height = (at: number): number => {
    const value = values[at];
    return isMatrix(value) ? value.length : 0;
  };
  if (!among.some((at) => height(at) === ROWS)) return;
  for (const at of among) {
    const value = values[at];
    if (isMatrix(value) && isCut(value)) values[at] = withBlankTail(value, ROWS);
  }
}

function kindOf({ takes, repeats = 1 }: BuiltIn, at: number): Kind {
  if (at < takes.length) return takes[at]!;
  return takes[takes.length - repeats + ((at - takes.length) % repeats)]!;
}

function argumentOf(compiler: Compiler, node: Node | null, kind: Kind): RunArgument {
  if (node === null) return () => undefined;
  switch (kind) {
    case 'value':
      return compiler.operand(node);
    case 'array':
      return compiler.whole(() => blockOrLambda(compiler, node));
    case 'block':
      return blockOrLambda(compiler, node);
    case 'wholeRange':
      return compiler.whole(() => compiler.any(node));
    case 'range':
      return compiler.any(node);
  }
}

function blockOrLambda(compiler: Compiler, node: Node): RunArgument {
  const run = compiler.any(node);
  return (frame) => {
    const value = run(frame);
    if (!(value instanceof Reference)) return value;
    const [{ sheet, top, left }] = value.areas;
    return value.isOneCell ? frame.source.read(sheet, top, left) : frame.blockOf(value);
  };
}

function liftedCall(
  frame: Frame,
  builtIn: BuiltIn,
  values: readonly Argument[],
  single: readonly number[],
  passesErrors: boolean,
): Value {
  const given = [...values];
  return lifted(
    single.map((at) => values[at] as Scalar | undefined),
    (...each) => {
      for (let n = 0; n < single.length; n++) {
        const value = each[n];
        if (passesErrors && isError(value)) return value;
        given[single[n]!] = value;
      }
      return firstOf(frame, builtIn.call(frame, given));
    },
  );
}

/** The one value that a place of a block can hold of a result: its first. */
export function firstOf(frame: Frame, value: Value): Scalar {
  if (value instanceof Lambda) return VALUE;
  if (value instanceof Reference) return frame.scalarOf(value);
  return isMatrix(value) ? value[0]![0]! : value;
}
