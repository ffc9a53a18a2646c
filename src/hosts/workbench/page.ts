import packageJson from '../../../package.json';
import { listenToMarks } from '../engine/filters';
import { VERSION_PROPERTY } from '../pane/book';
import { openPane } from '../pane/pane';
import { workShown } from '../pane/workShown';
import { propertyOf } from '../xlsx/properties';
import { forgetKept, isSafe } from './autosave';
import { workbenchBook } from './book';
import { theme } from './colours';
import { desk, showFindings } from './desk';
import { askForHabits } from './dialogs';
import { byId } from './element';
import { follow, showReading } from './following';
import { foldAsRemembered, isCovered, isPaneShown, isSmall, placeFormulaLine, togglePane } from './layout';
import { notify } from './notices';
import { goOn, open, openFile, openKept, solve, works } from './opening';
import { goToPart, goToWritten, skipTo } from './places';
import { bytesNow, save } from './saved';
import { listenToSheetMenu } from './sheetActions';
import { redo, undo } from './steps';

const SAMPLE = 'farm-book.xlsx';

/** Starts the page: the sample workbook, and whatever the person opens or drops afterwards. */
export async function openWorkbench(): Promise<void> {
  listen();
  foldAsRemembered();
  if (!(await openKept())) {
    const response = await fetch(SAMPLE);
    if (response.ok) await open(SAMPLE, new Uint8Array(await response.arrayBuffer()));
  }
  const book = workbenchBook(() => ({
    ...desk.current!,
    workbook: desk.current!.grid.workbook,
    selection: () => desk.current!.grid.selection(),
    savedWith: propertyOf(desk.current!.bytes, VERSION_PROPERTY),
    select: (place) => {
      if (isCovered() && isPaneShown()) togglePane();
      desk.current!.grid.select(place);
    },
    bytes: () => bytesNow(desk.current!),
    become: async (bytes, sheet) => {
      const { name, added } = desk.current!;
      await goOn(name, bytes, [...added, sheet]);
    },
    isTypedInto: () => desk.current!.grid.canUndo(),
    becomeAgain: async (bytes, without) => {
      const { name, added } = desk.current!;
      await goOn(
        name,
        bytes,
        added.filter((sheet) => !without.includes(sheet)),
      );
    },
  }));
  const { chosen } = theme;
  desk.pane = openPane(byId('pane-content'), book, {
    version: packageJson.version,
    solve,
    beside: { say: notify, counted: tellCount },
    ...(chosen !== undefined && { isDark: chosen }),
  });
  // On a small screen what is due comes before the cells; an address that names a function leads to it.
  if (isSmall() && location.hash.length < 2) desk.pane.show('today');
  showFindings();
}

function listen(): void {
  theme.listen();
  const picker = byId<HTMLInputElement>('picker');
  for (const id of ['open', 'menu-open']) byId(id).addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => {
    void openFile(picker.files?.[0]);
    picker.value = '';
  });
  byId('save').addEventListener('click', () => void save());
  byId('undo').addEventListener('click', () => void undo());
  byId('redo').addEventListener('click', () => void redo());
  const place = byId<HTMLInputElement>('place');
  place.addEventListener('focus', () => place.select());
  place.addEventListener('blur', () => desk.current && showReading());
  place.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== 'Escape') return;
    // The cells get the keyboard, and not this key as well.
    event.preventDefault();
    if (event.key === 'Enter') goToWritten(place.value);
    else desk.current?.grid.focus();
  });
  byId('kept').before(workShown(works, () => desk.current?.grid.workbook.workOutStopped()));
  byId('forget').addEventListener('click', () => void forgetKept());
  byId('habits').addEventListener('click', () => void changeHabits());
  byId('findings-button').addEventListener('click', () => {
    if (!isPaneShown()) togglePane();
    desk.pane?.show('check');
  });
  byId('pane-button').addEventListener('click', togglePane);
  byId('pane-close').addEventListener('click', togglePane);
  for (const skip of document.querySelectorAll<HTMLElement>('#skips a')) {
    skip.addEventListener('click', (event) => {
      event.preventDefault();
      skipTo(skip.dataset['part']!);
    });
  }
  const line = new ResizeObserver(placeFormulaLine);
  for (const id of ['formula-line', 'grid']) line.observe(byId(id));
  window.addEventListener('beforeunload', (event) => {
    if (!isSafe()) event.preventDefault();
  });
  const act = listenToSheetMenu(
    () =>
      desk.current && {
        ...desk.current,
        opened: desk.current.bytes,
        bytes: () => bytesNow(desk.current!),
        goOn: async (bytes, step) => {
          const { name, grid, added } = desk.current!;
          const selection = grid.selection();
          if ('lines' in step) await goOn(name, bytes, added, step.lines);
          else await goOn(name, bytes, [...added, step.added]);
          desk.current!.grid.select('added' in step ? { sheet: step.added, address: 'A1' } : selection);
        },
        tell: notify,
      },
  );
  listenToMarks(() => act('filter'));
  byId('filtered').addEventListener('click', () => act('filter-off'));
  byId('refilter').addEventListener('click', () => act('filter-again'));
  listenForDrops();
  // In the cells Tab goes to the next cell: F6 goes round the parts of the page, as in other programs.
  window.addEventListener(
    'keydown',
    (event) => {
      const step = stepOf(event, act);
      if (event.key !== 'F6' && !step) return;
      event.preventDefault();
      // The engine listens to the window too.
      event.stopImmediatePropagation();
      if (step) void step();
      else goToPart(event.shiftKey ? -1 : 1);
    },
    { capture: true },
  );
}

/** Undo or redo where the keyboard is on the cells: they go over the steps of all that the workbook was. */
function stepOf(event: KeyboardEvent, act: (name: string) => void): (() => Promise<void> | void) | undefined {
  const key = event.key.toLowerCase();
  const isCommand = (event.ctrlKey || event.metaKey) && !event.altKey;
  // The engine's own printing knows nothing of this page, and takes the cells from it.
  if (isCommand && key === 'p') return () => act('print');
  const isOnCells = byId('grid').contains(document.activeElement);
  if (!isOnCells || !desk.current || desk.current.grid.isEdited()) return undefined;
  if (event.altKey && event.key === 'ArrowDown') return () => act('filter');
  if (!isCommand) return undefined;
  if (key === 'z') return event.shiftKey ? redo : undo;
  return key === 'y' ? redo : undefined;
}

async function changeHabits(): Promise<void> {
  const workbook = desk.current?.grid.workbook;
  const habits = workbook && (await askForHabits(workbook.habits));
  if (!habits) return;
  for (const { grid } of [desk.current!, ...desk.earlier, ...desk.later]) grid.workbook.habits = habits;
  follow();
}

function listenForDrops(): void {
  const veil = byId('drop');
  const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') === true;
  window.addEventListener('dragover', (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    veil.hidden = false;
  });
  window.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) veil.hidden = true;
  });
  window.addEventListener('drop', (event) => {
    veil.hidden = true;
    if (!hasFiles(event)) return;
    event.preventDefault();
    void openFile(event.dataTransfer?.files[0]);
  });
}

function tellCount(count: number, words: string): void {
  byId('findings-count').textContent = words;
  byId('findings-button').dataset.count = String(count);
}
