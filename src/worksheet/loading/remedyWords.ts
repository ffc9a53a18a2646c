import { shutDays, type Addition } from '../../maths/loading/additions';
import type { LoadPlan } from '../../maths/loading/loadPlan';
import type { LoadingProblem } from '../../maths/loading/loadingProblem';
import type { Remedy } from '../../maths/loading/remedies';
import { labelKey } from '../../maths/shared/labels';
import { writtenDate, type DateSystem } from '../calendar';
import { listed, shownNumber } from '../wording/phrases';
import type { Words } from './orderRows';
import { about } from './solvedPlan';

const CAUSES: Record<Exclude<Addition['of'], 'setting'>, string> = {
  places: 'shelves',
  room: 'shelves',
  'open room': 'room shut',
  'strain in room': 'room for other strains',
  picking: 'picking',
  loading: 'loading',
  'ripe blocks': 'ripe blocks',
  given: 'too soon',
  'free blocks': 'cost in lots',
};

/** Settings that kept an order from being filled: cause, and the row of settings that would fill it. */
const SETTING_WORDS: Record<(Addition & { of: 'setting' })['setting'], Words> = {
  orderTolerance: ['order tolerance', 'order tolerance none in settings'],
  wholeShelves: ['whole shelves', 'whole shelves no in settings'],
  smallestLoad: ['smallest load', 'smallest load 1 in settings'],
  loadCost: ['load cost', 'load cost none in settings'],
  earlyCost: ['early cost', 'early cost none in settings'],
  lateCost: ['late cost', 'late cost none in settings'],
  surplusCost: ['surplus cost', 'surplus cost none in settings'],
  peakCost: ['peak cost', 'peak cost none in settings'],
};

/** What would fill a planned order, as things to be had or done, each with its amount, place and days. */
export function remedyWords(remedy: Remedy, { view }: LoadPlan, o: number, system: DateSystem): Words {
  const { additions, used, isByWholeBlocks } = remedy;
  const { problem, pickDays } = view;
  const day = (serial: number): string => writtenDate(serial, system);
  const during = used ? ` from ${day(used[0])} to ${day(used[1])}` : '';
  const words = stretches(additions).map(({ addition, to }): string => {
    switch (addition.of) {
      case 'places': {
        const { room, shelves } = addition;
        const { blocksPerShelf } = problem.rooms.find((one) => labelKey(one.room) === labelKey(room))!;
        return `${counted(shelves, 'more shelf', 'more shelves')} (${shelves * blocksPerShelf} places) in ${room}${during}`;
      }
      case 'room':
        return `${addition.places} places in one more room for any strain${during}`;
      case 'open room': {
        const room = problem.rooms.find((one) => labelKey(one.room) === labelKey(addition.room))!;
        const shut = shutDays(room, problem.start, pickDays)!;
        return `${room.room} open from ${day(shut[0])} to ${day(shut[1])}`;
      }
      case 'strain in room':
        return `${addition.room} for ${addition.strain} too`;
      case 'picking':
        return `${about(addition.mass)} more picking ${onDays(addition.day, to, day)}`;
      case 'loading':
        return `${counted(addition.blocks, 'more block', 'more blocks')} loaded ${onDays(addition.day, to, day)}`;
      case 'ripe blocks':
        return `${counted(addition.blocks, 'more ripe block', 'more ripe blocks')} like ${addition.like} to open on ${day(addition.day)}`;
      case 'given':
        return `${shownNumber(addition.mass)} from the cold store, written under given`;
      case 'free blocks':
        return 'cost free in lots';
      case 'setting':
        return SETTING_WORDS[addition.setting][1];
    }
  });
  const causes = additions.map((addition) =>
    addition.of === 'setting' ? SETTING_WORDS[addition.setting][0] : CAUSES[addition.of],
  );
  const isChosen = additions[0]!.of === 'setting' || additions[0]!.of === 'free blocks';
  const cause = isByWholeBlocks && !isChosen ? 'whole blocks' : listed([...new Set(causes)]);
  const dear = additions.flatMap((addition) => costOf(addition, problem) ?? [])[0];
  const { order } = view.orders[o]!;
  const why = dear
    ? `${cause} is ${about(dear)}, the order is worth ${about(order.mass * order.price)}: `
    : '';
  return [cause, `${why}with ${listed(words)} it is filled`];
}

/** The cost that an addition does away with; undefined where it is none. */
function costOf(addition: Addition, { settings, lots }: LoadingProblem): number | undefined {
  if (addition.of === 'free blocks') return Math.max(...lots.map(({ cost }) => cost));
  if (addition.of !== 'setting' || !addition.setting.endsWith('Cost')) return undefined;
  return settings[addition.setting] as number;
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const onDays = (from: number, to: number, day: (serial: number) => string): string =>
  from === to ? `on ${day(from)}` : `on each day from ${day(from)} to ${day(to)}`;

/** The same picking or loading on days that follow one another is one thing. */
function stretches(additions: readonly Addition[]): { addition: Addition; to: number }[] {
  const all: { addition: Addition; to: number }[] = [];
  for (const addition of additions) {
    const last = all.at(-1);
    const isMore =
      last &&
      ((addition.of === 'picking' &&
        last.addition.of === 'picking' &&
        addition.mass === last.addition.mass) ||
        (addition.of === 'loading' &&
          last.addition.of === 'loading' &&
          addition.blocks === last.addition.blocks)) &&
      addition.day === last.to + 1;
    if (isMore) last.to = addition.day;
    else all.push({ addition, to: 'day' in addition ? addition.day : 0 });
  }
  return all;
}
