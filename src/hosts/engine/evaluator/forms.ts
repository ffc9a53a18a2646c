import type { Compiler, Node, Run, RunOperand } from './compiler';
import { compare, toBoolean, toWhole } from './coercion';
import type { Frame } from './frame';
import { Lacking } from './lacking';
import { environmentAt } from './lambdas';
import { lifted as liftedWhole } from './operators';
import {
  CALC,
  isError,
  isMatrix,
  Lambda,
  NOT_AVAILABLE,
  Reference,
  VALUE,
  type ErrorValue,
  type Matrix,
  type Scalar,
  type Value,
} from './values';
import { variableName } from './variableName';

/** Makes a call of a function that calculates only what it needs of its arguments. */
type Form = (compiler: Compiler, given: readonly (Node | null)[], name: string) => Run;

/** Functions whose result is one of their arguments or a part of one, and reads as that does. */
export const TRANSPARENT: ReadonlySet<string> = new Set([
  ...[
    'IF',
    'IFS',
    'IFERROR',
    'IFNA',
    'SWITCH',
    'CHOOSE',
    'INDEX',
    'SORT',
    'FILTER',
    'UNIQUE',
    'TAKE',
    'DROP',
  ],
  ...['SORTBY', 'MIN', 'MAX', 'XLOOKUP', 'VLOOKUP'],
]);

/** A function of several values for blocks: only what is chosen of them counts. */
const lifted = (blocks: readonly (Scalar | Matrix)[], choose: (...each: Scalar[]) => Scalar): Matrix =>
  liftedWhole(blocks, choose as Parameters<typeof liftedWhole>[1], true);

function needs(name: string, given: readonly (Node | null)[], least: number, most: number): void {
  if (given.length >= least && given.length <= most) return;
  throw new Lacking(`${name} with ${given.length} argument${given.length === 1 ? '' : 's'}`);
}

const anyOf = (compiler: Compiler, node: Node | null): Run =>
  node === null ? () => null : compiler.any(node);

/** What a block of choices takes an argument for: its values, blocks kept whole. */
function valuesOf(frame: Frame, run: Run): Scalar | Matrix {
  const value = run(frame);
  if (value instanceof Lambda) throw CALC;
  if (!(value instanceof Reference)) return value;
  return value.isOneCell ? frame.scalarOf(value) : frame.wholeOf(value);
}

/** As `valuesOf`, an error thrown taken as a value. */
function valuesOrError(frame: Frame, run: Run): Scalar | Matrix {
  try {
    return valuesOf(frame, run);
  } catch (fault) {
    if (isError(fault)) return fault;
    throw fault;
  }
}

const choosing: Form = (compiler, given, name) => {
  needs(name, given, 2, 3);
  const condition = compiler.operand(given[0]!);
  const whenTrue = anyOf(compiler, given[1]!);
  const whenFalse: Run = given.length < 3 ? () => false : anyOf(compiler, given[2]!);
  return (frame) => {
    const holds = condition(frame);
    if (!isMatrix(holds)) return toBoolean(holds) ? whenTrue(frame) : whenFalse(frame);
    return lifted([holds, valuesOrError(frame, whenTrue), valuesOrError(frame, whenFalse)], (one, yes, no) =>
      toBoolean(one) ? yes! : no!,
    );
  };
};

const firstThatHolds: Form = (compiler, given, name) => {
  needs(name, given, 2, 254);
  if (given.length % 2 !== 0) throw new Lacking(`${name} with a condition that has no result`);
  const conditions: RunOperand[] = [];
  const results: Run[] = [];
  for (let at = 0; at < given.length; at += 2) {
    conditions.push(compiler.operand(given[at]!));
    results.push(anyOf(compiler, given[at + 1]!));
  }
  return (frame) => {
    for (let at = 0; at < conditions.length; at++) {
      const holds = conditions[at]!(frame);
      if (isMatrix(holds)) return blockOfFirsts(frame, at, holds, conditions, results);
      if (toBoolean(holds)) return results[at]!(frame);
    }
    return NOT_AVAILABLE;
  };
};

function blockOfFirsts(
  frame: Frame,
  from: number,
  first: Matrix,
  conditions: readonly RunOperand[],
  results: readonly Run[],
): Matrix {
  const pairs = conditions
    .slice(from)
    .flatMap((condition, at) => [
      at === 0 ? first : valuesOrError(frame, condition),
      valuesOrError(frame, results[from + at]!),
    ]);
  return lifted(pairs, (...each) => {
    for (let at = 0; at < each.length; at += 2) if (toBoolean(each[at]!)) return each[at + 1]!;
    return NOT_AVAILABLE;
  });
}

const switching: Form = (compiler, given, name) => {
  needs(name, given, 3, 254);
  const subject = compiler.operand(given[0]!);
  const others = given.slice(1);
  const otherwise: Run = others.length % 2 === 1 ? anyOf(compiler, others.at(-1)!) : () => NOT_AVAILABLE;
  const cases: RunOperand[] = [];
  const results: Run[] = [];
  for (let at = 0; at + 1 < others.length; at += 2) {
    cases.push(compiler.operand(others[at]!));
    results.push(anyOf(compiler, others[at + 1]!));
  }
  const isSame = (a: Scalar, b: Scalar): boolean =>
    typeof (a ?? 0) === typeof (b ?? 0) && compare(a, b) === 0;
  return (frame) => {
    const value = subject(frame);
    if (isError(value)) return value;
    if (!isMatrix(value)) {
      for (let at = 0; at < cases.length; at++) {
        const one = cases[at]!(frame);
        if (isError(one)) return one;
        if (isSame(value, isMatrix(one) ? one[0]![0]! : one)) return results[at]!(frame);
      }
      return otherwise(frame);
    }
    const blocks = cases.flatMap((one, at) => [
      valuesOrError(frame, one),
      valuesOrError(frame, results[at]!),
    ]);
    return lifted([value, valuesOrError(frame, otherwise), ...blocks], (one, last, ...pairs) => {
      for (let at = 0; at < pairs.length; at += 2) if (isSame(one, pairs[at]!)) return pairs[at + 1]!;
      return last!;
    });
  };
};

const choosingByNumber: Form = (compiler, given, name) => {
  needs(name, given, 2, 255);
  const index = compiler.operand(given[0]!);
  const choices = given.slice(1).map((one) => anyOf(compiler, one));
  return (frame) => {
    const at = index(frame);
    if (!isMatrix(at)) return choices[toWhole(at, frame.dateSystem) - 1]?.(frame) ?? VALUE;
    const blocks = choices.map((one) => valuesOrError(frame, one));
    return lifted([at, ...blocks], (one, ...each) => {
      const value = each[toWhole(one, frame.dateSystem) - 1];
      return value === undefined ? VALUE : value;
    });
  };
};

const insteadOfError =
  (isMeant: (error: ErrorValue) => boolean): Form =>
  (compiler, given, name) => {
    needs(name, given, 2, 2);
    const subject = anyOf(compiler, given[0]!);
    const instead = anyOf(compiler, given[1]!);
    const { intersects } = compiler;
    const operand: RunOperand = given[0] === null ? () => null : compiler.operand(given[0]!);
    return (frame): Value => {
      const { environment } = frame;
      let value: Scalar | Matrix;
      try {
        value = intersects ? operand(frame) : valuesOf(frame, subject);
      } catch (fault) {
        frame.environment = environment;
        if (!isError(fault)) throw fault;
        value = fault;
      }
      if (isError(value)) return isMeant(value) ? instead(frame) : value;
      if (!isMatrix(value) || !value.some((row) => row.some((one) => isError(one) && isMeant(one))))
        return value;
      return lifted([value, valuesOrError(frame, instead)], (one, other) =>
        isError(one) && isMeant(one) ? other! : one!,
      );
    };
  };

/** Whether a variable of a LAMBDA was left out. */
const isLeftOut: Form = (compiler, given, name) => {
  needs(name, given, 1, 1);
  const node = given[0];
  const text = node?.type === 'ReferenceIdentifier' ? variableName(node.value) : '';
  const at = compiler.variables.lastIndexOf(text);
  if (at < 0) throw new Lacking(`${name} of something that is no variable`);
  const steps = compiler.variables.length - 1 - at;
  return (frame) => environmentAt(frame, steps).value === undefined;
};

/** What files write for `A1#` and `@`. */
const sign =
  (operator: '#' | '@'): Form =>
  (compiler, given, name) => {
    needs(name, given, 1, 1);
    return compiler.any({ type: 'UnaryExpression', operator, arguments: [given[0]!] });
  };

export const FORMS: Readonly<Record<string, Form>> = {
  IF: choosing,
  IFS: firstThatHolds,
  SWITCH: switching,
  CHOOSE: choosingByNumber,
  IFERROR: insteadOfError(() => true),
  IFNA: insteadOfError(({ code }) => code === '#N/A'),
  ISOMITTED: isLeftOut,
  ANCHORARRAY: sign('#'),
  SINGLE: sign('@'),
};
