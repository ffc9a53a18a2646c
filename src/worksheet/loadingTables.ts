import { expectedYieldPerBlock } from '../maths/harvest/expectedYield';
import type {
  DayLimits,
  Lot,
  Order,
  PlanRoom,
  PlanSettings,
  StandingLoad,
} from '../maths/loading/loadingProblem';
import { pickCurve, type PickCurve } from '../maths/loading/pickCurve';
import type { Room } from '../maths/loading/shelfUse';
import { CalcError, invalid, missing, shown } from '../maths/shared/calcError';
import { labelKey } from '../maths/shared/labels';
import { invalidDate, weekdayOf, type DateSystem } from '../maths/shared/serial';
import { isBlankOrZero } from './cells/cell';
import { count, fractionBelowOne, mass, number, serial, text, type Kind } from './cells/kinds';
import { key, optional, type RowOf, type TableColumns, type Table } from './cells/table';
import { only, strainColumns } from './tables';

/** What a loading plan can be looked at from. */
export const VIEWS = ['plan', 'picks', 'orders', 'lots', 'summary'] as const;
export type View = (typeof VIEWS)[number];

/** What the strains table must tell to know when and how much a strain's blocks are picked. */
export const pickColumns = {
  ...only(strainColumns, 'strain', 'first pick', 'pick days', 'flush gap', 'flush'),
  /** Left out, the flush shares that are filled in say how many. */
  flushes: optional(count()),
} satisfies TableColumns;

/** The same with how much. */
export const yieldColumns = {
  ...pickColumns,
  ...only(strainColumns, 'efficiency', 'loss'),
} satisfies TableColumns;

/** Blocks on the shelves, or to be set there: one row per load. */
export const loadColumns = {
  loaded: key(serial()),
  strain: text('strain'),
  blocks: count(),
  'block mass': mass(),
  moisture: fractionBelowOne(),
  product: optional(text('product')),
  room: optional(text('room')),
} satisfies TableColumns;

export const roomColumns = {
  room: key(text('room')),
  shelves: count(),
  'blocks per shelf': count(),
  /** First and last day the room is shut. */
  'closed from': optional(serial()),
  'closed to': optional(serial()),
  /** The strains it may hold, commas between them; any if blank. */
  strains: optional(text('strains')),
} satisfies TableColumns;

/** The pick curve of a strain, looked up in the strains table. */
export function curveOf(
  strain: string,
  strains: Table<RowOf<typeof pickColumns>>,
  argument: string,
): PickCurve {
  const row = strains.find(strain, argument);
  return pickCurve({
    strain: row.strain,
    firstPick: row['first pick'],
    pickDays: row['pick days'],
    flushGap: row['flush gap'],
    flushes: row.flushes,
    shares: row.flush,
  });
}

/** Fresh mass a block of this make is expected to give over all flushes. */
export function yieldOf(
  block: { readonly 'block mass': number; readonly moisture: number },
  strain: RowOf<typeof yieldColumns>,
): number {
  return expectedYieldPerBlock({
    blockMass: block['block mass'],
    moisture: block.moisture,
    efficiency: strain.efficiency,
    loss: strain.loss,
    share: 1,
  });
}

/** A row of the rooms table as places. */
export function roomOf(
  row: RowOf<Pick<typeof roomColumns, 'room' | 'shelves' | 'blocks per shelf' | 'closed from' | 'closed to'>>,
): Room {
  return {
    room: row.room,
    places: row.shelves * row['blocks per shelf'],
    closedFrom: row['closed from'],
    closedTo: row['closed to'],
  };
}

/** What planning asks of the strains: when blocks may be opened, and when and how much they give. */
export const planStrainColumns = {
  ...yieldColumns,
  ...only(strainColumns, 'earliest', 'best', 'latest'),
} satisfies TableColumns;

/** Numbers of a farm: larger ones are a slip, and would spoil the programme's arithmetic. */
const blockCount = (): Kind<number> => number({ word: 'count', from: 1, to: 1_000_000, whole: true });
const planMass = (): Kind<number> => ({
  ...number({ word: 'mass', above: 0, to: 1e9 }),
  needed: 'a mass above 0, at most 1e9,',
});
const planCost = (): Kind<number> => number({ word: 'cost', from: 0, to: 1e9 });

/** Lots not opened yet. Ripe days come from the strain and the inoculation, or from dates of the lot's own. */
export const lotColumns = {
  lot: key(text('lot')),
  strain: text('strain'),
  blocks: blockCount(),
  'block mass': planMass(),
  moisture: fractionBelowOne(),
  inoculated: optional(serial()),
  earliest: optional(serial()),
  best: optional(serial()),
  latest: optional(serial()),
  /** What its mushrooms are sold as; the strain if blank. */
  product: optional(text('product')),
  'not before': optional(serial()),
  'not after': optional(serial()),
  /** Per block loaded. */
  cost: optional(planCost(), 0),
} satisfies TableColumns;

export const orderColumns = {
  /** A product, a strain, or `any`. */
  product: key(text('product')),
  mass: planMass(),
  due: serial(),
  /** First day whose picking can fill it; or the days a picking keeps; the seven days up to due if neither. */
  from: optional(serial()),
  'keep days': optional(number({ word: 'days', above: 0, to: 366 })),
  /** Per unit of mass. */
  price: optional(number({ word: 'price', above: 0, to: 1e9 }), 1),
} satisfies TableColumns;

export const calendarColumns = {
  day: key(weekdayOrDate()),
  'pick limit': dayLimit('mass'),
  'load limit': dayLimit('blocks'),
} satisfies TableColumns;

export const standingColumns = {
  loaded: key(serial()),
  room: text('room'),
  strain: text('strain'),
  blocks: blockCount(),
  'block mass': planMass(),
  moisture: fractionBelowOne(),
  product: optional(text('product')),
} satisfies TableColumns;

/** Loads of a plan, as LOADPLAN lists them. */
export const planColumns = {
  loaded: key(serial()),
  lot: text('lot'),
  room: text('room'),
  blocks: blockCount(),
} satisfies TableColumns;

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

/** A date as its serial, or a weekday as its English name; three letters will do. */
function weekdayOrDate(): Kind<number | string> {
  return {
    word: 'day',
    needed: 'a weekday (Monday) or a date',
    accept: (cell) => {
      if (typeof cell !== 'string') return serial().accept(cell);
      const word = cell.trim().toLowerCase();
      return word.length < 3 ? undefined : WEEKDAYS.find((weekday) => weekday.toLowerCase().startsWith(word));
    },
    samples: ['Monday', 'sun', 46146],
  };
}

/**
 * A day's limit. A blank must not be taken for no limit where a host hands it over as 0, nor 0 for no work: both
 * are asked to be said in a word.
 */
function dayLimit(word: string): Kind<number> {
  return {
    word,
    needed: `a number above 0, off or none`,
    accept: (cell) => {
      if (typeof cell === 'number') return cell > 0 && cell <= 1e9 ? cell : undefined;
      const said = typeof cell === 'string' ? cell.trim().toLowerCase() : '';
      return said === 'off' ? 0 : said === 'none' ? Infinity : undefined;
    },
    hint: (cell) => (isBlankOrZero(cell) ? 'write off for no work that day, none for no limit' : undefined),
    samples: [40, 'off', 'none'],
  };
}

type Strains = Table<RowOf<typeof planStrainColumns>>;

function strainOf(label: string, strains: Strains, argument: string, index: number): Strains['rows'][number] {
  if (!strains.has(label)) throw missing(argument, `"${label}" is not in strains`, index);
  return strains.find(label, argument);
}

/** The lots with their ripe days and yields. */
export function lotsOf(lots: Table<RowOf<typeof lotColumns>>, strains: Strains, system: DateSystem): Lot[] {
  const seen = new Set<string>();
  return lots.rows.map((row, index) => {
    if (seen.has(labelKey(row.lot))) throw invalid('lots, lot', 'each lot once', row.lot, index);
    seen.add(labelKey(row.lot));
    const strain = strainOf(row.strain, strains, 'lots, strain', index);
    const ripe = (point: 'earliest' | 'best' | 'latest'): number => {
      const date = row[point];
      if (date !== undefined) return date;
      const days = strain[point];
      if (row.inoculated === undefined) {
        throw missing('lots, inoculated', `a date needed, or one under ${point}`, index);
      }
      if (days === undefined) throw missing('strains', `${strain.strain} has no days under ${point}`);
      return row.inoculated + days;
    };
    const [earliest, best, latest] = [ripe('earliest'), ripe('best'), ripe('latest')];
    if (!(earliest <= best))
      throw invalidDate('lots, best', 'a day not before the earliest', best, system, index);
    if (!(best <= latest))
      throw invalidDate('lots, latest', 'a day not before the best', latest, system, index);
    return {
      lot: row.lot,
      strain: strain.strain,
      product: row.product ?? strain.strain,
      blocks: row.blocks,
      earliest,
      best,
      latest,
      notBefore: row['not before'],
      notAfter: row['not after'],
      yieldPerBlock: yieldOf(row, strain),
      curve: curveOf(row.strain, strains, 'lots, strain'),
      cost: row.cost,
    };
  });
}

export function planRoomsOf(rooms: Table<RowOf<typeof roomColumns>>, strains: Strains): PlanRoom[] {
  const seen = new Set<string>();
  return rooms.rows.map((row, index) => {
    if (seen.has(labelKey(row.room))) throw invalid('rooms, room', 'each room once', row.room, index);
    seen.add(labelKey(row.room));
    const names = row.strains?.split(/[,;]/).flatMap((name) => name.trim() || []);
    for (const name of names ?? []) strainOf(name, strains, 'rooms, strains', index);
    return { ...roomOf(row), blocksPerShelf: row['blocks per shelf'], strains: names };
  });
}

/** Mushrooms do not keep: a window of more than a year is a slip of a date. */
const LONGEST_WINDOW = 366;

export function ordersOf(orders: Table<RowOf<typeof orderColumns>>, system: DateSystem): Order[] {
  return orders.rows.map((row, index) => {
    const keeps = row['keep days'];
    const from = row.from ?? row.due - (keeps === undefined ? 6 : Math.floor(keeps));
    if (!(Math.floor(from) <= Math.floor(row.due))) {
      throw invalidDate('orders, from', 'a day not after due', from, system, index);
    }
    if (row.due - from > LONGEST_WINDOW) {
      throw invalidDate(
        'orders, from',
        `a day at most ${LONGEST_WINDOW} days before due`,
        from,
        system,
        index,
      );
    }
    return { product: row.product, mass: row.mass, from, due: row.due, price: row.price };
  });
}

export function standingOf(
  standing: Table<RowOf<typeof standingColumns>> | undefined,
  rooms: Table<RowOf<typeof roomColumns>>,
  strains: Strains,
): StandingLoad[] {
  return (standing?.rows ?? []).map((row, index) => {
    if (!rooms.has(row.room)) throw missing('standing, room', `"${row.room}" is not in rooms`, index);
    const strain = strainOf(row.strain, strains, 'standing, strain', index);
    return {
      room: row.room,
      strain: strain.strain,
      product: row.product ?? strain.strain,
      loaded: row.loaded,
      blocks: row.blocks,
      yieldPerBlock: yieldOf(row, strain),
      curve: curveOf(row.strain, strains, 'standing, strain'),
    };
  });
}

/** The limits of each day: a date's row before its weekday's, no limit where neither is there. */
export function limitsOf(
  calendar: Table<RowOf<typeof calendarColumns>> | undefined,
  system: DateSystem,
): (day: number) => DayLimits {
  const limits = new Map<number | string, DayLimits>();
  (calendar?.rows ?? []).forEach((row, index) => {
    const day = typeof row.day === 'number' ? Math.floor(row.day) : row.day;
    if (limits.has(day)) {
      const once = 'each day once';
      throw typeof day === 'number'
        ? invalidDate('calendar, day', once, day, system, index)
        : invalid('calendar, day', once, day, index);
    }
    limits.set(day, { pick: row['pick limit'], load: row['load limit'] });
  });
  return (day) => limits.get(day) ?? limits.get(weekdayOf(day, system)) ?? { pick: Infinity, load: Infinity };
}

export function plannedOf(loads: Table<RowOf<typeof planColumns>>): {
  lot: string;
  room: string;
  day: number;
  blocks: number;
}[] {
  return loads.rows.map(({ lot, room, loaded, blocks }) => ({ lot, room, day: Math.floor(loaded), blocks }));
}

/** The settings of LOADPLAN, by the name a grower writes. */
const SETTINGS = {
  'early cost': { property: 'earlyCost', kind: 'cost' },
  'late cost': { property: 'lateCost', kind: 'cost' },
  'discard cost': { property: 'discardCost', kind: 'cost' },
  'waiting cost': { property: 'waitCost', kind: 'cost' },
  'surplus cost': { property: 'surplusCost', kind: 'cost' },
  'peak cost': { property: 'peakCost', kind: 'cost' },
  'load cost': { property: 'loadCost', kind: 'cost' },
  'comfort days': { property: 'comfortDays', kind: 'days' },
  'turn-round days': { property: 'turnRound', kind: 'days' },
  margin: { property: 'margin', kind: 'share' },
  'keep tolerance': { property: 'keepTolerance', kind: 'share' },
  'freeze days': { property: 'freezeDays', kind: 'days' },
  'whole shelves': { property: 'wholeShelves', kind: 'yesNo' },
  'smallest load': { property: 'smallestLoad', kind: 'blocks' },
} as const;

const DEFAULTS: PlanSettings = {
  earlyCost: undefined,
  lateCost: undefined,
  discardCost: undefined,
  waitCost: undefined,
  surplusCost: undefined,
  peakCost: undefined,
  loadCost: undefined,
  comfortDays: 2,
  turnRound: 0,
  margin: 0,
  keepTolerance: 0.003,
  freezeDays: 0,
  wholeShelves: false,
  smallestLoad: 1,
};

export const settingColumns = {
  name: key(text('setting')),
  value: optional(settingValue()),
} satisfies TableColumns;

/** A number, or one of the words that say what a 0 would: `none`, `yes`, `no`. */
function settingValue(): Kind<number | string> {
  return {
    word: 'setting',
    needed: 'a number, none, yes or no',
    accept: (cell) => {
      if (typeof cell === 'number') return cell > 0 && cell <= 1e9 ? cell : undefined;
      if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
      const word = typeof cell === 'string' ? cell.trim().toLowerCase() : '';
      return ['none', 'yes', 'no'].includes(word) ? word : undefined;
    },
    samples: [1, 0.05, 'none', 'yes', 'no'],
  };
}

/** What the settings say; a blank or 0 leaves the default, `none` is a cost or number of 0. */
export function settingsOf(settings: Table<RowOf<typeof settingColumns>> | undefined): PlanSettings {
  const said: Record<string, number | boolean> = {};
  const byName = new Map(
    Object.entries(SETTINGS).map(([name, setting]) => [settingKey(name), { name, ...setting }]),
  );
  (settings?.rows ?? []).forEach((row, index) => {
    const setting = byName.get(settingKey(row.name));
    if (!setting)
      throw invalid('settings, name', `one of ${Object.keys(SETTINGS).join(', ')}`, row.name, index);
    if (setting.property in said) throw invalid('settings, name', 'each setting once', row.name, index);
    if (row.value === undefined) return;
    said[setting.property] = valueOf(setting.name, setting.kind, row.value, index);
  });
  return { ...DEFAULTS, ...said };
}

const settingKey = (name: string): string => labelKey(name).replace(/[\s_-]+/g, '');

function valueOf(
  name: string,
  kind: (typeof SETTINGS)[keyof typeof SETTINGS]['kind'],
  value: number | string,
  index: number,
): number | boolean {
  const refuse = (needed: string): CalcError =>
    new CalcError('invalid', `settings, value: ${needed} needed for ${name}, got ${shown(value)}`, {
      argument: 'settings, value',
      index,
    });
  const amount = value === 'none' || value === 'no' ? 0 : value;
  switch (kind) {
    case 'yesNo':
      if (typeof value === 'number') throw refuse('yes or no');
      return value === 'yes';
    case 'cost':
      if (typeof amount !== 'number') throw refuse('a cost or none');
      return amount;
    case 'share':
      if (typeof amount !== 'number' || amount >= 1) throw refuse('a share below 100% or none');
      return amount;
    case 'days':
      if (typeof amount !== 'number' || !Number.isInteger(amount) || amount > 366) {
        throw refuse('a whole number of days or none');
      }
      return amount;
    case 'blocks':
      if (typeof amount !== 'number' || !Number.isInteger(amount))
        throw refuse('a whole number of blocks or none');
      return Math.max(1, amount);
  }
}
