import type { Argument } from './arguments';
import type { ColumnRole, TableColumn } from './columns';
import type { Kind } from './kinds';

/**
 * What a blank does in a place of a call. A 0 does the same everywhere, since a host may hand a blank over as 0.
 *
 * - `refused`: an error that names the place
 * - `zero`: counts as 0
 * - `nothing`: there is none of it, which the function knows how to take
 * - `default`: as if the argument were left out
 * - `blankRow`: the answer beside the row is blank
 * - `noRow`: the row is left out; one that has figures elsewhere is told instead
 * - `noCell`: the cell is left out
 */
export type BlankEffect = 'refused' | 'zero' | 'nothing' | 'default' | 'blankRow' | 'noRow' | 'noCell';

/** A place of a call where a cell may be blank: an argument, or a column of a table. */
export interface BlankPlace {
  readonly argument: string;
  readonly position: number;
  /** The column's header, where the argument is a table. */
  readonly column: string | undefined;
  readonly role: ColumnRole;
  readonly kind: Kind<unknown>;
  readonly effect: BlankEffect;
  /** What a blank says, where it is a value of its own, in a short phrase. */
  readonly means: string | undefined;
  /** What says a true 0; undefined where the place has no 0. */
  readonly zero: string | undefined;
}

/** What a blank is to a kind, where nothing else decides. */
function effectOf(kind: Kind<unknown>): BlankEffect {
  if (kind.zeroCounts) return 'zero';
  return kind.orBlank || kind.word === 'anything' ? 'nothing' : 'refused';
}

function zeroOf({ zeroCounts, zeroWord, word }: Kind<unknown>, fallback: unknown): string | undefined {
  if (zeroCounts) return '0';
  // What is 0 when left out needs no word for it, but inside a column.
  if (fallback === 0 && zeroWord === undefined) return '0';
  return zeroWord ?? (word === 'temperature' ? '0.01' : undefined);
}

function columnEffect({ role, kind, fallback }: TableColumn<unknown>): BlankEffect {
  if (role === 'key') return 'noRow';
  if (role === 'others') return 'refused';
  if (role === 'numbered') return 'nothing';
  return role === 'optional' && fallback === undefined ? 'nothing' : effectOf(kind);
}

function placesOf(argument: Argument, position: number, eachRow: boolean): BlankPlace[] {
  const { name } = argument;
  if (argument.shape === 'table') {
    return Object.entries(argument.columns).map(([column, declared]) => ({
      argument: name,
      position,
      column,
      role: declared.role,
      kind: declared.kind,
      effect: columnEffect(declared),
      means: declared.role === 'required' ? declared.kind.blankMeans : undefined,
      zero: zeroOf(declared.kind, declared.fallback),
    }));
  }
  const { kind, role } = argument;
  const common = {
    argument: name,
    position,
    column: undefined,
    role,
    kind,
    means: kind.blankMeans,
    zero: zeroOf(kind, 'fallback' in argument ? argument.fallback : undefined),
  };
  switch (argument.shape) {
    case 'setting':
      return [{ ...common, effect: role === 'optional' ? 'default' : effectOf(kind) }];
    case 'block':
      return [{ ...common, effect: 'nothing' }];
    case 'range':
      return [{ ...common, effect: 'noCell' }];
    case 'column': {
      const effect = role === 'key' ? (eachRow ? 'blankRow' : 'noRow') : effectOf(kind);
      return [{ ...common, effect }];
    }
  }
}

/** The whole policy of blanks and zeros for a function, from its declaration alone. */
export function blankPlaces(f: {
  readonly arguments: readonly Argument[];
  readonly calculates: 'eachRow' | 'beside' | 'whole';
}): readonly BlankPlace[] {
  return f.arguments.flatMap((argument, position) =>
    placesOf(argument, position, f.calculates === 'eachRow'),
  );
}
