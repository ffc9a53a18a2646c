import { registries, UIPlugin, type CoreCommand, type Getters, type Model } from '@odoo/o-spreadsheet';

// What the grid takes for one step of the person: a block that is written is one, and room made at the end of a sheet is
// none. Redo repeats what was undone, and nothing more: the grid's own does the last entry once more, in another cell.

interface History {
  readonly redoStack: string[];
  onNewLocalStateUpdate(step: { readonly id: string }): void;
}

const FORGET = 'FORGET_UNDONE';

let isStep = true;
const listeners = new WeakMap<Getters, () => void>();

/** Calls back at each step that a person makes, undo and redo apart. */
export const onStep = ({ getters }: Model, listener: () => void): void =>
  void listeners.set(getters, listener);

/** Nothing that was undone can be done again: the person went on another way. */
export const forgetUndone = (model: Model): void => void model.dispatch(FORGET as never);

/** Changes the workbook without a step for undo. */
export function withoutStep(run: () => void): void {
  const before = isStep;
  isStep = false;
  try {
    run();
  } finally {
    isStep = before;
  }
}

const Own = registries.featurePluginRegistry.get('history') as unknown as new (
  ...given: ConstructorParameters<typeof UIPlugin>
) => UIPlugin & History;

class StepsOnly extends Own {
  static getters = ['canUndo', 'canRedo'] as const;
  static layers = [] as const;

  canRedo(): boolean {
    return this.redoStack.length > 0;
  }

  override handle(command: Parameters<UIPlugin['handle']>[0]): void {
    if ((command.type as string) === FORGET) this.redoStack.length = 0;
    else super.handle(command);
  }

  override onNewLocalStateUpdate(step: { readonly id: string }): void {
    if (!isStep) return;
    super.onNewLocalStateUpdate(step);
    listeners.get(this.getters)?.();
  }
}
registries.featurePluginRegistry.replace('history', StepsOnly);

const TOGETHER = 'DO_TOGETHER';

/** Does several changes of cells and rules as one step. */
class DoesTogether extends UIPlugin {
  override handle(command: unknown): void {
    const { type, commands } = command as { type: string; commands: readonly CoreCommand[] };
    if (type !== TOGETHER) return;
    for (const { type: kind, ...payload } of commands) this.dispatch(kind, payload as never);
  }
}
registries.featurePluginRegistry.add('does together', DoesTogether);

/** Does several changes as one step. */
export function together(model: Model, commands: readonly CoreCommand[]): void {
  if (commands.length > 0) model.dispatch(TOGETHER as never, { commands } as never);
}

/**
 * The engine packs steps of several commands for others who work on the same sheet. Nobody does, and packing takes what
 * older browsers lack.
 */
export function keepUnpacked(model: Model): void {
  const { session } = model as unknown as { session: { commandSquisher: object } };
  session.commandSquisher = {
    squish: (commands: readonly CoreCommand[]) => commands,
    unsquish: (commands: readonly CoreCommand[]) => commands,
  };
}
