import { utcDay, type DateSystem } from '../../../worksheet/calendar';
import type { Tools } from '../../../worksheet/tools';

// Where everything on the drawn board goes: from the days of a plan to shapes, without a page. A board has six parts: on
// the left what stays when its days are scrolled, above the days, in the middle the rooms, below what is picked.

export type Board = ReturnType<Tools['planning']['drawnBoard']>;
export type Load = Board['loads'][number];

/** A piece of a drawing; `as` says what it is, and so how it looks. */
export type Shape =
  | {
      readonly kind: 'box';
      readonly as: string;
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly strain?: number;
    }
  | { readonly kind: 'line'; readonly as: string; readonly path: string }
  | {
      readonly kind: 'text';
      readonly as: string;
      readonly x: number;
      readonly y: number;
      readonly text: string;
    };

/** A load on the board. */
export interface Bar {
  readonly load: Load;
  readonly shapes: readonly Shape[];
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Its words, and the parts of it that have room for them. */
  readonly words: string;
  readonly gaps: readonly Gap[];
}

interface Gap {
  readonly at: number;
  readonly width: number;
}

/** Shapes and the height that they take. */
export interface Part {
  readonly height: number;
  readonly left: readonly Shape[];
  readonly days: readonly Shape[];
}

export interface Layout {
  /** Width of what is on the left, and of the days. */
  readonly side: number;
  readonly width: number;
  readonly dayWidth: number;
  readonly head: Part;
  readonly rooms: Part & { readonly bars: readonly Bar[]; readonly rows: readonly RoomRow[] };
  readonly picks: Part;
}

/** Where a room is. */
export interface RoomRow {
  readonly room: string;
  readonly y: number;
  readonly height: number;
}

export interface Look {
  readonly dateSystem: DateSystem;
  /** The day to mark. */
  readonly today: number;
  readonly dayWidth: number;
  /** Days shown; all where not said. */
  readonly from?: number;
  readonly to?: number;
  /** Rooms shown; all where not said. */
  readonly rooms?: ReadonlySet<string>;
  /** Loads by their place in the plan that are not where the plan has them. */
  readonly moved?: ReadonlySet<number>;
}

export const SIDE = 96;
const HEAD = 50;
const LANE = 19;
const BAR = 16;
const EDGE = 6;
const FREE = 18;
const PICKS = 150;
const PICKS_TOP = 26;
const PICKS_FLOOR = PICKS - 8;
/** Colours and patterns that there are for strains; the next ones begin again. */
export const STRAIN_LOOKS = 8;
/** Widths of a character of the small and of the usual text: they differ little between typefaces. */
const SMALL = 5.4;
const USUAL = 6.2;

const tenth = (number: number): number => Math.round(10 * number) / 10;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'June', 'July', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];
const WEEKDAYS = ['Su', 'Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa'];

/** A text as far as it fits. */
function fitted(text: string, width: number, character: number): string {
  const most = Math.floor(width / character);
  if (text.length <= most) return text;
  return most < 3 ? '' : `${text.slice(0, most - 1)}…`;
}

/** The strains of a board in their fixed order: their places choose colour and pattern. */
export const strainsOf = ({ picks }: Board): readonly string[] => [...picks.keys()];

/** All that the drawn board shows, at its place. */
export function layOut(board: Board, look: Look): Layout {
  const last = board.start + board.limits.length - 1;
  const from = Math.max(board.start, look.from ?? board.start);
  const days = Math.max(1, Math.min(last, look.to ?? last) - from + 1);
  const frame: Frame = { board, look, from, days, width: days * look.dayWidth };
  const rooms = roomsPart(frame);
  return {
    side: SIDE,
    width: frame.width,
    dayWidth: look.dayWidth,
    head: headPart(frame),
    rooms,
    picks: picksPart(frame),
  };
}

interface Frame {
  readonly board: Board;
  readonly look: Look;
  readonly from: number;
  readonly days: number;
  readonly width: number;
}

const xOf = ({ look, from }: Frame, day: number): number => (day - from) * look.dayWidth;
const dateOf = ({ look }: Frame, day: number): Date => utcDay(day, look.dateSystem);

/** Each day of the frame with its place among the board's days. */
function eachDay({ board, from, days }: Frame): { day: number; at: number }[] {
  return Array.from({ length: days }, (_, n) => ({ day: from + n, at: from + n - board.start }));
}

/** Columns of days without work, lines between weeks, and today: behind everything on each part. */
function ground(frame: Frame, height: number): Shape[] {
  const { board, look } = frame;
  return eachDay(frame).flatMap(({ day, at }): Shape[] => {
    const x = xOf(frame, day);
    const isOff = at < board.days && board.limits[at]!.load === 0;
    const isMonday = dateOf(frame, day).getUTCDay() === 1;
    return [
      ...(isOff ? [box('off', x, 0, look.dayWidth, height)] : []),
      ...(isMonday && x > 0 ? [line('week', `M${x} 0V${height}`)] : []),
    ];
  });
}

function todayLine(frame: Frame, height: number): Shape[] {
  const { look, from, days } = frame;
  if (look.today < from || look.today >= from + days) return [];
  return [line('today', `M${tenth(xOf(frame, look.today)) + 1} 0V${height}`)];
}

const box = (as: string, x: number, y: number, width: number, height: number, strain?: number): Shape => ({
  kind: 'box',
  as,
  x: tenth(x),
  y: tenth(y),
  width: tenth(width),
  height: tenth(height),
  ...(strain !== undefined && { strain: strain % STRAIN_LOOKS }),
});
const line = (as: string, path: string): Shape => ({ kind: 'line', as, path });
const text = (as: string, x: number, y: number, words: string): Shape => ({
  kind: 'text',
  as,
  x: tenth(x),
  y: tenth(y),
  text: words,
});

function headPart(frame: Frame): Part {
  const { look } = frame;
  const middle = look.dayWidth / 2;
  const days = eachDay(frame).flatMap(({ day }): Shape[] => {
    const date = dateOf(frame, day);
    const [x, weekday] = [xOf(frame, day), date.getUTCDay()];
    const isFirst = day === frame.from || date.getUTCDate() === 1;
    const monthEnds = (frame.from + frame.days - day) * look.dayWidth;
    const ofMonth = `${MONTHS[date.getUTCMonth()]!} ${date.getUTCFullYear()}`;
    const rest = weekday === 0 || weekday === 6 ? ' rest' : '';
    // Days too narrow for a number each have one a week.
    const isShown = look.dayWidth >= 16 || weekday === 1;
    const today = day === look.today ? ' now' : '';
    return [
      ...(isFirst && monthEnds > ofMonth.length * USUAL ? [text('month', x + 3, 14, ofMonth)] : []),
      // Each week says its month, where its name does not run into it.
      ...(weekday === 1 &&
      !isFirst &&
      x >= ofMonth.length * (USUAL + 1) &&
      (date.getUTCDate() - 1) * look.dayWidth >= ofMonth.length * (USUAL + 1)
        ? [text('quiet', x + 4, 14, MONTHS[date.getUTCMonth()]!)]
        : []),
      ...(look.dayWidth >= 20 ? [text(`weekday${rest}`, x + middle, 30, WEEKDAYS[weekday]!)] : []),
      ...(today ? [box('now', x + 1.5, 33, look.dayWidth - 3, 16)] : []),
      ...(isShown || today ? [text(`day${rest}${today}`, x + middle, 45, String(date.getUTCDate()))] : []),
    ];
  });
  return {
    height: HEAD,
    left: [text('side quiet', SIDE - 8, 45, 'room')],
    days: [...ground(frame, HEAD), ...days],
  };
}

/** Loads of a room in lanes, each in the first where it finds its days free. */
function lanesOf(loads: readonly Load[]): Load[][] {
  const lanes: Load[][] = [];
  const byDay = [...loads].sort(
    (a, b) => a.loaded - b.loaded || b.last - a.last || (a.lot < b.lot ? -1 : a.lot > b.lot ? 1 : 0),
  );
  for (const load of byDay) {
    const lane = lanes.find((others) => others.at(-1)!.last < load.loaded);
    if (lane) lane.push(load);
    else lanes.push([load]);
  }
  return lanes;
}

const sameLabel = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

function roomsPart(frame: Frame): Layout['rooms'] {
  const { board, look, width } = frame;
  const strainAt = new Map(strainsOf(board).map((strain, at) => [strain.toLowerCase().trim(), at]));
  const rows: RoomRow[] = [];
  const bars: Bar[] = [];
  const left: Shape[] = [];
  const days: Shape[] = [];
  let y = 0;
  for (const one of board.rooms) {
    if (look.rooms && !look.rooms.has(one.room)) continue;
    const lanes = lanesOf(
      board.loads.filter((load) => sameLabel(load.room, one.room) && isShown(frame, load)),
    );
    const height = EDGE + Math.max(1, lanes.length) * LANE + FREE + 2;
    lanes.forEach((lane, n) => {
      for (const load of lane) {
        const strain = strainAt.get(load.strain.toLowerCase().trim()) ?? 0;
        bars.push(barOf(frame, load, y + EDGE + n * LANE, strain));
      }
    });
    rows.push({ room: one.room, y, height });
    const floor = y + height;
    left.push(
      text('room', 10, y + EDGE + 12, fitted(one.room, SIDE - 14, USUAL + 0.6)),
      ...(lanes.length > 1 ? [text('quiet', 10, y + EDGE + 27, `${one.places} places`)] : []),
      text('side quiet', SIDE - 8, floor - 6, 'free'),
      line('floor', `M0 ${floor - 0.5}H${SIDE}`),
    );
    days.push(...freeShapes(frame, one, y, height), line('floor', `M0 ${floor - 0.5}H${width}`));
    y = floor;
  }
  return { height: y, left, days: [...ground(frame, y), ...days, ...todayLine(frame, y)], bars, rows };
}

/** Whether any of a load's days is shown. */
const isShown = ({ from, days }: Frame, { loaded, last }: Load): boolean =>
  last >= from && loaded < from + days;

function barOf(frame: Frame, load: Load, y: number, strain: number): Bar {
  const { look, width: whole } = frame;
  const start = Math.max(0, xOf(frame, load.loaded));
  const end = Math.min(whole, xOf(frame, load.last + 1));
  const [x, width] = [start + 1, end - start - 2];
  const moved = load.planned !== undefined && look.moved?.has(load.planned) ? ' moved' : '';
  const standing = load.planned === undefined ? ' standing' : '';
  const flushes = load.flushes.flatMap(({ from: first, to }, n): Shape[] => {
    const [a, b] = [Math.max(x, xOf(frame, first)), Math.min(x + width, xOf(frame, to + 1))];
    if (b - a < 1) return [];
    const number = String(n + 1);
    return [
      box('flush', a, y, b - a, BAR, strain),
      ...(b - a >= 14 ? [box('plate', (a + b) / 2 - 6, y + 2, 12, BAR - 4)] : []),
      ...(b - a >= 14 ? [text('number', (a + b) / 2, y + 12, number)] : []),
    ];
  });
  const all = gapsOf(load, frame, x, width);
  const fits = (words: string): Gap[] => all.filter((gap) => gap.width - 8 >= words.length * USUAL);
  const words = [wordsOf(load), String(load.blocks)].find((one) => fits(one).length > 0) ?? '';
  const gaps = words === '' ? [] : fits(words);
  return {
    load,
    x,
    y,
    width,
    height: BAR,
    words,
    gaps,
    shapes: [
      box(`bar${standing}${moved}`, x, y, width, BAR, strain),
      ...flushes,
      ...gaps.slice(0, 1).map((gap) => text('label', gap.at + 5, y + 12, words)),
    ],
  };
}

/** What a bar says: the lot, and how many blocks. */
const wordsOf = ({ lot, strain, blocks }: Load): string => `${lot === '' ? strain : lot} · ${blocks}`;

/** The parts of a bar on which nothing is picked. */
function gapsOf({ flushes }: Load, frame: Frame, x: number, width: number): Gap[] {
  const gaps: Gap[] = [];
  let begin = x;
  for (const { from, to } of flushes) {
    const end = Math.min(x + width, xOf(frame, from));
    if (end > begin) gaps.push({ at: begin, width: end - begin });
    begin = Math.max(begin, xOf(frame, to + 1));
  }
  if (x + width > begin) gaps.push({ at: begin, width: x + width - begin });
  return gaps;
}

/** Where the words of a bar begin when the days are scrolled: in view, as long as a part of it that has room is. */
export function wordsAt({ words, gaps }: Bar, scrolled: number): number | undefined {
  const wide = words.length * USUAL;
  const gap = gaps.find(({ at, width }) => at + width - 8 - wide >= scrolled) ?? gaps[0];
  return gap && Math.min(Math.max(gap.at, scrolled), gap.at + gap.width - 8 - wide) + 5;
}

/** Places free: a step that is as high as they are of all, with their number wherever it changes. */
function freeShapes(frame: Frame, room: Board['rooms'][number], y: number, height: number): Shape[] {
  const { look, from, days, board } = frame;
  const floor = y + height - 2;
  const shapes: Shape[] = [];
  for (let n = 0; n < days;) {
    const free = room.free[from - board.start + n];
    let end = n + 1;
    while (end < days && room.free[from - board.start + end] === free) end++;
    const [x, width] = [n * look.dayWidth, (end - n) * look.dayWidth];
    const whole = width - 2;
    if (free === undefined) {
      shapes.push(box('closed', x, y + 1, width, height - 2));
      const words = fitted('closed', whole, SMALL);
      if (words !== '') shapes.push(text('free', x + 3, floor - 4, words));
    } else {
      const share = Math.max(0, Math.min(1, free / room.places));
      if (free > 0) shapes.push(box('free', x, floor - share * FREE, width, share * FREE));
      else shapes.push(box(free < 0 ? 'over' : 'full', x, floor - 3, width, 3));
      const words = free < 0 ? `−${-free}` : String(free);
      const as = free < 0 ? 'free over' : free === 0 ? 'free full' : 'free';
      if (words.length * SMALL <= whole) shapes.push(text(as, x + 3, floor - 4, words));
    }
    n = end;
  }
  return shapes;
}

/** A step of one, two or five times a power of ten, so that at most `most` of them lie below `top`. */
function stepFor(top: number, most: number): number {
  const power = 10 ** Math.floor(Math.log10(top / most));
  return [1, 2, 5, 10].map((times) => times * power).find((step) => top / step <= most) ?? 10 * power;
}

/** A mass in three digits at the most. */
export const shortMass = (mass: number): string =>
  mass >= 100 ? String(Math.round(mass)) : String(Number(mass.toPrecision(mass >= 10 ? 3 : 2)));

/** A pick this small above a limit is only the last digits of a sum. */
const SLACK = 1e-6;
export const isOver = (picked: number, limit: number): boolean => picked > limit * (1 + SLACK) + SLACK;

function picksPart(frame: Frame): Part {
  const { board, look, days } = frame;
  const shown = eachDay(frame);
  const finite = shown.map(({ at }) => board.limits[at]!.pick).filter((limit) => limit < Infinity);
  const top = Math.max(1e-9, ...shown.map(({ at }) => board.picked[at]!), ...finite) * 1.04;
  const yOf = (mass: number): number => PICKS_FLOOR - (mass / top) * (PICKS_FLOOR - PICKS_TOP);
  const step = stepFor(top, 4);
  const ticks = Array.from({ length: Math.floor(top / step) + 1 }, (_, n) =>
    Number((n * step).toPrecision(6)),
  );
  const strains = strainsOf(board);
  const gap = look.dayWidth >= 12 ? 3 : 0.5;
  const labels: Shape[] = [];
  const columns = shown.flatMap(({ day, at }): Shape[] => {
    const x = xOf(frame, day) + gap;
    const width = look.dayWidth - 2 * gap;
    let below = 0;
    const parts = strains.flatMap((strain, n): Shape[] => {
      const mass = board.picks.get(strain)![at]!;
      if (!(mass > 0)) return [];
      const [y, floor] = [yOf(below + mass), yOf(below)];
      below += mass;
      return [box('pick', x, y, width, floor - y, n)];
    });
    const [picked, limit] = [board.picked[at]!, board.limits[at]!.pick];
    const over = isOver(picked, limit);
    const label = shortMass(picked);
    const fits = label.length * SMALL <= look.dayWidth + 1;
    if (over) {
      labels.push(
        box('beyond', x, yOf(picked), width, yOf(limit) - yOf(picked)),
        line('mark', `M${tenth(x + width / 2)} ${tenth(yOf(picked)) - 21}l5 8h-10z`),
      );
    }
    if (picked > 0 && fits) {
      labels.push(text(over ? 'mass over' : 'mass', x + width / 2, yOf(picked) - 3, label));
    }
    return parts;
  });
  return {
    height: PICKS,
    left: [
      text('room', 10, 16, 'picked a day'),
      ...ticks.map((tick) => text('side quiet', SIDE - 8, yOf(tick) + 3.5, String(tick))),
    ],
    days: [
      ...ground(frame, PICKS),
      ...ticks.map((tick) =>
        line(tick === 0 ? 'axis' : 'tick', `M0 ${tenth(yOf(tick))}H${days * look.dayWidth}`),
      ),
      ...columns,
      line(
        'limit',
        limitPath(
          shown.map(({ at }) => board.limits[at]!.pick),
          look.dayWidth,
          yOf,
        ),
      ),
      ...labels,
      ...todayLine(frame, PICKS),
    ],
  };
}

/** The limit as a stair over the days; where a day has none the stair is broken. */
function limitPath(limits: readonly number[], dayWidth: number, yOf: (mass: number) => number): string {
  let path = '';
  limits.forEach((limit, n) => {
    if (!(limit < Infinity)) return;
    const y = tenth(yOf(limit));
    const isOn = n > 0 && limits[n - 1]! < Infinity;
    path += `${isOn ? `V${y}` : `M${tenth(n * dayWidth)} ${y}`}H${tenth((n + 1) * dayWidth)}`;
  });
  return path;
}
