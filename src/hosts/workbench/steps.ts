import { keepSoon } from './autosave';
import { keyboardFromHere, type TakeKeyboard } from '../pane/keyboard';
import { desk, type OpenFile } from './desk';
import { follow } from './following';
import { freshPlace } from './freshPlace';

/** Workbooks before changes of whole sheets that undo can go back to: each is held in memory. */
const MOST_STEPS = 8;

let stepping = Promise.resolve();

/**
 * Steps that put other cells in the page: a second begins once the first is done, for it goes on from there. They get the
 * keyboard from where it is when the step is asked for.
 */
export function inTurn(step: (takeKeyboard: TakeKeyboard) => Promise<void>): Promise<void> {
  const takeKeyboard = keyboardFromHere();
  const done = stepping.then(() => step(takeKeyboard));
  stepping = done.catch(() => {});
  return done;
}

export const undo = (): Promise<void> =>
  inTurn(async (takeKeyboard) => {
    if (!desk.current) return;
    if (desk.current.grid.canUndo()) desk.current.grid.undo();
    else if (!(await swap(desk.earlier, desk.later, takeKeyboard))) return;
    desk.isChanged = true;
    keepSoon();
  });

export const redo = (): Promise<void> =>
  inTurn(async (takeKeyboard) => {
    if (!desk.current) return;
    if (desk.current.grid.canRedo()) desk.current.grid.redo();
    else if (!(await swap(desk.later, desk.earlier, takeKeyboard))) return;
    desk.isChanged = true;
    keepSoon();
  });

/** Goes to what the workbook was before, or after, it became what it is; false where it was nothing else. */
async function swap(from: OpenFile[], to: OpenFile[], takeKeyboard: TakeKeyboard): Promise<boolean> {
  const next = from.pop();
  if (!next || !desk.current) return false;
  const { sheet } = desk.current.grid.selection();
  desk.current.grid.hide();
  to.push(desk.current);
  desk.current = next;
  const place = freshPlace(takeKeyboard);
  await next.grid.show(place.target);
  if (next.grid.sheets().includes(sheet)) next.grid.select({ ...next.grid.selection(), sheet });
  follow();
  await drawn();
  place.open(() => next.grid.focus());
  return true;
}

/** The workbook becomes another one: undo goes back to what it was. */
export function goneOnFrom(before: OpenFile): void {
  before.grid.hide();
  before.grid.forgetUndone();
  desk.earlier.push(before);
  if (desk.earlier.length > MOST_STEPS) desk.earlier.shift()!.grid.close();
}

export function forget(steps: OpenFile[]): void {
  for (const { grid } of steps.splice(0)) grid.close();
}

/** A grid that was just put in the page knows its size, and so what is in view, once it has been drawn. */
export const drawn = (): Promise<void> =>
  new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())));
