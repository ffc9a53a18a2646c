import { node, type PageNode } from '../node';
import { legendNode, patternSheet, wholeDrawing } from './drawing';
import type { DrawnPlan } from './drawnPlan';
import type { PlanInBook } from './plans';
import type { Layout } from './shapes';
import {
  answerWords,
  boardWords,
  brokenWords,
  counted,
  dayWords,
  titleWords,
  type Broken,
  type Change,
} from './words';

// The parts of the page around the drawing: what is above and below it, the answer to a move, the table, pages of paper.

export const placeWords = ({ sheet, address }: { sheet: string; address: string }): string =>
  `${sheet}!${address}`;

const button = (act: string, words: string, more: Record<string, string> = {}): PageNode =>
  node('fluent-button', { size: 'small', 'data-act': `board-${act}`, ...more }, words);
const spaced = (nodes: readonly PageNode[]): (PageNode | string)[] =>
  nodes.flatMap((one, n) => (n === 0 ? [one] : [' ', one]));

/** What stays on the page while loads are moved. */
export function frameNode(drawn: DrawnPlan, plans: readonly PlanInBook[]): PageNode {
  const { plan, board, dateSystem, remarks, today } = drawn;
  return node(
    'div',
    { class: 'board' },
    node('h3', { tabindex: '-1' }, `The plan in ${placeWords(plan.cell)}`),
    plans.length > 1 &&
      node(
        'label',
        { class: 'which' },
        'Plan ',
        node(
          'select',
          { name: 'board-plan' },
          plans.map((one, at) =>
            node('option', { value: String(at), selected: one === plan && '' }, placeWords(one.cell)),
          ),
        ),
      ),
    node('p', { class: 'sentence', id: 'board-sentence' }, boardWords(board, dateSystem)),
    remarks.length > 0 &&
      node(
        'ul',
        { class: 'remarks' },
        remarks.map((words) => node('li', {}, words)),
      ),
    patternSheet('board'),
    node('div', {
      class: 'scroll',
      role: 'group',
      'aria-label': 'Board of the plan',
      'aria-describedby': 'board-sentence',
    }),
    node('div', { class: 'answer' }, node('div', { role: 'status' }), node('p', { class: 'actions' })),
    legendNode(board, today),
    node(
      'p',
      { class: 'actions' },
      ...spaced([
        button('large', 'Larger', { class: 'larger' }),
        button('png', 'Save as picture'),
        button('svg', 'Save as drawing (SVG)'),
        button('print', 'Print'),
      ]),
    ),
    node('p', { class: 'told', role: 'status' }),
    node('details', { id: 'board-table' }, node('summary', {}, 'The board as a table')),
  );
}

const SHOWN_FAULTS = 6;

function faultList(as: string, faults: readonly Broken[], drawn: DrawnPlan): PageNode {
  const more = faults.length - SHOWN_FAULTS;
  return node(
    'ul',
    { class: as },
    faults.slice(0, SHOWN_FAULTS).map((one) => node('li', {}, brokenWords(one, drawn.dateSystem))),
    more > 0 && node('li', {}, `and ${more} more`),
  );
}

/** What the checker says of the loads as they are. `at` is the load that it is about, where it is about one. */
export function answerNodes(drawn: DrawnPlan, change: Change, at: number | undefined): PageNode[] {
  const { loads, before, moved, dateSystem } = drawn;
  if (loads.length === 0) return [node('p', {}, 'There is no load to move.')];
  if (moved.length === 0) {
    const faults =
      before.length === 0
        ? 'The plan breaks no rule.'
        : `The plan as it is breaks ${counted(before.length, 'rule')}.`;
    return [
      node('p', {}, `Drag a load, or take it up with Enter and move it with the arrow keys. ${faults}`),
      ...(before.length === 0 ? [] : [faultList('same', before, drawn)]),
    ];
  }
  const one = loads[at ?? moved[0]!]!;
  const subject =
    moved.length > 1 && at === undefined
      ? `${moved.length} loads moved`
      : `${one.lot} (${counted(one.blocks, 'block')}) in ${one.room} on ${dayWords(one.day, dateSystem)}`;
  const list = (as: string, heading: string, faults: readonly Broken[]): PageNode[] =>
    faults.length === 0 ? [] : [node('p', { class: 'heading' }, heading), faultList(as, faults, drawn)];
  return [
    node('p', {}, node('b', {}, `${subject}: `), `${answerWords(change)}.`),
    ...list('broken', 'Broken by it', change.broken),
    ...list('broken', 'Worse than before', change.worse),
    ...list('held', 'Smaller than before', change.better),
    ...list('held', 'No longer broken', change.held),
  ];
}

/** What can be done with loads that were moved. `sheet` is where they have been written. */
export function answerActions({ moved }: DrawnPlan, sheet: string | undefined): (PageNode | string)[] {
  const back =
    moved.length === 1
      ? [button('back', 'Put it back')]
      : [button('back', 'Put the last one back'), button('all-back', `Put all ${moved.length} back`)];
  return spaced([
    ...(moved.length === 0
      ? []
      : [...back, button('write', 'Put these loads on a new sheet'), button('copy', 'Copy the loads')]),
    ...(sheet === undefined ? [] : [button('undo', `Take the sheet ${sheet} away again`)]),
  ]);
}

/** The board in figures: what the view board gives of the plan, for the loads as they are. */
export function tableNode({ board, dateSystem }: DrawnPlan): PageNode {
  const days = Array.from({ length: board.days }, (_, day) => day);
  const heads = ['what', 'room', ...days.map((day) => dayWords(board.start + day, dateSystem))];
  const rows = (
    what: string,
    cellOf: (room: (typeof board.rooms)[number], day: number) => string,
  ): PageNode[] =>
    board.rooms.map((one) =>
      node(
        'tr',
        {},
        node('th', { scope: 'row' }, what),
        node('th', { scope: 'row' }, one.room),
        ...days.map((day) => node('td', {}, cellOf(one, day))),
      ),
    );
  return node(
    'div',
    { class: 'table', tabindex: '0', role: 'region', 'aria-label': 'The board as a table' },
    node(
      'table',
      {},
      node('thead', {}, node('tr', {}, ...heads.map((words) => node('th', { scope: 'col' }, words)))),
      node(
        'tbody',
        {},
        ...rows('on shelves', ({ free, blocks }, day) =>
          free[day] === undefined && blocks[day] === 0 ? 'closed' : String(blocks[day]),
        ),
        ...rows('free', ({ free }, day) => String(free[day] ?? 'closed')),
      ),
    ),
  );
}

/** Most days on a page of paper, the width of all its days, and how high the rooms on it may be. */
const PAPER_DAYS = 35;
const PAPER_WIDTH = 950;
const PAPER_ROOMS = 560;

/** The board as drawings for pages of paper. */
export function paperPages(drawn: DrawnPlan): PageNode[] {
  const { board, dateSystem, today } = drawn;
  const count = board.limits.length;
  const days = Math.ceil(count / Math.ceil(count / PAPER_DAYS));
  const pages: PageNode[] = [];
  for (let from = board.start; from < board.start + count; from += days) {
    const to = Math.min(from + days, board.start + count) - 1;
    const look = { dayWidth: PAPER_WIDTH / days, from, to };
    const title = titleWords(placeWords(drawn.plan.cell), from, to, dateSystem);
    for (const rooms of roomsOfPages(drawn.laidOut(look))) {
      const layout = drawn.laidOut({ ...look, rooms });
      pages.push(wholeDrawing(layout, title, boardWords(board, dateSystem), board, today));
    }
  }
  return pages;
}

/** Rooms by pages of paper: as many on each as fit. */
function roomsOfPages({ rooms: { rows } }: Layout): ReadonlySet<string>[] {
  const pages: Set<string>[] = [];
  let height = Infinity;
  for (const row of rows) {
    if (height + row.height > PAPER_ROOMS) {
      pages.push(new Set());
      height = 0;
    }
    pages.at(-1)!.add(row.room);
    height += row.height;
  }
  return pages;
}
