import { remember, remembered } from '../pane/choices';
import { showFindings } from './desk';
import { byId } from './element';

/** Where the pane lies over the cells: beside them, it would cover the columns it speaks of. */
const COVERED = '(max-width: 999px)';
/** Where what is due comes before the cells. */
const SMALL = '(max-width: 760px)';

/** The pane shows by itself where there is room beside the grid; the style sheet says where. */
export const isPaneShown = (): boolean => getComputedStyle(byId('pane')).display !== 'none';
export const isCovered = (): boolean => window.matchMedia(COVERED).matches;
export const isSmall = (): boolean => window.matchMedia(SMALL).matches;

export function togglePane(): void {
  const shown = !isPaneShown();
  showPane(shown);
  // What is due comes first on every visit to a small screen.
  if (isCovered()) byId(shown ? 'pane-close' : 'pane-button').focus();
  else remember('pane', shown ? 'shown' : 'folded');
}

function showPane(shown: boolean): void {
  byId('pane').dataset.shown = String(shown);
  byId('pane-button').ariaExpanded = String(shown);
  // What was not seen was not kept up to date.
  if (shown) showFindings();
}

/** As the pane was left; on a small screen it comes before the cells. */
export function foldAsRemembered(): void {
  const choice = remembered('pane');
  if (isCovered()) showPane(isSmall());
  else if (choice !== null) showPane(choice === 'shown');
  byId('pane-button').ariaExpanded = String(isPaneShown());
}

/** Puts the grid's formula line where the page has a place for it. */
export function placeFormulaLine(): void {
  const [place, grid] = [byId('formula-line'), byId('grid')].map((one) => one.getBoundingClientRect());
  const style = byId('grid').style;
  style.setProperty('--line-top', `${place!.top - grid!.top}px`);
  style.setProperty('--line-left', `${place!.left - grid!.left}px`);
  style.setProperty('--line-width', `${place!.width}px`);
  // The engine asks how large it may be when the window changes, and not when the parts beside it do.
  window.dispatchEvent(new Event('resize'));
}
