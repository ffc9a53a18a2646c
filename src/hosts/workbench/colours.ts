import type { TakeKeyboard } from '../pane/keyboard';
import { Theme } from '../pane/theme';
import { desk } from './desk';
import { byId } from './element';
import { freshPlace } from './freshPlace';
import { drawn, inTurn } from './steps';

export const theme = new Theme(() => void dye());

/** Cells and pane in the theme that was chosen. */
function dye(): Promise<void> {
  desk.pane?.dye(theme.chosen);
  return inTurn(drawAgain);
}

async function drawAgain(takeKeyboard: TakeKeyboard): Promise<void> {
  if (!desk.current) return;
  const { grid } = desk.current;
  // What is half typed would be lost: evening comes to a device by itself.
  if (grid.isEdited()) {
    desk.waiting = () => void dye();
    return;
  }
  const isOnCells = byId('grid').contains(document.activeElement);
  grid.hide();
  const place = freshPlace(takeKeyboard);
  await grid.show(place.target);
  await drawn();
  place.open(() => isOnCells && grid.focus());
}
