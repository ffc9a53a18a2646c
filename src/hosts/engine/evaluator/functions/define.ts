import type { BuiltIn, CallContext, Kind } from '../builtIn';
import { toBoolean, toNumber, toText, toWhole } from '../coercion';
import type { Argument, Matrix, Scalar, Value } from '../values';

/** The arguments of a call, read as what the function needs. Each reading may throw an ErrorValue. */
export class Given {
  constructor(
    readonly context: CallContext,
    readonly all: readonly Argument[],
  ) {}

  get count(): number {
    return this.all.length;
  }

  has(at: number): boolean {
    return this.all[at] !== undefined;
  }

  scalar(at: number): Scalar {
    return this.context.scalarOf(this.all[at]);
  }

  /** One that is not written at all is `otherwise`; one left out between commas is 0. */
  number(at: number, otherwise = 0): number {
    return at < this.all.length ? toNumber(this.scalar(at), this.context.dateSystem) : otherwise;
  }

  whole(at: number, otherwise = 0): number {
    return at < this.all.length ? toWhole(this.scalar(at), this.context.dateSystem) : otherwise;
  }

  text(at: number, otherwise = ''): string {
    return at < this.all.length ? toText(this.scalar(at)) : otherwise;
  }

  boolean(at: number, otherwise = false): boolean {
    return at < this.all.length ? toBoolean(this.scalar(at)) : otherwise;
  }

  matrix(at: number): Matrix {
    return this.context.matrixOf(this.all[at]);
  }

  /** All values of an argument, row by row. */
  list(at: number): readonly Scalar[] {
    return this.matrix(at).flat();
  }
}

type Takes = Kind | `${Kind} ${string}`;

/** A built-in whose arguments are of the kinds named in `takes`, the last of which repeats. */
export const define = (
  name: string,
  [least, most]: readonly [number, number],
  takes: Takes,
  call: (given: Given, context: CallContext) => Value,
  more: Partial<
    Pick<BuiltIn, 'repeats' | 'takesErrors' | 'isVolatile' | 'takesEachReference' | 'format'>
  > = {},
): BuiltIn => ({
  name,
  least,
  most,
  takes: takes.split(' ') as Kind[],
  ...more,
  call: (context, given) => call(new Given(context, given), context),
});

/** A function of single numbers. Those not written are undefined, those left out between commas 0. */
export const numeric = (
  name: string,
  [least, most]: readonly [number, number],
  calculate: (...numbers: number[]) => Scalar,
  more: Partial<Pick<BuiltIn, 'format'>> = {},
): BuiltIn =>
  define(
    name,
    [least, most],
    'value',
    ({ context, all }) => calculate(...all.map((one) => toNumber(context.scalarOf(one), context.dateSystem))),
    more,
  );

/** Other names of the same function: `STDEV.S` and `STDEV`. */
export const named = (builtIn: BuiltIn, ...names: readonly string[]): BuiltIn[] =>
  names.map((name) => ({ ...builtIn, name }));
