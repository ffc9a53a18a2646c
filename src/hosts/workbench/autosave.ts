import { desk, type OpenFile } from './desk';
import { byId } from './element';
import { forgetBook, forgetPlace, keepBook, keepPlace } from './keeping';
import { notify } from './notices';
import { bytesNow } from './saved';

/** How long the person must have paused before the browser keeps the workbook. */
const KEEPING_PAUSE = 1200;

/** How often something was changed: a copy holds what was changed before it was made, and no more. */
let timesChanged = 0;
/** Whether this browser keeps all that was changed. */
let isKept = false;
/** When this browser was last given a copy that it still keeps. */
let keptAt: number | undefined;
/** How often the person had the copy forgotten. */
let forgotten = 0;
let keeping: ReturnType<typeof setTimeout> | undefined;

/** After every change. */
export function keepSoon(): void {
  tellAll(false);
  timesChanged++;
  clearTimeout(keeping);
  keeping = setTimeout(() => void keep(), KEEPING_PAUSE);
}

/** Keeps the workbook as it is now; once the plans in it are worked out, for their cells have no results before. */
export async function keep(): Promise<void> {
  const kept = desk.current;
  const before = forgotten;
  if (!kept) return;
  await kept.grid.workbook.longCallsAnswered();
  if (kept !== desk.current || before !== forgotten) return;
  const at = Date.now();
  const held = timesChanged;
  let isDone = false;
  try {
    isDone = await keepBook({
      name: kept.name,
      bytes: bytesNow(kept),
      added: kept.added,
      at,
      isChanged: desk.isChanged,
    });
  } catch {
    // Why it cannot be saved now is told on saving; the book kept before stays.
  }
  if (before !== forgotten) return forgetBook();
  if (kept !== desk.current) return;
  if (!isDone) return tellNotKept();
  tellAll(held === timesChanged);
  tellKept(at);
  keepPlace({ name: kept.name, ...kept.grid.selection() });
}

/** Deletes the copy, as the person asked. */
export async function forgetKept(): Promise<void> {
  clearTimeout(keeping);
  forgotten++;
  forgetPlace();
  await forgetBook();
  isKept = false;
  keptAt = undefined;
  byId('kept').hidden = true;
  notify(
    'This browser keeps no copy of the workbook any more. The page still has it open until you close it.',
  );
}

/** Whether the page may be left without a loss. */
export const isSafe = (): boolean => !desk.isChanged || isKept;

/** The workbook that is open is the copy that was kept then. */
export function wasKept(at: number): void {
  tellAll(true);
  tellKept(at);
}

/** Where the person is, if there is a book to come back to. */
export function keepPlaceNow({ name, grid }: OpenFile): void {
  if (keptAt !== undefined) keepPlace({ name, ...grid.selection() });
}

function tellAll(all: boolean): void {
  isKept = all;
  byId('kept').dataset['all'] = String(all);
}

function tellKept(at: number): void {
  keptAt = at;
  tellOfCopy(`Kept in this browser at ${timeOf(at)}`);
}

function tellNotKept(): void {
  tellOfCopy(
    keptAt === undefined
      ? 'This browser keeps no copy: save one before you leave'
      : `The copy in this browser is of ${timeOf(keptAt)}: save a newer one`,
  );
}

function tellOfCopy(words: string): void {
  byId('kept').hidden = false;
  byId('kept-words').textContent = words;
  byId('forget').hidden = keptAt === undefined;
}

export const timeOf = (at: number): string =>
  new Date(at).toLocaleTimeString(navigator.language, { hour: 'numeric', minute: '2-digit' });
