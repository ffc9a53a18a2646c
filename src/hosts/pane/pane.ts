import '@fluentui/web-components/button.js';
import '@fluentui/web-components/tab.js';
import '@fluentui/web-components/tablist.js';
import '@fluentui/web-components/text-input.js';
import { setTheme } from '@fluentui/web-components';
import { webDarkTheme, webLightTheme } from '@fluentui/tokens';
import { typedCell } from '../../worksheet/cells/shown';
import type { Grid } from '../../worksheet/cells/cell';
import type { DescribedFunction } from '../../worksheet/words';
import { newCaller } from '../../worksheet/call';
import { described } from '../../worksheet/described';
import type { Solve } from '../worker/solver';
import type { Works } from '../worker/works';
import { listed } from '../../worksheet/wording/phrases';
import { JOB } from '../fit/jobs';
import type { Block, Book, Place } from './book';
import { boardOf, boardPart } from './board/boardPart';
import { BLANKS, blanksArticle } from './blanks';
import { CELL_ERRORS, cellErrorsArticle } from './cellErrors';
import { checkBook, type Finding } from './check';
import type { DataFindings } from './dataFindings';
import { exampleCells, functionArticle, foundLinks, guideIndex, resultTable } from './guide';
import { emptyCall, exampleBlock } from './insertion';
import { keyboardFromHere } from './keyboard';
import { layDownStarter, type LaidDown } from './layDown';
import { onDemand } from './onDemand';
import type { OwnSheet } from './own/ownSheet';
import { ownSheetOf, ownSheetPart } from './own/ownSheetPart';
import { node, toElement, type PageNode } from './node';
import { explained } from './reasons';
import { finder } from './search';
import { STARTERS } from './starters';
import { TodayPart } from './todayPart';
import type { Units } from './units';
import { workShown } from './workShown';

/** What the pane remembers between openings, on this computer only. */
const UNITS_KEY = 'pinset.units';

function rememberedUnits(): Units {
  try {
    return localStorage.getItem(UNITS_KEY) === 'us' ? 'us' : 'metric';
  } catch {
    return 'metric';
  }
}

function rememberUnits(units: Units): void {
  try {
    localStorage.setItem(UNITS_KEY, units);
  } catch {
    // Where the host forbids storage the choice holds until the pane is closed.
  }
}

const UNITS: readonly { units: Units; name: string }[] = [
  { units: 'metric', name: 'metric (kg, °C)' },
  { units: 'us', name: 'US (lb, °F)' },
];

/** The guide's accent in place of the library's blue; white on the buttons has a contrast of 7. */
const accented = (stroke: string): Record<string, string> => ({
  colorBrandBackground: '#8f3d12',
  colorBrandBackgroundHover: '#7b3410',
  colorBrandBackgroundPressed: '#682b0c',
  colorCompoundBrandStroke: stroke,
  colorCompoundBrandStrokeHover: stroke,
  colorCompoundBrandStrokePressed: stroke,
});
const LIGHT = { ...webLightTheme, ...accented('#8f3d12') };
const DARK = { ...webDarkTheme, ...accented('#f0a073') };

/** Parts of the pane: what is due, find a function, use the grower's own sheets, lay down a sheet, draw a plan, check the book. */
const TABS = [
  { id: 'today', title: 'Today' },
  { id: 'find', title: 'Find' },
  { id: 'own', title: 'Use my sheet' },
  { id: 'start', title: 'Starters' },
  { id: 'board', title: 'Board' },
  { id: 'check', title: 'Check' },
] as const;
export type TabId = (typeof TABS)[number]['id'];

function skeleton(isBeside: boolean, calculatesAgain: boolean): PageNode {
  return node(
    isBeside ? 'div' : 'main',
    { class: 'pinset pane' },
    isBeside ? node('h2', { class: 'unseen' }, 'Functions and lists') : node('h1', {}, 'Pinset'),
    node(
      'fluent-tablist',
      { 'aria-label': 'Parts of the pane', activeid: 'tab-find' },
      TABS.map(({ id, title }) =>
        node('fluent-tab', { id: `tab-${id}`, 'aria-controls': `panel-${id}` }, title),
      ),
    ),
    node(
      'section',
      { id: 'panel-today', role: 'tabpanel', 'aria-labelledby': 'tab-today', hidden: '' },
      node('h2', { class: 'unseen' }, 'Today'),
      node('div', { id: 'today' }),
    ),
    node(
      'section',
      { id: 'panel-find', role: 'tabpanel', 'aria-labelledby': 'tab-find' },
      node('h2', { class: 'unseen' }, 'Find a function'),
      node(
        'div',
        { class: 'search', role: 'search' },
        node('label', { for: 'words' }, 'What do you want to know?'),
        node('fluent-text-input', {
          id: 'words',
          type: 'search',
          placeholder: 'water, too old, recall …',
          'aria-label': 'What do you want to know?',
        }),
      ),
      node(
        'div',
        { class: 'units', role: 'radiogroup', 'aria-label': 'Units of the examples' },
        node('span', { class: 'label' }, 'Examples in'),
        UNITS.map(({ units, name }) =>
          node('label', {}, node('input', { type: 'radio', name: 'units', value: units }), name),
        ),
      ),
      node('div', { id: 'guide' }),
    ),
    node(
      'section',
      { id: 'panel-own', role: 'tabpanel', 'aria-labelledby': 'tab-own', hidden: '' },
      node('h2', { class: 'unseen' }, 'Use my sheet'),
      ...ownSheetPart(),
    ),
    node(
      'section',
      { id: 'panel-start', role: 'tabpanel', 'aria-labelledby': 'tab-start', hidden: '' },
      node('h2', { class: 'unseen' }, 'Starter sheets'),
      starterList(),
    ),
    node(
      'section',
      { id: 'panel-board', role: 'tabpanel', 'aria-labelledby': 'tab-board', hidden: '' },
      node('h2', { class: 'unseen' }, 'Board'),
      ...boardPart(),
    ),
    node(
      'section',
      { id: 'panel-check', role: 'tabpanel', 'aria-labelledby': 'tab-check', hidden: '' },
      node('h2', { class: 'unseen' }, 'Check this workbook'),
      node(
        'p',
        {},
        'Looks through the whole workbook: for dates and figures that are text, slips of per cent, labels spelled two ways, and Pinset formulas that show an error, are slow or miss rows. Nothing is changed before you click.',
      ),
      node(
        'p',
        { class: 'actions' },
        node('fluent-button', { appearance: 'primary', 'data-act': 'check' }, 'Check this workbook'),
        ' ',
        calculatesAgain && node('fluent-button', { 'data-act': 'calculate' }, 'Calculate again'),
      ),
      calculatesAgain &&
        node(
          'p',
          {},
          'Cells that show #BUSY! or #NAME? may only need Calculate again. ',
          node('a', { href: `#${CELL_ERRORS}` }, 'Cells that show an error'),
          ' has the rest.',
        ),
      node('div', { id: 'checked', 'aria-live': 'polite' }),
    ),
    !isBeside && node('div', { id: 'message', role: 'status', 'aria-live': 'polite' }),
    !isBeside &&
      node(
        'footer',
        {},
        node(
          'p',
          {},
          'Pinset calculates; it does not know your room, your steriliser or your law. Local codes and licensed practice decide.',
        ),
      ),
  );
}

function starterList(): PageNode[] {
  return [
    node('p', {}, 'Each is laid down on a new sheet with a few invented rows: overwrite them with your own.'),
    node(
      'ul',
      { class: 'starters' },
      STARTERS.map((plan) =>
        node(
          'li',
          {},
          node('h3', {}, plan.title),
          node('p', {}, plan.notes[0]),
          node(
            'p',
            { class: 'actions' },
            node(
              'fluent-button',
              { 'data-act': 'start', 'data-for': plan.name },
              `Add the sheet ${plan.name}`,
            ),
          ),
        ),
      ),
    ),
  ];
}

/** What a starter brought, and what became of tables of the grower's own that have the names of its tables. */
function laidDownWords({ sheets, beside }: LaidDown): string {
  const added =
    sheets.length === 1
      ? `The sheet ${sheets[0]!} is in your workbook.`
      : `The sheets ${listed(sheets)} are in your workbook: the last one reads the others.`;
  if (beside.length === 0) return added;
  const [own, instead] = [beside.map(([one]) => one), beside.map(([, one]) => one)];
  const tables = own.length === 1 ? 'table' : 'tables';
  return `${added} It reads the new ${tables} ${listed(instead)}, not your own ${tables} ${listed(own)}: “Use my sheet” works from those.`;
}
const wordsOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));

/** How long cells must have been left alone before the list of today is read again. */
const CHANGE_PAUSE = 800;

/** Cells of one cause that are named beside the first. */
const MOST_NAMED = 6;

function findingItem({ kind, place, places = [], words, formula }: Finding, at: number): PageNode {
  const cellOf = (one: Place): string => `${one.sheet}!${one.address}`;
  const first = place ? cellOf(place) : 'The whole workbook';
  const others = places.slice(1, MOST_NAMED + 1);
  const unnamed = places.length - 1 - others.length;
  return node(
    'li',
    { class: kind },
    node('b', {}, first),
    others.length > 0 && node('span', { class: 'quiet' }, ` and ${places.length - 1} more of the same cause`),
    node('p', {}, words),
    formula !== undefined && node('code', {}, formula),
    others.length > 0 &&
      node(
        'p',
        { class: 'places' },
        others.flatMap((one, n) => [
          node(
            'button',
            { type: 'button', 'data-act': 'go', 'data-for': `${at}:${n + 1}` },
            one.sheet === place?.sheet ? one.address : cellOf(one),
          ),
          ' ',
        ]),
        unnamed > 0 && `and ${unnamed} more`,
      ),
    place !== undefined &&
      node(
        'p',
        { class: 'actions' },
        node(
          'fluent-button',
          { size: 'small', 'data-act': 'go', 'data-for': `${at}:0`, 'aria-label': `Go to ${first}` },
          others.length > 0 ? 'Go to the first cell' : 'Go to the cell',
        ),
      ),
  );
}

/** How the pane is placed in its page. */
export interface PaneOptions {
  /** The add-in's own version. */
  readonly version: string;
  /** Works out a call that may take long. */
  readonly solve: Solve;
  /** Where it is not shown elsewhere on the page: what is being worked out. */
  readonly works?: Works;
  /** Set where the pane is a part of a page that has a heading, a theme and a place for messages of its own. */
  readonly beside?: {
    readonly say: (text: string) => void;
    /** After every change of what there is to look at, in the words that are shown everywhere. */
    readonly counted: (count: number, words: string) => void;
  };
  /** Whether the host is dark; left out where the device's own choice holds. */
  readonly isDark?: boolean;
}

/** What a page does to the pane in it. */
export interface Pane {
  show(tab: TabId): void;
  /** Another workbook is open: what was found in the one before is of no use. */
  begin(): void;
  /** Takes what is to be looked at in cells, where the page watches them. */
  found(cells: readonly Finding[]): void;
  /** Light, dark, or as the device is. */
  dye(isDark: boolean | undefined): void;
}

/** Shows the pane in `root`; what it does to the workbook goes through `book`. */
export function openPane(
  root: HTMLElement,
  book: Book,
  { version, solve, works, beside, isDark }: PaneOptions,
): Pane {
  const search = finder(described, STARTERS, Object.values(JOB));
  const caller = newCaller();
  let units = rememberedUnits();
  let findings: readonly Finding[] = [];
  /** What is to be looked at in cells; undefined where the host does not watch them. */
  let cells: readonly Finding[] | undefined;
  /** Those that the list shows. */
  let toldFindings = '';
  let isChecked = false;
  let tab: TabId = 'find';
  let doing = Promise.resolve();
  let looking = Promise.resolve();
  /** Undefined where nobody tells of changes; asked again then. */
  let hearing: Promise<void> | undefined;
  let pausing: ReturnType<typeof setTimeout> | undefined;
  /** How often the guide was asked for a page: one that comes late does not take the place of the next. */
  let guideAsked = 0;
  root.replaceChildren(toElement(skeleton(beside !== undefined, book.calculateAgain !== undefined)));
  if (works)
    root.querySelector('fluent-tablist')!.before(workShown(works, book.calculateAgain && calculateAgain));
  const part = <E extends HTMLElement>(selector: string): E => root.querySelector<E>(selector)!;
  const guide = part('#guide');
  const words = part<HTMLElement & { value?: string }>('#words');
  /** Undefined until the browser has made the field. */
  const typedWords = (): string => (words.value ?? '').trim();

  const say = (text: string): void => (beside ? beside.say(text) : part('#message').replaceChildren(text));

  function calculateAgain(): void {
    doing = doing
      .then(() => act('calculate', ''))
      .catch((fault: unknown) => say(`That did not work: ${wordsOf(fault)}`));
  }

  function showTab(wanted: TabId): void {
    if (!beside) say('');
    for (const { id } of TABS) {
      part(`#panel-${id}`).hidden = id !== wanted;
      // One of the tabs is in the order of the keyboard: a tab opens as soon as it is reached.
      part(`#tab-${id}`).tabIndex = id === wanted ? 0 : -1;
    }
    if (wanted === 'today' && tab !== 'today') lookAtToday();
    tab = wanted;
  }

  function openTab(wanted: TabId): void {
    part('fluent-tablist').setAttribute('activeid', `tab-${wanted}`);
    showTab(wanted);
  }

  function lookAtToday(): void {
    hearing ??= book.whenChanged?.(lookAgainSoon).catch(() => (hearing = undefined));
    looking = looking
      .then(() => todayPart.look())
      .catch((fault: unknown) => say(`That did not work: ${wordsOf(fault)}`));
  }

  /** One change comes after another while a person types. */
  function lookAgainSoon(): void {
    clearTimeout(pausing);
    pausing = setTimeout(() => part('#panel-today').checkVisibility() && lookAtToday(), CHANGE_PAUSE);
  }

  /**
   * Shows what there is to look at, the same count in the heading, on the tab and in the page around. What was corrected
   * does not count, and stays where it can be put back.
   */
  function showFindings(): void {
    const told = JSON.stringify(findings);
    const list = root.querySelector('.findings') ?? newList();
    if (told !== toldFindings) {
      for (const item of list.querySelectorAll(':scope > :not([data-finding])')) item.remove();
      list.append(...findings.map((one, at) => toElement(findingItem(one, at))));
      toldFindings = told;
    }
    const corrected = list.querySelectorAll(':scope > :has([data-act$=":put-back"])').length;
    const count = list.childElementCount - corrected;
    const words = count === 0 ? 'Nothing to look at' : `${count} to look at`;
    const isFound = !isChecked || list.childElementCount > 0;
    part('#checked h3').textContent = isFound ? words : 'Nothing to correct was found.';
    const badge = count > 0 && node('span', { class: 'badge' }, String(count));
    part('#tab-check').replaceChildren(toElement(node('span', {}, 'Check', badge && ' ', badge)));
    beside?.counted(count, words);
  }

  /** The heading and the list of what was found, with what is in the data. */
  function newList(inData: readonly PageNode[] = []): Element {
    part('#checked').replaceChildren(
      toElement(node('h3', {})),
      toElement(node('ul', { class: 'findings' }, inData)),
    );
    toldFindings = '';
    return part('.findings');
  }

  async function showGuide(): Promise<void> {
    const asked = decodeURIComponent(location.hash.slice(1));
    const f = described.find(({ name }) => name === asked);
    const turn = ++guideAsked;
    if (f) {
      const to = typedWords() === '' ? 'All functions' : `Back to “${typedWords()}”`;
      const back = node('p', {}, node('a', { href: '#', class: 'back' }, to));
      const article = await caller.ready([f.name]).then(
        () => functionArticle(f, { units, live: caller.call }),
        (fault: unknown) => node('p', { role: 'alert' }, `This page did not open: ${wordsOf(fault)}.`),
      );
      if (turn === guideAsked) guide.replaceChildren(toElement(back), toElement(article));
      return;
    }
    if (asked === BLANKS || asked === CELL_ERRORS) {
      const back = node('p', {}, node('a', { href: '#', class: 'back' }, 'All functions'));
      const article = asked === BLANKS ? blanksArticle(described, (name) => `#${name}`) : cellErrorsArticle();
      guide.replaceChildren(toElement(back), toElement(article));
      return;
    }
    if (typedWords() === '') {
      const blanks = node(
        'p',
        {},
        node('a', { href: `#${BLANKS}` }, 'Blanks and zeros'),
        ': what they do in every argument and column. ',
        node('a', { href: `#${CELL_ERRORS}` }, 'Cells that show an error'),
        ': what each means, and what to do.',
      );
      guide.replaceChildren(toElement(guideIndex(described)), toElement(blanks));
      return;
    }
    const found = search(typedWords());
    const none = node('p', {}, 'Nothing found. Try one plain word: water, ready, order, cost.');
    guide.replaceChildren(toElement(found.length === 0 ? none : foundLinks(found)));
  }

  function exampleOf(reference: string): { f: DescribedFunction; position: number } {
    const [name, position] = reference.split(':');
    return { f: described.find((one) => one.name === name)!, position: Number(position) };
  }

  /** Reads an example's fields and shows what the call gives now. */
  function recalculate(section: HTMLElement): void {
    const { f } = exampleOf(section.dataset['example']!);
    const result = resultTable(f, caller.call(f.name, fieldsOf(section)));
    section.querySelector('.result')!.replaceWith(toElement(result));
  }

  function fieldsOf(section: HTMLElement): Grid[] {
    const { f, position } = exampleOf(section.dataset['example']!);
    const cells = exampleCells(f, f.examples[position]!, units).map((grid) => grid.map((row) => [...row]));
    for (const field of section.querySelectorAll<HTMLInputElement>('input[data-cell]')) {
      const [argument, row, column] = field.dataset['cell']!.split(':').map(Number);
      // A field that was not touched keeps its exact value, not the digits it shows.
      if (field.value !== field.defaultValue) cells[argument!]![row!]![column!] = typedCell(field.value);
    }
    return cells;
  }

  /** Puts a block at the selected cell, or on a new sheet where anything would be overwritten. */
  async function insert(blockAt: (address: string) => Block): Promise<void> {
    const selected = await book.selection();
    const block = blockAt(selected.address);
    const taken = await book.occupied(selected, block.cells.length, block.cells[0]!.length);
    if (taken.length === 0) {
      await book.write(selected, block);
      await book.goTo(selected);
      return say(`It is in ${selected.sheet}!${selected.address}.`);
    }
    const place = { sheet: await book.addSheet('Pinset'), address: 'A1' };
    await book.write(place, blockAt(place.address));
    await book.goTo(place);
    say(`${taken[0]} is not empty, so it is on the new sheet ${place.sheet}.`);
  }

  // What reads the grower's own sheets is the largest part of the pane: loaded once it is asked for.
  let dataFindings: DataFindings | undefined;
  const loadDataFindings = onDemand(
    () => import('./dataFindings'),
    ({ DataFindings: Findings }) => new Findings(part('#panel-check'), book, caller, say),
  );
  let ownSheet: OwnSheet | undefined;
  const loadOwnSheet = ownSheetOf({ root: part('#panel-own'), book, caller, solve, say });
  const todayPart = new TodayPart(part('#today'), book);
  const board = boardOf({ root: part('#panel-board'), book, caller, solve, say });

  async function act(what: string, reference: string): Promise<void> {
    if (what === 'job' || what === 'own-job') ownSheet ??= await loadOwnSheet();
    if ((await ownSheet?.act(what, reference)) || (await todayPart.act(what, reference))) return;
    if (await dataFindings?.act(what, reference)) return showFindings();
    if (what.startsWith('board-')) return (await board()).act(what);
    switch (what) {
      case 'own-job':
        openTab('own');
        await ownSheet!.act('job', reference);
        return;
      case 'insert-call':
        return insert(() => emptyCall(exampleOf(`${reference}:0`).f));
      case 'insert-example': {
        const { f } = exampleOf(reference);
        const given = fieldsOf(part(`[data-example="${reference}"]`));
        return insert((address) => exampleBlock(f, given, address));
      }
      case 'start': {
        const laid = await layDownStarter(reference, book, units);
        await book.goTo({ sheet: laid.sheets.at(-1)!, address: 'A1' });
        return say(laidDownWords(laid));
      }
      case 'check': {
        dataFindings ??= await loadDataFindings();
        const inData = await dataFindings.look();
        const contents = await book.contents();
        const formulas = cells ? contents.formulas : await explained(contents, caller, solve);
        findings = checkBook({ ...contents, formulas }, version, cells);
        isChecked = true;
        newList(inData);
        return showFindings();
      }
      case 'calculate':
        await book.calculateAgain!();
        return say('Excel calculates every formula again. Give it a moment, then check once more.');
      case 'go': {
        const [at, n] = reference.split(':').map(Number) as [number, number];
        const { place, places = [] } = findings[at]!;
        return book.goTo(places[n] ?? place!);
      }
    }
  }

  root.addEventListener('click', (event) => {
    const button = (event.target as HTMLElement).closest<HTMLElement>('[data-act]');
    if (!button) return;
    // One thing after another: a second click must not change the workbook while the first still does.
    doing = doing
      .then(() => act(button.dataset['act']!, button.dataset['for'] ?? ''))
      .catch((fault: unknown) => {
        say(`That did not work: ${wordsOf(fault)}`);
      });
  });
  root.addEventListener('change', (event) => {
    const { name, value } = event.target as HTMLInputElement;
    if (name !== 'units') return;
    units = value as Units;
    rememberUnits(units);
    void showGuide();
  });
  root.addEventListener('input', (event) => {
    const section = (event.target as HTMLElement).closest<HTMLElement>('[data-example]');
    if (section) recalculate(section);
  });
  words.addEventListener('input', () => {
    if (location.hash.length > 1) history.replaceState(null, '', '#');
    void showGuide();
  });
  part('fluent-tablist').addEventListener('change', (event) => {
    const { activeid } = event.target as HTMLElement & { activeid?: string };
    showTab((activeid ?? 'tab-find').replace('tab-', '') as TabId);
  });
  addEventListener('hashchange', () => {
    // A link from another part of the pane leads to the guide.
    openTab('find');
    const takeKeyboard = keyboardFromHere();
    void showGuide().then(() => takeKeyboard(() => guide.querySelector<HTMLElement>('h3')?.focus()));
  });

  const dark = matchMedia('(prefers-color-scheme: dark)');
  function dye(wanted: boolean | undefined): void {
    isDark = wanted;
    setTheme((isDark ?? dark.matches) ? DARK : LIGHT);
    for (const one of [part('.pane'), root.closest('.pinset')]) {
      one?.classList.toggle('light', isDark === false);
      one?.classList.toggle('dark', isDark === true);
    }
  }
  dark.addEventListener('change', () => dye(isDark));
  dye(isDark);
  part<HTMLInputElement>(`input[name="units"][value="${units}"]`).checked = true;
  void showGuide();
  return {
    show: openTab,
    begin: () => {
      findings = [];
      isChecked = false;
      newList();
    },
    found: (seen) => {
      const others = findings.filter(({ kind }) => kind !== 'fault' && kind !== 'kept');
      cells = seen;
      findings = [...seen, ...others];
      showFindings();
      if (part('#panel-today').checkVisibility()) lookAtToday();
    },
    dye,
  };
}
