import { addressOf, areaOf, type Area } from '../xlsx/address';
import { desk } from './desk';
import { byId } from './element';
import { isCovered, isPaneShown, togglePane } from './layout';
import { notify } from './notices';

/** Parts of the page in the order in which F6 goes round them, and where the keyboard lands in each. */
const PARTS: readonly { readonly id: string; readonly focus: () => void }[] = [
  { id: 'grid', focus: () => desk.current?.grid.focus() },
  {
    id: 'pane',
    focus: () => byId('pane').querySelector<HTMLElement>('fluent-tab[aria-selected="true"]')?.focus(),
  },
  { id: 'tabs', focus: () => byId('tabs').querySelector<HTMLElement>('[aria-selected="true"]')?.focus() },
  { id: 'actions', focus: () => byId('findings-button').focus() },
];

/** Goes to a part of the page, which is unfolded for it. */
export function skipTo(id: string): void {
  const isHidden = id === 'pane' ? !isPaneShown() : isCovered() && isPaneShown();
  if (isHidden) togglePane();
  PARTS.find((part) => part.id === id)!.focus();
}

export function goToPart(step: 1 | -1): void {
  const shown = PARTS.filter(({ id }) => id !== 'pane' || isPaneShown());
  const at = shown.findIndex(({ id }) => byId(id).contains(document.activeElement));
  shown[at < 0 ? 0 : (at + step + shown.length) % shown.length]!.focus();
}

export function showTabs(): void {
  const { grid } = desk.current!;
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
  const grid = desk.current?.grid;
  if (!grid) return;
  grid.select({ sheet, address: address ?? grid.selection().address });
}

/** Goes to `B7`, `Lots!B7`, a table, a defined name or a sheet. */
export function goToWritten(text: string): void {
  const { grid } = desk.current!;
  const [, quoted, plain, within] = /^(?:'((?:[^']|'')+)'!|([^!]+)!)?(.*)$/.exec(text.trim())!;
  const sheet = quoted?.replaceAll("''", "'") ?? plain ?? grid.selection().sheet;
  const area = areaOf(within!.replaceAll('$', ''));
  const table = grid.workbook.vocabulary?.table(within!);
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
  const meaning = desk.current!.content.vocabulary?.name(name, from);
  const found = /^(?:'((?:[^']|'')+)'|([^'!(]+))!([$A-Z\d:]+)$/i.exec(meaning ?? '');
  const area = found && areaOf(found[3]!.replaceAll('$', ''));
  return area ? { sheet: found[1]?.replaceAll("''", "'") ?? found[2]!, area } : undefined;
}
