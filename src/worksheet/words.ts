import type { ErrorCode } from './constants';
import type { WorksheetFunction } from './definition';

/** An argument of an example: a plain value, or a block of cells. Null is a blank. */
export type ExampleArgument =
  | number
  | string
  | boolean
  | null
  | readonly (readonly (number | string | boolean | null)[])[];

/** A call and what it gives; every example is run by the tests, in the bare call and in the embedded hosts. */
export interface Example {
  readonly title: string;
  readonly arguments: readonly ExampleArgument[];
  /** The value, or the whole block. */
  readonly gives: ExampleArgument;
  /** Significant digits that numbers agree to, where a package in between holds fewer than the usual ten. */
  readonly digits?: number;
}

/** A fault a grower may meet, with a call that provokes it; the message must hold `says`. */
export interface FaultExample {
  readonly arguments: readonly ExampleArgument[];
  readonly code: Extract<ErrorCode, '#VALUE!' | '#N/A' | '#DIV/0!' | '#NUM!'>;
  readonly says: string;
  /** What to do about it. */
  readonly remedy: string;
}

/** All that is said about a function: for the guide, the pane, Excel's function list and the README. */
export interface Words {
  /** What Excel shows: at most 120 characters. */
  readonly summary: string;
  /** More for the guide, a paragraph each: definitions chosen, what the figure does not say. */
  readonly notes: readonly string[];
  /** Where the work can hurt someone. */
  readonly cautions?: readonly string[];
  readonly sources: readonly string[];
  /** What a grower would type to find the function, in everyday words. */
  readonly questions: readonly string[];
  readonly examples: readonly Example[];
  readonly faults: readonly FaultExample[];
}

/** A worksheet function with its words. */
export interface DescribedFunction extends WorksheetFunction, Words {}

/** Joins functions and words. @throws where a function has none: one sentence that names the file to write. */
export function withWords(
  functions: readonly WorksheetFunction[],
  words: Readonly<Record<string, Words>>,
): readonly DescribedFunction[] {
  return functions.map((definition) => {
    const own = words[definition.name];
    if (!own)
      throw new Error(`${definition.name} has no words: a file beside its definition, ending in .words.ts`);
    return { ...definition, ...own };
  });
}
