import { node, type PageNode } from '../node';
import {
  strainsOf,
  STRAIN_LOOKS,
  type Bar,
  type Board,
  type Layout,
  type Load,
  type Part,
  type Shape,
} from './shapes';

// Shapes as a drawing. Colours are tokens of board.css; each strain has a pattern as well, so that none needs colour.

/** What is drawn over a strain's colour in a square of eight. */
const PATTERNS = [
  '',
  'M-2 2l4-4M0 8l8-8M6 10l4-4',
  'M2 2h.01M6 6h.01',
  'M0 4h8',
  'M-2 6l4 4M0 0l8 8M6-2l4 4',
  'M4 0v8',
  'M0 4h8M4 0v8',
  'M0 0l8 8M8 0l-8 8',
];

/** What is drawn upon: the page, or white paper. Each has patterns of its own, as colours differ. */
type Ground = 'board' | 'paper';

const fillOf = (ground: Ground, strain: number): string => `url(#${ground}-strain-${strain % STRAIN_LOOKS})`;
const closedFill = (ground: Ground): string => `url(#${ground}-closed)`;

const patterns = (ground: Ground): PageNode[] => [
  ...PATTERNS.map((path, strain) =>
    node(
      'pattern',
      { id: `${ground}-strain-${strain}`, width: '8', height: '8', patternUnits: 'userSpaceOnUse' },
      node('rect', { width: '8', height: '8', class: `strain-${strain}` }),
      path !== '' && node('path', { d: path, class: path.includes('h.01') ? 'dots' : 'lines' }),
    ),
  ),
  node(
    'pattern',
    { id: `${ground}-closed`, width: '7', height: '7', patternUnits: 'userSpaceOnUse' },
    node('path', { d: 'M-2 2l4-4M0 7l7-7M5 9l4-4', class: 'shut' }),
  ),
];

/** The patterns for drawings of a page, as a drawing that is not seen. */
export const patternSheet = (ground: Ground): PageNode =>
  node(
    'svg',
    { class: 'patterns', width: '0', height: '0', 'aria-hidden': 'true' },
    node('defs', {}, patterns(ground)),
  );

const shapeNode =
  (ground: Ground) =>
  (shape: Shape): PageNode => {
    switch (shape.kind) {
      case 'box': {
        const { as, x, y, width, height, strain } = shape;
        const isFilled = strain !== undefined && (as === 'flush' || as === 'pick');
        return node('rect', {
          class: strain === undefined || isFilled ? as : `${as} strain-${strain}`,
          x: String(x),
          y: String(y),
          width: String(Math.max(0, width)),
          height: String(Math.max(0, height)),
          ...(isFilled && { fill: fillOf(ground, strain) }),
          ...(as === 'closed' && { fill: closedFill(ground) }),
          ...((as.startsWith('bar') || as === 'plate' || as === 'now') && { rx: as === 'now' ? '8' : '3' }),
        });
      }
      case 'line':
        return node('path', { class: shape.as, d: shape.path });
      case 'text':
        return node('text', { class: shape.as, x: String(shape.x), y: String(shape.y) }, shape.text);
    }
  };

const unheard = (shapes: readonly Shape[], ground: Ground = 'board'): PageNode =>
  node('g', { 'aria-hidden': 'true' }, shapes.map(shapeNode(ground)));

const svg = (as: string, width: number, height: number, ...inside: (PageNode | PageNode[])[]): PageNode =>
  node(
    'svg',
    {
      class: as,
      width: String(width),
      height: String(height),
      viewBox: `0 0 ${width} ${height}`,
    },
    ...inside,
  );

/** A bar as something that can be chosen; its words lie over it, for the eye only. */
function barNode({ load, shapes, x, y, width, height }: Bar, at: number, words: string): PageNode {
  const isWords = ({ kind, as }: Shape): boolean => kind === 'text' || as === 'plate';
  return node(
    'g',
    { class: load.planned === undefined ? 'load fixed' : 'load', 'data-bar': String(at) },
    node(
      'g',
      { role: 'option', tabindex: '-1', 'aria-label': words, 'aria-selected': 'false' },
      node('title', {}, words),
      ...shapes.filter((shape) => !isWords(shape)).map(shapeNode('board')),
      node('rect', {
        class: 'ring',
        x: String(x - 1.5),
        y: String(y - 1.5),
        width: String(width + 3),
        height: String(height + 3),
        rx: '4',
      }),
    ),
    unheard(shapes.filter(isWords)),
  );
}

/** The board as a part of a page: what is on the left and the days above and below stay when the rest is scrolled. */
export function boardNode(layout: Layout, says: (load: Load) => string): PageNode {
  const { side, width, head, rooms, picks } = layout;
  const part = (name: string, { height, left, days }: Part, middle: PageNode): PageNode[] => [
    svg(`side ${name}`, side, height, unheard(left)),
    svg(`days ${name}`, width, height, unheard(days), middle),
  ];
  const empty = node('g');
  const bars = node(
    'g',
    {
      role: 'listbox',
      'aria-label': 'Loads on the board. Enter takes one up, arrow keys move it, Escape puts it back.',
    },
    rooms.bars.map((bar, at) => barNode(bar, at, says(bar.load))),
  );
  return node(
    'div',
    { class: 'sheet', style: `grid-template-columns: ${side}px ${width}px` },
    ...part('head', head, empty),
    ...part('rooms', rooms, rooms.bars.length > 0 ? bars : empty),
    ...part('picks', picks, empty),
  );
}

/** The whole board as one drawing, for a picture or a page of paper. */
export function wholeDrawing(
  layout: Layout,
  title: string,
  sentence: string,
  board: Board,
  today: number,
): PageNode {
  const { side, width, head, rooms, picks } = layout;
  const at = (x: number, y: number, ...inside: PageNode[]): PageNode =>
    node('g', { transform: `translate(${x} ${y})` }, ...inside);
  const top = 34;
  const parts = [
    head,
    { ...rooms, days: [...rooms.days, ...rooms.bars.flatMap(({ shapes }) => shapes)] },
    picks,
  ];
  const pieces: PageNode[] = [];
  let y = top;
  for (const { height, left, days } of parts) {
    pieces.push(at(0, y, unheard(left, 'paper')), at(side, y, unheard(days, 'paper')));
    y += height;
  }
  const keys = legendShapes(board, today, side + width);
  const height = y + keys.height;
  return node(
    'svg',
    {
      class: 'whole',
      xmlns: 'http://www.w3.org/2000/svg',
      role: 'img',
      'aria-label': sentence,
      viewBox: `0 0 ${side + width} ${height}`,
      width: String(side + width),
      height: String(height),
    },
    node('defs', {}, patterns('paper')),
    node('rect', { class: 'paper', width: String(side + width), height: String(height) }),
    node('text', { class: 'title', x: '10', y: '22' }, title),
    ...pieces,
    at(0, y, ...keys.shapes),
  );
}

function legendShapes(board: Board, today: number, width: number): { shapes: PageNode[]; height: number } {
  const shapes: PageNode[] = [];
  let [x, y] = [10, 14];
  const place = (words: string): readonly [number, number] => {
    const wide = Math.round(30 + words.length * 6.4);
    if (x + wide > width && x > 10) [x, y] = [10, y + 20];
    const here = [x, y] as const;
    x += wide;
    return here;
  };
  strainsOf(board).forEach((strain, n) => {
    const [left, down] = place(strain);
    shapes.push(
      node('rect', {
        class: 'flush',
        x: String(left),
        y: String(down),
        width: '14',
        height: '12',
        fill: fillOf('paper', n),
      }),
      node('text', { class: 'key', x: String(left + 19), y: String(down + 10) }, strain),
    );
  });
  for (const [as, words] of keysOf(board, today)) {
    const [left, down] = place(words);
    const box = { x: String(left), y: String(down), width: '14', height: '12' };
    shapes.push(
      as === 'limit' || as === 'today'
        ? node('path', {
            class: as,
            d: as === 'limit' ? `M${left} ${down + 8}h7v-5h7` : `M${left + 7} ${down - 1}v14`,
          })
        : node('rect', { class: as, ...box, ...(as === 'closed' && { fill: closedFill('paper') }) }),
      node('text', { class: 'key', x: String(left + 19), y: String(down + 10) }, words),
    );
  }
  return { shapes, height: y + 26 };
}

type Key = 'free' | 'closed' | 'off' | 'limit' | 'today';

/** What a board shows beside its strains, in words. */
function keysOf(board: Board, today: number): readonly (readonly [Key, string])[] {
  const { rooms, limits, start, days } = board;
  const isShown: readonly (readonly [boolean, Key, string])[] = [
    [true, 'free', 'places free'],
    [rooms.some(({ free }) => free.includes(undefined)), 'closed', 'closed'],
    [limits.slice(0, days).some(({ load }) => load === 0), 'off', 'no loading'],
    [limits.some(({ pick }) => pick < Infinity), 'limit', 'limit of the day'],
    [today >= start && today < start + limits.length, 'today', 'today'],
  ];
  return isShown.flatMap(([shown, key, words]) => (shown ? [[key, words] as const] : []));
}

/** What colours, patterns and marks mean. */
export function legendNode(board: Board, today: number): PageNode {
  const key = (as: string, words: string, fill?: string): PageNode =>
    node(
      'li',
      {},
      node(
        'svg',
        { width: '16', height: '14', viewBox: '0 0 16 14', 'aria-hidden': 'true' },
        as === 'limit' || as === 'today'
          ? node('path', { class: as, d: as === 'limit' ? 'M1 10h7V4h7' : 'M8 0v14' })
          : node('rect', { class: as, x: '1', y: '1', width: '14', height: '12', ...(fill && { fill }) }),
      ),
      words,
    );
  return node(
    'ul',
    { class: 'legend', 'aria-label': 'What the board shows' },
    ...strainsOf(board).map((strain, n) => key('flush', strain, fillOf('board', n))),
    ...keysOf(board, today).map(([as, words]) =>
      key(as, words, as === 'closed' ? closedFill('board') : undefined),
    ),
  );
}
