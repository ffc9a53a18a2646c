import { isShut } from '../../maths/loading/shelfUse';
import type { LoadPlan } from '../../maths/loading/loadPlan';
import type { LoadingProblem, Lot } from '../../maths/loading/loadingProblem';
import { labelKey, lookAlikes, nearestLabel } from '../../maths/shared/labels';
import { writtenDate } from '../calendar';
import type { ResultRow } from '../cells/results';
import { listed } from '../wording/phrases';
import { WORTH_A_WORD, type PlanCall } from './solvedPlan';
import type { planViews } from './views';

type PlanRow = ResultRow<typeof planViews.plan>;

const BLANK = {
  loaded: '',
  lot: '',
  strain: '',
  room: '',
  blocks: '',
  age: '',
  'first pick': '',
  'block mass': '',
  moisture: '',
  product: '',
} as const;

/**
 * What is wrong with a plan as a whole, a line in each of the rows above it; none where nothing is. The words are in the
 * last column: there they run on beyond the table, and a call that reads the plan passes over a row with one text and no
 * figure.
 */
export function headlineRows(call: PlanCall, plan: LoadPlan): PlanRow[] {
  const words = [
    ordersLine(call, plan),
    nothingLine(call, plan),
    twinsLine(call.problem),
    shelvesLine(call),
    ...fullRooms(call.problem),
    ...columnLines(call),
  ].filter((line) => line !== '');
  return words.map((line) => ({ ...BLANK, for: line }));
}

/** How many orders are filled, and for which products there is nothing to open and nothing on the shelves. */
function ordersLine({ problem, lots }: PlanCall, { view, cost }: LoadPlan): string {
  const grown = new Set(view.kinds.flatMap(({ strain, product }) => [strain, product]));
  const isGrown = (product: string): boolean =>
    grown.has(labelKey(product)) || (labelKey(product) === 'any' && grown.size > 0);
  const beyond = view.unplanned.filter(({ order, why }) => why === 'beyond' && !isGrown(order.product));
  const short = view.orders.filter(
    ({ order }, o) => order.mass - cost.filled[o]! > WORTH_A_WORD * order.mass,
  );
  const missed = short.length + beyond.length;
  if (missed === 0) return '';
  const all = view.orders.length + beyond.length;
  const products = new Map(
    [...short, ...beyond]
      .filter(({ order }) => !isGrown(order.product))
      .map(({ order }) => [labelKey(order.product), order.product]),
  );
  const known = problem.lots.flatMap(({ strain, product }) => [strain, product]);
  const unknown = [...products.values()].map((product) => {
    const near = nearestLabel(product, known);
    return near === undefined ? product : `${product} (did you mean ${near}?)`;
  });
  const shown = unknown.length > 4 ? [...unknown.slice(0, 3), `${unknown.length - 3} more`] : unknown;
  // Where all lots are loaded the next words say so: that no lot is of the strain would be wrong.
  const isAllLoaded = problem.lots.length === 0 && lots.entries.length > 0;
  const why =
    unknown.length > 0 && !isAllLoaded
      ? `no lot is ${listed(shown).replace(/ and (?=\S+$)/, ' or ')}`
      : 'the view orders says why';
  return `${all - missed} of ${all} orders ${all === 1 ? 'is' : 'are'} filled: ${why}`;
}

/** Lots whose labels only look alike are planned as two: one of them may be a slip. */
function twinsLine({ lots }: LoadingProblem): string {
  const alike = lookAlikes(lots.map(({ lot }) => lot));
  return alike ? `two lots look the same but are not: ${alike.join(' and ')}` : '';
}

function nothingLine({ problem, lots, dateSystem }: PlanCall, { view, loads }: LoadPlan): string {
  if (loads.length > 0) return '';
  if (lots.entries.length === 0) return 'there are no lots to open';
  if (problem.lots.length === 0) return 'every lot is loaded already';
  const days = Array.from({ length: problem.days }, (_, day) => problem.start + day);
  if (problem.rooms.every((room) => days.every((day) => isShut(room, day)))) {
    return problem.rooms.length === 1
      ? `the room ${problem.rooms[0]!.room} is closed on all of these days`
      : 'every room is closed on all of these days';
  }
  if (view.lots.some(({ from, to }) => from <= to)) return '';
  const opens = ({ earliest, notBefore }: Lot): number => Math.floor(Math.max(earliest, notBefore ?? 0));
  const ahead = problem.lots.filter((lot) => opens(lot) >= problem.start);
  if (ahead.length === 0)
    return 'no lot may be opened in these days: all are over age, or past their last day';
  const first = ahead.reduce((a, b) => (opens(b) < opens(a) ? b : a));
  const day = writtenDate(opens(first), dateSystem);
  return `no lot may be opened in these days: the first is ${first.lot}, on ${day}`;
}

/** Rooms in which more stands on the first day than they have places for: nothing can be set there until it is out. */
export function fullRooms({ rooms, standing, start }: LoadingProblem): string[] {
  return rooms.flatMap(({ room, places }) => {
    const blocks = standing
      .filter((load) => labelKey(load.room) === labelKey(room))
      .filter(({ loaded, curve }) => loaded <= start && Math.floor(loaded) + curve.stay > start)
      .reduce((sum, load) => sum + load.blocks, 0);
    return blocks > places
      ? [`${blocks} blocks are listed as standing in ${room}, which has ${places} places`]
      : [];
  });
}

/** Blocks that are opened take up places and are picked: a plan that does not know where they are leaves that out. */
function shelvesLine({ problem, loadedBefore }: PlanCall): string {
  if (loadedBefore === 0 || problem.standing.length > 0) return '';
  const blocks = loadedBefore === 1 ? '1 block is' : `${loadedBefore} blocks are`;
  return `${blocks} loaded already, but no table standing says where: their places and picks are not counted`;
}

const columnLines = ({ lookAlikes }: PlanCall): string[] =>
  lookAlikes
    .slice(0, 3)
    .map(
      ({ table, header, property, meaning }) =>
        `nothing reads “${header}” in ${table}: is it ${property}, the ${meaning.split(/[;,:]/)[0]!}?`,
    );
