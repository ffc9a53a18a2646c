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
  type Matrix,
  type Scalar,
  type Value,
} from './values';

type RunArgument = (frame: Frame) => Argument | FoundReferences;

/** A call of a built-in. @throws Lacking where it takes another number of arguments */
export function callOf(
  compiler: Compiler,
  builtIn: BuiltIn,
  given: readonly (Node | null)[],
): (frame: Frame) => Value {
  const run = calling(compiler, builtIn, given);
  return (frame) => {
    const value = run(frame);
    if (value instanceof FoundReferences) throw new Lacking(`several references that ${builtIn.name} finds`);
    return value;
  };
}

/** As `callOf`; what finds references gives those of a block together. */
function calling(
  compiler: Compiler,
  builtIn: BuiltIn,
  given: readonly (Node | null)[],
): (frame: Frame) => Value | FoundReferences {
  const { name, least, most } = builtIn;
  if (given.length < least || given.length > most) {
    const takes = given.length > most ? `it takes ${most}` : `it needs ${least}`;
    const count = given.length === 1 ? '1 argument' : `${given.length} arguments`;
    throw new Lacking(`${name} with ${count} (${takes})`);
  }
  const kinds = given.map((_, at) => kindOf(builtIn, at));
  const passesErrors = builtIn.takesErrors !== true;
  const finders = given.map((node, at) =>
    builtIn.takesEachReference && kinds[at] === 'range' ? finderOf(compiler, node) : undefined,
  );
  const run = given.map((node, at) => {
    const argument = finders[at] ?? argumentOf(compiler, node, kinds[at]!);
    return passesErrors ? argument : orError(argument);
  });
  const single = kinds.flatMap((kind, at) => (kind === 'value' || finders[at] ? [at] : []));
  const wholes = kinds.flatMap((kind, at) => (kind === 'array' ? [at] : []));
  return (frame) => {
    const values = new Array<Argument | FoundReferences>(run.length);
    for (let at = 0; at < run.length; at++) values[at] = run[at]!(frame);
    let isLifted = false;
    for (const at of single) {
      const value = values[at];
      if (isMatrix(value) || value instanceof FoundReferences) isLifted = true;
      else if (passesErrors && isError(value)) return value;
    }
    if (wholes.length > 1) lengthen(values as Argument[], wholes);
    if (isLifted) return liftedCall(frame, builtIn, values, single, passesErrors);
    return builtIn.call(frame, values as Argument[]);
  };
}

/** References that a function finds for a block of distances or texts, and the block of their numbers. */
class FoundReferences {
  constructor(
    readonly references: readonly Reference[],
    readonly numbers: Matrix,
  ) {}
}

/** A call of OFFSET or INDIRECT as an argument that takes each of several references. */
function finderOf(
  compiler: Compiler,
  node: Node | null,
): ((frame: Frame) => Argument | FoundReferences) | undefined {
  if (node?.type !== 'CallExpression' || node.callee.type !== 'Identifier') return undefined;
  const finder = compiler.book.builtIn(node.callee.name.toUpperCase());
  if (!finder?.findsReferences) return undefined;
  compiler.functions.add(finder.name);
  compiler.isVolatile = true;
  return calling(compiler, finder, node.arguments);
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

function argumentOf(compiler: Compiler, node: Node | null, kind: Kind): (frame: Frame) => Argument {
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

function blockOrLambda(compiler: Compiler, node: Node): (frame: Frame) => Argument {
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
  values: readonly (Argument | FoundReferences)[],
  single: readonly number[],
  passesErrors: boolean,
): Value | FoundReferences {
  const given = [...values] as Argument[];
  const found: Reference[] = [];
  const block = lifted(
    single.map((at) => {
      const value = values[at];
      return value instanceof FoundReferences ? value.numbers : (value as Scalar | Matrix | undefined);
    }),
    (...each) => {
      for (let n = 0; n < single.length; n++) {
        const value = each[n];
        if (passesErrors && isError(value)) return value;
        const from = values[single[n]!];
        const isNumbered = from instanceof FoundReferences && typeof value === 'number';
        given[single[n]!] = isNumbered ? from.references[value] : value;
      }
      const result = builtIn.call(frame, given);
      if (!builtIn.findsReferences || !(result instanceof Reference)) return firstOf(frame, result);
      return found.push(result) - 1;
    },
  );
  return builtIn.findsReferences ? new FoundReferences(found, block) : block;
}

/** The one value that a place of a block can hold of a result: its first. */
export function firstOf(frame: Frame, value: Value): Scalar {
  if (value instanceof Lambda) return VALUE;
  if (value instanceof Reference) return frame.scalarOf(value);
  return isMatrix(value) ? value[0]![0]! : value;
}
