import { utcDay, weekdayOf, writtenDate, type DateSystem } from '../../../worksheet/calendar';
import type { Cell } from '../../../worksheet/cells/cell';
import { textOf } from '../../fit/book';
import { isOver, shortMass, type Board, type Load } from './shapes';

// What is said of the drawn board.

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'June', 'July', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];

/** `Thu 7 May` */
export function dayWords(day: number, system: DateSystem): string {
  const date = utcDay(day, system);
  return `${weekdayOf(day, system).slice(0, 3)} ${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]!}`;
}

export const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? '' : 's'}`;

/** A load, for those who cannot see its bar and for those who point at it. */
export function loadWords(
  { lot, strain, room, blocks, loaded, last, flushes, planned }: Load,
  system: DateSystem,
): string {
  const name = lot === '' ? strain : `${lot} (${strain})`;
  const first = flushes[0];
  const picks =
    first === undefined
      ? ''
      : `, picked from ${dayWords(first.from, system)} to ${dayWords(last, system)} in ${flushes.length === 1 ? 'one flush' : `${flushes.length} flushes`}`;
  const where = planned === undefined ? `on the shelves of ${room} since` : `in ${room}, opened`;
  return `${name}: ${counted(blocks, 'block')} ${where} ${dayWords(loaded, system)}${picks}`;
}

/** The board in a few sentences: loads, the fullest day, and days over their limit. */
export function boardWords(board: Board, system: DateSystem): string {
  const { start, rooms, loads, picked, limits } = board;
  const planned = loads.filter((load) => load.planned !== undefined);
  const blocks = planned.reduce((sum, load) => sum + load.blocks, 0);
  const opening =
    planned.length === 0
      ? 'The plan loads nothing.'
      : `${counted(planned.length, 'load')} of ${counted(blocks, 'block')} in ${counted(new Set(planned.map(({ room }) => room.toLowerCase())).size, 'room')}, opened from ${dayWords(Math.min(...planned.map(({ loaded }) => loaded)), system)} to ${dayWords(Math.max(...planned.map(({ loaded }) => loaded)), system)}.`;
  return [opening, fullestWords(start, rooms, system), ...mostPicked(start, picked, limits, system)]
    .filter((words) => words !== '')
    .join(' ');
}

function fullestWords(start: number, rooms: Board['rooms'], system: DateSystem): string {
  const places = rooms.reduce((sum, room) => sum + room.places, 0);
  const onDay = (rooms[0]?.blocks ?? []).map((_, day) =>
    rooms.reduce((sum, { blocks }) => sum + blocks[day]!, 0),
  );
  const most = Math.max(0, ...onDay);
  if (most === 0) return 'No block is on the shelves.';
  const day = start + onDay.indexOf(most);
  return `The shelves are fullest on ${dayWords(day, system)}: ${most} blocks on ${places} places.`;
}

function mostPicked(
  start: number,
  picked: Board['picked'],
  limits: Board['limits'],
  system: DateSystem,
): string[] {
  const most = Math.max(0, ...picked);
  if (most === 0) return ['Nothing is picked.'];
  const at = picked.indexOf(most);
  const limit = limits[at]!.pick;
  const over = picked.flatMap((mass, day) => (isOver(mass, limits[day]!.pick) ? [start + day] : []));
  const named = over.slice(0, 3).map((day) => dayWords(day, system));
  return [
    `Most is picked on ${dayWords(start + at, system)}: ${shortMass(most)}${limit < Infinity ? `, the limit is ${shortMass(limit)}` : ''}.`,
    over.length === 0
      ? 'No day is over its limit of picking.'
      : `${counted(over.length, 'day')} ${over.length === 1 ? 'is' : 'are'} over the limit of picking: ${named.join(', ')}${over.length > named.length ? ` and ${over.length - named.length} more` : ''}.`,
  ];
}

/** A rule that loads break, as a row of CHECKLOADS tells it. */
export interface Broken {
  readonly rule: string;
  readonly date: number | undefined;
  readonly where: string;
  readonly short: number;
  readonly words: string;
}

/** The rows of CHECKLOADS, none where it says that no rule is broken. */
export const brokenIn = (rows: readonly (readonly Cell[])[]): Broken[] =>
  rows.slice(1).flatMap(([rule, date, where, found, allowed, words]): Broken[] =>
    rule === 'none broken'
      ? []
      : [
          {
            rule: textOf(rule!),
            date: typeof date === 'number' ? date : undefined,
            where: textOf(where!),
            short: rule === 'order short' ? Number(allowed) - Number(found) : Number(found) - Number(allowed),
            words: textOf(words!),
          },
        ],
  );

/** What a change of loads breaks that held before, what it makes worse or better, and what holds again. */
export interface Change {
  readonly broken: readonly Broken[];
  readonly worse: readonly Broken[];
  readonly better: readonly Broken[];
  readonly held: readonly Broken[];
  /** Broken before and now alike. */
  readonly same: readonly Broken[];
}

const keyOf = ({ rule, date, where }: Broken): string => `${rule}\n${date}\n${where}`;
/** A difference this small is only the last digits of a sum. */
const ALIKE = 1e-6;

export function changeOf(before: readonly Broken[], now: readonly Broken[]): Change {
  const old = new Map<string, Broken[]>();
  for (const one of before) old.set(keyOf(one), [...(old.get(keyOf(one)) ?? []), one]);
  const [broken, worse, better, same]: [Broken[], Broken[], Broken[], Broken[]] = [[], [], [], []];
  for (const one of now) {
    const was = old.get(keyOf(one))?.shift();
    if (!was) broken.push(one);
    else if (one.short > was.short + ALIKE) worse.push(one);
    else if (one.short < was.short - ALIKE) better.push(one);
    else same.push(one);
  }
  return { broken, worse, better, same, held: [...old.values()].flat() };
}

/** `order short, Sat 16 May, Alder-3: 8 of 9 is filled, 1 short` */
export const brokenWords = ({ rule, date, where, words }: Broken, system: DateSystem): string => {
  const place = words.startsWith(where) || where === 'picking' || where === 'loading' ? '' : `${where}: `;
  return `${rule}${date === undefined ? '' : `, ${dayWords(date, system)}`} – ${place}${words}`;
};

/** The answer to a move, in one sentence. */
export function answerWords({ broken, worse, better, held }: Change): string {
  const said = [
    ...(broken.length > 0
      ? [`${counted(broken.length, 'rule')} ${broken.length === 1 ? 'is' : 'are'} broken that held before`]
      : []),
    ...(worse.length > 0
      ? [`${counted(worse.length, 'fault')} of the plan ${worse.length === 1 ? 'gets' : 'get'} worse`]
      : []),
    ...(held.length > 0
      ? [`${counted(held.length, 'fault')} of the plan ${held.length === 1 ? 'is' : 'are'} gone`]
      : []),
    ...(better.length > 0
      ? [`${counted(better.length, 'fault')} of the plan ${better.length === 1 ? 'gets' : 'get'} smaller`]
      : []),
  ];
  return said.length === 0 ? 'no rule is broken by it' : said.join(', ');
}

/** What stands above a drawing: which plan, and which days. */
export const titleWords = (place: string, from: number, to: number, system: DateSystem): string =>
  `Plan in ${place}: ${dayWords(from, system)} to ${dayWords(to, system)} ${utcDay(to, system).getUTCFullYear()}`;

/** Loads as rows that can be pasted into a sheet: days as every spreadsheet reads them. */
export function pasteable(
  loads: readonly {
    readonly lot: string;
    readonly room: string;
    readonly day: number;
    readonly blocks: number;
  }[],
  system: DateSystem,
): string {
  const rows = loads.map(({ lot, room, day, blocks }) => [
    writtenDate(day, system),
    lot,
    room,
    String(blocks),
  ]);
  return [['loaded', 'lot', 'room', 'blocks'], ...rows].map((row) => row.join('\t')).join('\n');
}
