import type { Block } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { Caller } from '../../worksheet/call';
import type { Progress } from '../../worksheet/definition';

export type Given = Parameters<Caller['call']>[1];

/** A call as it goes to the worker. */
export interface Question {
  readonly name: string;
  readonly given: Given;
  readonly dateSystem: DateSystem;
}

/** The answer, or in words what should not have happened. */
export type Reply = { readonly block: Block } | { readonly defect: string };

/** How far the worker has come with the call. */
export interface Told {
  readonly progress: Progress;
}

/**
 * What the worker says first: an error before it means that no worker starts here. It says it again with the name of a
 * lock, where the browser has them, that it holds for as long as it lives.
 */
export interface Started {
  readonly holds: string | null;
}
