import packageJson from '../../../package.json';
import { caller } from '../engine/evaluator/pinsetFunctions';
import { listenToMarks } from '../engine/filters';
import type { Grid } from '../engine/grid';
import type { StandingFormula } from '../engine/engineWorkbook';
import { showGrid } from '../engine/grid';
import type { WorkbookContent } from '../engine/workbook';
import { VERSION_PROPERTY } from '../pane/book';
import { openPane, type Pane } from '../pane/pane';
import { workShown } from '../pane/workShown';
import { addressOf, areaOf, type Area } from '../xlsx/address';
import { readFilters, withFilters } from '../xlsx/filters';
import { addressAfter, type LineChange } from '../xlsx/lines';
import { listOfWords, withLists } from '../xlsx/lists';
import { Package, WorkbookFileError } from '../xlsx/package';
import { withNumberFormats } from '../xlsx/numberFormats';
import { solverIn } from '../worker/solver';
import { startWorker } from '../worker/start';
import { Works } from '../worker/works';
import { patchWorkbook } from '../xlsx/patch';
import { propertyOf, withProperty } from '../xlsx/properties';
import { readWorkbook } from '../xlsx/read';
import { withWidths } from '../xlsx/widths';
import { workbenchBook } from './book';
import { changesSince } from './changes';
import { remember, remembered } from './choices';
import { askForHabits, askWhichDay, habitsInWords } from './dialogs';
import { byId } from './element';
import { countOf } from './filtering';
import { findingsIn } from './findings';
import { freshPlace } from './freshPlace';
import { forgetBook, forgetPlace, keepBook, keepPlace, keptBook, keptPlace } from './keeping';
import { download } from './download';
import { printSheet } from './printing';
import { readingOf } from './reading';
import { listenToSheetMenu, XLSX_TYPE } from './sheetActions';
import { Theme } from './theme';

const SAMPLE = 'farm-book.xlsx';
const TEMPLATES = 'engine/o_spreadsheet.xml';
/** How long the person must have paused before all cells are gone through for faults. */
const PAUSE = 250;
const NOTICE_TIME = 8000;
/** How long the person must have paused before the browser keeps the workbook. */
const KEEPING_PAUSE = 1200;
/** Workbooks before changes of whole sheets that undo can go back to: each is held in memory. */
const MOST_STEPS = 8;
/** How long the person waits before the page says what for. */
const PATIENCE = 1000;
/** Where the pane lies over the cells rather than beside them. */
const COVERED = '(max-width: 760px)';

interface OpenFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly content: WorkbookContent;
  readonly grid: Grid;
  /** Sheets that the file as it was opened does not have. */
  readonly added: readonly string[];
}

const works = new Works();
const solve = solverIn(startWorker, caller, undefined, works);
const theme = new Theme(() => void dye());

let pane: Pane | undefined;
let current: OpenFile | undefined;
/** What the workbook was before sheets were added to it or taken away, the last first to go back to, and what it was after. */
const earlier: OpenFile[] = [];
const later: OpenFile[] = [];
let openings = 0;
let isChanged = false;
/** Whether this browser keeps all that was changed. */
let isKept = false;
let keeping: ReturnType<typeof setTimeout> | undefined;
let pausing: ReturnType<typeof setTimeout> | undefined;
let noticing: ReturnType<typeof setTimeout> | undefined;
let templates: string | undefined;

/** Starts the page: the sample workbook, and whatever the person opens or drops afterwards. */
export async function openWorkbench(): Promise<void> {
  listen();
  foldAsRemembered();
  if (!(await openKept())) {
    const response = await fetch(SAMPLE);
    if (response.ok) await open(SAMPLE, new Uint8Array(await response.arrayBuffer()));
  }
  const book = workbenchBook(() => ({
    ...current!,
    workbook: current!.grid.workbook,
    selection: () => current!.grid.selection(),
    savedWith: propertyOf(current!.bytes, VERSION_PROPERTY),
    select: (place) => {
      if (isCovered() && isPaneShown()) togglePane();
      current!.grid.select(place);
    },
    bytes: () => bytesNow(current!),
    become: async (bytes, sheet) => {
      const { name, added } = current!;
      await goOn(name, bytes, [...added, sheet]);
    },
    isTypedInto: () => current!.grid.canUndo(),
    becomeAgain: async (bytes, without) => {
      const { name, added } = current!;
      await goOn(
        name,
        bytes,
        added.filter((sheet) => !without.includes(sheet)),
      );
    },
  }));
  const { chosen } = theme;
  pane = openPane(byId('pane-content'), book, {
    version: packageJson.version,
    solve,
    beside: { say: notify, counted: tellCount },
    ...(chosen !== undefined && { isDark: chosen }),
  });
  // On a small screen what is due comes before the cells; an address that names a function leads to it.
  if (isCovered() && location.hash.length < 2) pane.show('today');
  showFindings();
}

function listen(): void {
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
  place.addEventListener('blur', () => current && showReading());
  place.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== 'Escape') return;
    // The cells get the keyboard, and not this key as well.
    event.preventDefault();
    if (event.key === 'Enter') goToWritten(place.value);
    else current?.grid.focus();
  });
  byId('kept').before(workShown(works, () => current?.grid.workbook.workOutStopped()));
  byId('forget').addEventListener('click', () => void forgetKept());
  byId('habits').addEventListener('click', () => void changeHabits());
  byId('findings-button').addEventListener('click', () => {
    if (!isPaneShown()) togglePane();
    pane?.show('check');
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
    if (isChanged && !isKept) event.preventDefault();
  });
  const act = listenToSheetMenu(
    () =>
      current && {
        ...current,
        bytes: () => bytesNow(current!),
        goOn: async (bytes, step) => {
          const { name, grid, added } = current!;
          const selection = grid.selection();
          if ('lines' in step) await goOn(name, bytes, added, step.lines);
          else await goOn(name, bytes, [...added, step.added]);
          current!.grid.select('added' in step ? { sheet: step.added, address: 'A1' } : selection);
        },
        tell: notify,
      },
  );
  listenToMarks(() => act('filter'));
  byId('filtered').addEventListener('click', () => act('filter-off'));
  listenForDrops();
  // In the cells Tab goes to the next cell: F6 goes round the parts of the page, as in other programs.
  window.addEventListener(
    'keydown',
    (event) => {
      const step = stepOf(event, act);
      if (event.key !== 'F6' && !step) return;
      event.preventDefault();
      event.stopPropagation();
      if (step) void step();
      else goToPart(event.shiftKey ? -1 : 1);
    },
    { capture: true },
  );
}

/** Undo or redo where the keyboard is on the cells: they go over the steps of all that the workbook was. */
function stepOf(event: KeyboardEvent, act: (name: string) => void): (() => Promise<void> | void) | undefined {
  const isOnCells = byId('grid').contains(document.activeElement);
  if (!isOnCells || !current || current.grid.isEdited()) return undefined;
  if (event.altKey && event.key === 'ArrowDown') return () => act('filter');
  if (event.altKey || !(event.ctrlKey || event.metaKey)) return undefined;
  const key = event.key.toLowerCase();
  // The engine's own printing knows nothing of this page.
  if (key === 'p') return () => Promise.resolve(printNow());
  if (key === 'z') return event.shiftKey ? redo : undo;
  return key === 'y' ? redo : undefined;
}

function printNow(): void {
  const fault = printSheet(current!.name, current!.grid);
  if (fault !== undefined) notify(fault);
}

async function undo(): Promise<void> {
  if (!current) return;
  if (current.grid.canUndo()) current.grid.undo();
  else await swap(earlier, later);
  isChanged = true;
  keepSoon();
}

async function redo(): Promise<void> {
  if (!current) return;
  if (current.grid.canRedo()) current.grid.redo();
  else await swap(later, earlier);
  isChanged = true;
  keepSoon();
}

/** Goes to what the workbook was before, or after, it became what it is. */
async function swap(from: OpenFile[], to: OpenFile[]): Promise<void> {
  const next = from.pop();
  if (!next || !current) return;
  const { sheet } = current.grid.selection();
  current.grid.hide();
  to.push(current);
  current = next;
  const place = freshPlace();
  await next.grid.show(place.target);
  if (next.grid.sheets().includes(sheet)) next.grid.select({ ...next.grid.selection(), sheet });
  follow();
  await drawn();
  place.open(() => next.grid.focus());
}

/** The workbook becomes another one in a step that undo takes back. */
async function goOn(
  name: string,
  bytes: Uint8Array,
  added: readonly string[],
  lines?: LineChange,
): Promise<void> {
  const before = current!;
  if (!(await show(name, bytes, added, before, lines))) return;
  isChanged = true;
  keepSoon();
  await drawn();
}

function keepSoon(): void {
  isKept = false;
  clearTimeout(keeping);
  keeping = setTimeout(() => void keep(), KEEPING_PAUSE);
}

function forget(steps: OpenFile[]): void {
  for (const { grid } of steps.splice(0)) grid.close();
}

async function changeHabits(): Promise<void> {
  const workbook = current?.grid.workbook;
  const habits = workbook && (await askForHabits(workbook.habits));
  if (!habits) return;
  for (const { grid } of [current!, ...earlier, ...later]) grid.workbook.habits = habits;
  follow();
}

/** Parts of the page in the order in which F6 goes round them, and where the keyboard lands in each. */
const PARTS: readonly { readonly id: string; readonly focus: () => void }[] = [
  { id: 'grid', focus: () => current?.grid.focus() },
  {
    id: 'pane',
    focus: () => byId('pane').querySelector<HTMLElement>('fluent-tab[aria-selected="true"]')?.focus(),
  },
  { id: 'tabs', focus: () => byId('tabs').querySelector<HTMLElement>('[aria-selected="true"]')?.focus() },
  { id: 'actions', focus: () => byId('findings-button').focus() },
];

/** Goes to a part of the page, which is unfolded for it. */
function skipTo(id: string): void {
  const isHidden = id === 'pane' ? !isPaneShown() : isCovered() && isPaneShown();
  if (isHidden) togglePane();
  PARTS.find((part) => part.id === id)!.focus();
}

function goToPart(step: 1 | -1): void {
  const shown = PARTS.filter(({ id }) => id !== 'pane' || isPaneShown());
  const at = shown.findIndex(({ id }) => byId(id).contains(document.activeElement));
  shown[at < 0 ? 0 : (at + step + shown.length) % shown.length]!.focus();
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

async function openFile(file: File | undefined): Promise<void> {
  if (!file) return;
  if (isChanged && !window.confirm('Open another workbook? What you changed in this one is not saved.'))
    return;
  await open(file.name, new Uint8Array(await file.arrayBuffer()));
  if (current?.name === file.name) await keep();
}

/** Opens what this browser kept of the last visit. */
async function openKept(): Promise<boolean> {
  const kept = await keptBook();
  if (!kept) return false;
  const place = keptPlace(kept.name);
  try {
    if (!(await show(kept.name, kept.bytes, kept.added))) return false;
    isChanged = kept.isChanged;
    isKept = true;
    if (place) current!.grid.select(place);
  } catch {
    await forgetBook();
    return false;
  }
  tellKept(kept.at);
  notify(`${kept.name} is here again, as it was at ${timeOf(kept.at)}. Nothing of it has left this browser.`);
  return true;
}

/** Keeps the workbook as it is now; once the plans in it are worked out, for their cells have no results before. */
async function keep(): Promise<void> {
  const kept = current;
  if (!kept) return;
  await kept.grid.workbook.longCallsAnswered();
  if (kept !== current) return;
  const at = Date.now();
  try {
    if (!(await keepBook({ name: kept.name, bytes: bytesNow(kept), added: kept.added, at, isChanged })))
      return;
    isKept = true;
    tellKept(at);
    keepPlace({ name: kept.name, ...kept.grid.selection() });
  } catch {
    // What cannot be saved now is told on saving; the book kept before stays.
  }
}

async function forgetKept(): Promise<void> {
  clearTimeout(keeping);
  forgetPlace();
  await forgetBook();
  isKept = false;
  byId('kept').hidden = true;
  notify(
    'This browser keeps no copy of the workbook any more. The page still has it open until you close it.',
  );
}

function tellKept(at: number): void {
  byId('kept').hidden = false;
  byId('kept-words').textContent = `Kept in this browser at ${timeOf(at)}`;
}

const timeOf = (at: number): string =>
  new Date(at).toLocaleTimeString(navigator.language, { hour: 'numeric', minute: '2-digit' });

/** Opens a workbook in place of the one that is open; where that cannot be done, that one stays. */
async function open(name: string, bytes: Uint8Array): Promise<void> {
  try {
    if (!(await show(name, bytes, []))) return;
  } catch (fault) {
    if (!(fault instanceof WorkbookFileError)) throw fault;
    notify(`${name} was not opened: ${fault.message}.`);
    return;
  }
  isChanged = false;
  if (current!.content.dateSystem === 1904) {
    notify('This workbook counts its days from 1904: its dates are shown as numbers here.');
  }
}

/** A grid that was just put in the page knows its size, and so what is in view, once it has been drawn. */
const drawn = (): Promise<void> =>
  new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())));

/**
 * @returns false where another workbook was opened meanwhile: that is the one that stays
 * @throws WorkbookFileError, before anything on the page has changed
 */
async function show(
  name: string,
  bytes: Uint8Array,
  added: readonly string[],
  before?: OpenFile,
  lines?: LineChange,
): Promise<boolean> {
  const content = readWorkbook(bytes);
  templates ??= await (await fetch(TEMPLATES)).text();
  forget(later);
  if (before) {
    before.grid.hide();
    before.grid.forgetUndone();
    earlier.push(before);
    if (earlier.length > MOST_STEPS) earlier.shift()!.grid.close();
  } else {
    forget(earlier);
    current?.grid.close();
  }
  const place = freshPlace();
  const opening = ++openings;
  const grid = await patiently(
    `Opening ${name}; its plans are being worked out.`,
    showGrid({
      target: place.target,
      content,
      parts: xmlPartsOf(bytes),
      templates,
      solve,
      onChange: () => follow(),
      onStep: () => {
        isChanged = true;
        forget(later);
        keepSoon();
      },
      onNotice: notify,
      ask: askWhichDay,
      language: navigator.language,
      filters: readFilters(bytes),
      standing: before && standingAfter(before.grid.workbook.keptNow(), lines),
      isDark: () => theme.isDark,
    }),
  );
  if (opening !== openings) {
    grid.close();
    return false;
  }
  if (before) grid.workbook.habits = before.grid.workbook.habits;
  else pane?.begin();
  current = { name, bytes, content, grid, added };
  byId('file').textContent = name;
  byId<HTMLButtonElement>('save').disabled = false;
  follow();
  showFindings();
  place.open(() => grid.focus());
  return true;
}

/** The formulas that keep their results, where they are after a change of rows or columns. */
const standingAfter = (kept: readonly StandingFormula[], lines: LineChange | undefined): StandingFormula[] =>
  kept.flatMap((one) => {
    const address = lines ? addressAfter(lines, one.sheet, one.address) : one.address;
    return address === undefined ? [] : [{ ...one, address }];
  });

/** The XML of a file by part name, for its looks. */
function xmlPartsOf(bytes: Uint8Array): Record<string, string> {
  const file = Package.open(bytes);
  const names = file.names.filter((name) => /\.(xml|rels)$/i.test(name));
  return Object.fromEntries(names.map((name) => [name, file.text(name)]));
}

/** The file with all that was typed into it, the lists of what was put in, and the version that did it. */
function bytesNow({ bytes, content, grid: { workbook }, added }: OpenFile): Uint8Array {
  const changes = changesSince(content, workbook);
  const widths = workbook.widths();
  const filters = workbook.filters();
  const formats = workbook.numberFormats();
  if ([changes, added, widths, filters, formats].every(({ length }) => length === 0)) return bytes;
  const lists = workbook.offered().map(({ sheet, area, from }) => ({
    sheet,
    area,
    source: typeof from === 'string' ? from : listOfWords(from),
  }));
  return withProperty(
    withFilters(
      withWidths(withLists(withNumberFormats(patchWorkbook(bytes, changes), formats), lists), widths),
      filters,
    ),
    VERSION_PROPERTY,
    packageJson.version,
  );
}

async function save(): Promise<void> {
  if (!current) return;
  try {
    const { workbook } = current.grid;
    await patiently('The copy is saved once the plan is worked out.', workbook.longCallsAnswered());
    if (workbook !== current.grid.workbook) return;
    const changes = changesSince(current.content, current.grid.workbook);
    const bytes = bytesNow(current);
    download(current.name.replace(/(\.xlsx)?$/i, ' - copy.xlsx'), bytes, XLSX_TYPE);
    isChanged = false;
    notify(savedWords(changes.length, current.added));
  } catch (fault) {
    notify(`The copy was not saved: ${fault instanceof Error ? fault.message : 'something unforeseen'}.`);
  }
}

function savedWords(changes: number, added: readonly string[]): string {
  if (added.length > 0) {
    return `Saved a copy with the new ${added.length === 1 ? 'sheet' : 'sheets'} ${added.join(', ')} and all that you typed.`;
  }
  return changes === 0
    ? 'Saved a copy; nothing differed from the file.'
    : `Saved a copy with ${changes} changed ${changes === 1 ? 'cell' : 'cells'}; everything else is as it was.`;
}

/** Brings the page in line with the grid. */
function follow(): void {
  if (!current) return;
  const { grid } = current;
  const undo = byId<HTMLButtonElement>('undo');
  undo.disabled = !grid.canUndo() && earlier.length === 0;
  byId<HTMLButtonElement>('redo').disabled = !grid.canRedo() && later.length === 0;
  byId('habits').textContent = habitsInWords(grid.workbook.habits);
  showReading();
  showTabs();
  if (!byId('kept').hidden) keepPlace({ name: current.name, ...grid.selection() });
  const count = countOf(grid.workbook.filtersIn(grid.selection().sheet));
  byId('filtered').hidden = !count;
  if (count) byId('filtered').textContent = `${count.shown} of ${count.all} rows: show all`;
  clearTimeout(pausing);
  pausing = setTimeout(showFindings, PAUSE);
}

function showReading(): void {
  const { place, formula, shown, reason, kind } = readingOf(current!.grid);
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

function showTabs(): void {
  const { grid } = current!;
  const names = grid.sheets();
  const { sheet } = grid.selection();
  const tabs = byId('tabs');
  const shown = [...tabs.children].map((tab) => tab.textContent);
  if (names.join('\n') !== shown.join('\n')) tabs.replaceChildren(...names.map(tabFor));
  for (const tab of tabs.children as HTMLCollectionOf<HTMLElement>) {
    const isActive = tab.textContent === sheet;
    // The row of tabs alone: the page stays where it is.
    if (isActive && tab.ariaSelected !== 'true') {
      const [first, last] = [tab.offsetLeft, tab.offsetLeft + tab.offsetWidth - tabs.clientWidth];
      if (tabs.scrollLeft > first || tabs.scrollLeft < last)
        tabs.scrollLeft = tabs.scrollLeft > first ? first : last;
    }
    tab.ariaSelected = String(isActive);
    tab.tabIndex = isActive ? 0 : -1;
  }
}

function tabFor(name: string): HTMLElement {
  const tab = document.createElement('button');
  tab.type = 'button';
  tab.textContent = name;
  tab.setAttribute('role', 'tab');
  tab.setAttribute('aria-controls', 'grid');
  tab.addEventListener('click', () => goTo(name));
  tab.addEventListener('keydown', (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (step === undefined) return;
    const tabs = [...byId('tabs').children] as HTMLElement[];
    const next = tabs[(tabs.indexOf(tab) + step + tabs.length) % tabs.length]!;
    goTo(next.textContent);
    next.focus();
  });
  return tab;
}

function goTo(sheet: string, address?: string): void {
  const grid = current?.grid;
  if (!grid) return;
  grid.select({ sheet, address: address ?? grid.selection().address });
}

/** Goes to `B7`, `Lots!B7`, a table, a defined name or a sheet. */
function goToWritten(text: string): void {
  const { grid, content } = current!;
  const [, quoted, plain, within] = /^(?:'((?:[^']|'')+)'!|([^!]+)!)?(.*)$/.exec(text.trim())!;
  const sheet = quoted?.replaceAll("''", "'") ?? plain ?? grid.selection().sheet;
  const area = areaOf(within!.replaceAll('$', ''));
  const table = content.vocabulary?.table(within!);
  const meant = table ?? (area && { sheet, area }) ?? named(within!, sheet);
  const there = meant && grid.sheets().find((one) => one.toLowerCase() === meant.sheet.toLowerCase());
  if (!meant || there === undefined) {
    notify(`There is no ${text} to go to: type an address such as B7, or the name of a table.`);
    return;
  }
  const address = addressOf({ row: meant.area.top, column: meant.area.left });
  goTo(there, address);
  if (grid.selection().address !== address) notify(`The sheet ${there} does not reach to ${address}.`);
  // Cells that are just being put into the page take the keyboard where nothing else has it.
  byId('place').blur();
  grid.focus();
}

function named(name: string, from: string): { sheet: string; area: Area } | undefined {
  const meaning = current!.content.vocabulary?.name(name, from);
  const found = /^(?:'((?:[^']|'')+)'|([^'!(]+))!([$A-Z\d:]+)$/i.exec(meaning ?? '');
  const area = found && areaOf(found[3]!.replaceAll('$', ''));
  return area ? { sheet: found[1]?.replaceAll("''", "'") ?? found[2]!, area } : undefined;
}

/** The pane shows by itself where there is room beside the grid; the style sheet says where. */
const isPaneShown = (): boolean => getComputedStyle(byId('pane')).display !== 'none';
const isCovered = (): boolean => window.matchMedia(COVERED).matches;

function togglePane(): void {
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
function foldAsRemembered(): void {
  const choice = remembered('pane');
  if (isCovered()) showPane(true);
  else if (choice !== null) showPane(choice === 'shown');
  byId('pane-button').ariaExpanded = String(isPaneShown());
}

/** Puts the grid's formula line where the page has a place for it. */
function placeFormulaLine(): void {
  const [place, grid] = [byId('formula-line'), byId('grid')].map((one) => one.getBoundingClientRect());
  const style = byId('grid').style;
  style.setProperty('--line-top', `${place!.top - grid!.top}px`);
  style.setProperty('--line-left', `${place!.left - grid!.left}px`);
  style.setProperty('--line-width', `${place!.width}px`);
  // The engine asks how large it may be when the window changes, and not when the parts beside it do.
  window.dispatchEvent(new Event('resize'));
}

/** Cells and pane in the theme that was chosen. */
async function dye(): Promise<void> {
  pane?.dye(theme.chosen);
  if (!current) return;
  const { grid } = current;
  const isOnCells = byId('grid').contains(document.activeElement);
  grid.hide();
  const place = freshPlace();
  await grid.show(place.target);
  await drawn();
  place.open(() => isOnCells && grid.focus());
}

function tellCount(count: number, words: string): void {
  byId('findings-count').textContent = words;
  byId('findings-button').dataset.count = String(count);
}

function showFindings(): void {
  if (current) pane?.found(findingsIn(current.grid.workbook));
}

async function patiently<T>(words: string, work: Promise<T>): Promise<T> {
  const late = setTimeout(() => notify(words), PATIENCE);
  try {
    return await work;
  } finally {
    clearTimeout(late);
  }
}

function notify(text: string): void {
  const notice = byId('notice');
  notice.textContent = text;
  clearTimeout(noticing);
  noticing = setTimeout(() => (notice.textContent = ''), NOTICE_TIME);
}
