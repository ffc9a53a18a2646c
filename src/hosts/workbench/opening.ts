import { caller } from '../engine/evaluator/pinsetFunctions';
import type { StandingFormula } from '../engine/engineWorkbook';
import { showGrid } from '../engine/grid';
import { keyboardFromHere, type TakeKeyboard } from '../pane/keyboard';
import { readFilters } from '../xlsx/filters';
import { addressAfter, type LineChange } from '../xlsx/lines';
import { Package, WorkbookFileError } from '../xlsx/package';
import { readWorkbook } from '../xlsx/read';
import { solverIn } from '../worker/solver';
import { startWorker } from '../worker/start';
import { Works } from '../worker/works';
import { keep, keepSoon, wasKept, timeOf } from './autosave';
import { desk, showFindings, type OpenFile } from './desk';
import { askWhichDay } from './dialogs';
import { download } from './download';
import { byId } from './element';
import { follow } from './following';
import { freshPlace } from './freshPlace';
import { keptBook, keptPlace } from './keeping';
import { theme } from './colours';
import { notify, patiently } from './notices';
import { XLSX_TYPE } from './sheetActions';
import { drawn, forget, goneOnFrom, inTurn } from './steps';

const TEMPLATES = 'engine/o_spreadsheet.xml';

export const works = new Works();
export const solve = solverIn(startWorker, caller, undefined, works);

let openings = 0;
let templates: string | undefined;

/** The workbook becomes another one in a step that undo takes back. */
export const goOn = (
  name: string,
  bytes: Uint8Array,
  added: readonly string[],
  lines?: LineChange,
): Promise<void> =>
  inTurn(async (takeKeyboard) => {
    if (!(await show(name, bytes, added, { before: desk.current!, lines, takeKeyboard }))) return;
    desk.isChanged = true;
    keepSoon();
    await drawn();
  });

export async function openFile(file: File | undefined): Promise<void> {
  if (!file) return;
  if (desk.isChanged && !window.confirm('Open another workbook? What you changed in this one is not saved.'))
    return;
  await open(file.name, new Uint8Array(await file.arrayBuffer()));
  if (desk.current?.name === file.name) await keep();
}

/** Opens what this browser kept of the last visit. */
export async function openKept(): Promise<boolean> {
  const kept = await keptBook();
  if (!kept) return false;
  const place = keptPlace(kept.name);
  await engineTemplates();
  try {
    if (!(await show(kept.name, kept.bytes, kept.added))) return false;
  } catch {
    // It is the person's all the same, and the next book takes its place here.
    download(kept.name, kept.bytes, XLSX_TYPE);
    notify(`${kept.name} cannot be opened again, so it was saved as a file.`);
    return false;
  }
  desk.isChanged = kept.isChanged;
  if (place) desk.current!.grid.select(place);
  wasKept(kept.at);
  notify(`${kept.name} is here again, as it was at ${timeOf(kept.at)}. Nothing of it has left this browser.`);
  return true;
}

/** Opens a workbook in place of the one that is open; where that cannot be done, that one stays. */
export async function open(name: string, bytes: Uint8Array): Promise<void> {
  try {
    if (!(await show(name, bytes, []))) return;
  } catch (fault) {
    if (!(fault instanceof WorkbookFileError)) throw fault;
    notify(`${name} was not opened: ${fault.message}.`);
    return;
  }
  desk.isChanged = false;
  if (desk.current!.content.dateSystem === 1904) {
    notify('This workbook counts its days from 1904: its dates are shown as numbers here.');
  }
}

/** What a workbook was before it became another in a step. */
interface Becoming {
  readonly before?: OpenFile;
  readonly lines?: LineChange | undefined;
  readonly takeKeyboard?: TakeKeyboard;
}

/**
 * @returns false where another workbook was opened meanwhile: that is the one that stays
 * @throws WorkbookFileError, before anything on the page has changed
 */
async function show(
  name: string,
  bytes: Uint8Array,
  added: readonly string[],
  { before, lines, takeKeyboard = keyboardFromHere() }: Becoming = {},
): Promise<boolean> {
  const content = readWorkbook(bytes);
  const drawnBy = await engineTemplates();
  forget(desk.later);
  if (before) {
    goneOnFrom(before);
  } else {
    forget(desk.earlier);
    desk.current?.grid.close();
  }
  const place = freshPlace(takeKeyboard);
  const opening = ++openings;
  const grid = await patiently(
    `Opening ${name}; its plans are being worked out.`,
    showGrid({
      target: place.target,
      content,
      parts: xmlPartsOf(bytes),
      templates: drawnBy,
      solve,
      onChange: () => follow(),
      onStep: () => {
        desk.isChanged = true;
        forget(desk.later);
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
  else desk.pane?.begin();
  desk.current = { name, bytes, content, grid, added };
  byId('file').textContent = name;
  byId<HTMLButtonElement>('save').disabled = false;
  follow();
  showFindings();
  place.open(() => grid.focus());
  return true;
}

const engineTemplates = async (): Promise<string> => (templates ??= await (await fetch(TEMPLATES)).text());

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
