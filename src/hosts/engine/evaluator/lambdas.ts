import type { Compiler, Node, Run } from './compiler';
import type { Environment, Frame } from './frame';
import { Lacking } from './lacking';
import { CALC, Lambda, NUM, VALUE, type Argument, type Value } from './values';

/** Calls within calls, and calls in all, that one formula may make. */
const MOST_DEPTH = 400;
const MOST_CALLS = 3_000_000;

/** A function written in a formula. Each of its variables may be left out: it is then blank. */
export function lambdaOf(compiler: Compiler, variables: readonly string[], body: Node | null): Run {
  if (body === null) throw new Lacking('a calculation at the end of LAMBDA');
  const run = compiler.with(variables, () => compiler.any(body));
  return (frame) => {
    const outer = frame.environment;
    return new Lambda(variables.length, (given) => {
      if (given.length > variables.length) return VALUE;
      const before = frame.environment;
      let environment = outer;
      for (let at = 0; at < variables.length; at++) environment = { value: given[at], outer: environment };
      frame.environment = environment;
      try {
        return run(frame);
      } finally {
        frame.environment = before;
      }
    });
  };
}

/** The variable that is so many steps out. */
export function variableAt(steps: number): Run {
  return (frame) => environmentAt(frame, steps).value ?? null;
}

export function environmentAt(frame: Frame, steps: number): Environment {
  let environment = frame.environment!;
  for (let step = 0; step < steps; step++) environment = environment.outer!;
  return environment;
}

/** Calls a function written in the formula. @throws ErrorValue #NUM! where the calls come to no end */
export function invoked(frame: Frame, lambda: Lambda, given: readonly Argument[]): Value {
  if (frame.depth >= MOST_DEPTH || ++frame.calls > MOST_CALLS) throw NUM;
  frame.depth++;
  try {
    return lambda.call(given);
  } finally {
    frame.depth--;
  }
}

export const needLambda = (value: Argument): Lambda => {
  if (value instanceof Lambda) return value;
  throw value === undefined ? CALC : VALUE;
};
