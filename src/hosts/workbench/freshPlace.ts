import type { TakeKeyboard } from '../pane/keyboard';
import { byId } from './element';

export interface FreshPlace {
  readonly target: HTMLElement;
  /** Lets the cells be used; they get the keyboard unless the person took it elsewhere meanwhile. */
  readonly open: (focus: () => void) => void;
}

/** A place for cells, which would take the keyboard whenever they are put into the page: until it is opened they cannot. */
export function freshPlace(takeKeyboard: TakeKeyboard): FreshPlace {
  const target = document.createElement('div');
  target.inert = true;
  byId('grid').replaceChildren(target);
  return {
    target,
    open: (focus) => {
      target.inert = false;
      takeKeyboard(focus);
    },
  };
}
