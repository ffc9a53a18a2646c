import { keepPlaceNow } from './autosave';
import { desk, showFindings } from './desk';
import { habitsInWords } from './dialogs';
import { byId } from './element';
import { countOf, isOutdated } from './filtering';
import { showTabs } from './places';
import { readingOf } from './reading';

/** How long the person must have paused before all cells are gone through for faults. */
const PAUSE = 250;

let pausing: ReturnType<typeof setTimeout> | undefined;

/** Brings the page in line with the grid. */
export function follow(): void {
  if (!desk.current) return;
  const { grid } = desk.current;
  const undo = byId<HTMLButtonElement>('undo');
  undo.disabled = !grid.canUndo() && desk.earlier.length === 0;
  byId<HTMLButtonElement>('redo').disabled = !grid.canRedo() && desk.later.length === 0;
  byId('habits').textContent = habitsInWords(grid.workbook.habits);
  showReading();
  showTabs();
  keepPlaceNow(desk.current);
  const count = countOf(grid.workbook.filtersIn(grid.selection().sheet));
  byId('filtered').hidden = !count;
  if (count) byId('filtered').textContent = `${count.shown} of ${count.all} rows: show all`;
  else byId('refilter').hidden = true;
  if (desk.waiting && !grid.isEdited()) {
    const now = desk.waiting;
    desk.waiting = undefined;
    now();
  }
  clearTimeout(pausing);
  pausing = setTimeout(() => {
    showFindings();
    offerToFilterAgain();
  }, PAUSE);
}

/** Rows are shown and hidden by what their cells held when they were filtered, until the person applies that again. */
function offerToFilterAgain(): void {
  const { grid } = desk.current!;
  const { sheet } = grid.selection();
  const isFiltered = countOf(grid.workbook.filtersIn(sheet)) !== undefined;
  byId('refilter').hidden = !desk.isChanged || !isFiltered || !isOutdated(grid.workbook, sheet);
}

export function showReading(): void {
  const { place, formula, shown, reason, kind } = readingOf(desk.current!.grid);
  const box = byId<HTMLInputElement>('place');
  if (document.activeElement !== box) box.value = place;
  const line = byId('reading');
  line.dataset.kind = kind;
  byId('formula').toggleAttribute('data-from', formula.startsWith('from '));
  for (const [id, text] of Object.entries({ formula, shown, reason })) {
    const part = byId(id);
    if (part.textContent !== text) part.textContent = text;
    part.hidden = text === '';
  }
  line.title = [formula, shown, reason].filter((text) => text !== '').join('\n');
}
