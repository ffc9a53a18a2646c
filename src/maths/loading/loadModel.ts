import { LinearProgramBuilder, type LinearProgram } from '../shared/linearProgram';
import { slotKey, type GroupLoad, type LoadSlot } from './groupLoad';
import { eachPick, type PlanView } from './loadingProblem';

/** A column of the programme: the blocks of a slot. */
export interface LoadColumn extends LoadSlot {
  /** Whether these are blocks kept where the previous plan had them. */
  readonly kept: boolean;
}

/** The plan as a linear programme, with each objective by itself. Costs are in units of `PlanView.blockValue`. */
export interface LoadModel {
  readonly program: LinearProgram;
  /** The first columns of the programme. */
  readonly loads: readonly LoadColumn[];
  /** Value of what orders fall short, per column. */
  readonly shortage: Float64Array;
  /** All other costs, per column, with ties broken. Costs that no plan can avoid are left out. */
  readonly rest: Float64Array;
  /** The same without tie-breaks. */
  readonly trueRest: Float64Array;
  /** Column of each planned order's shortage. */
  readonly shortColumns: readonly number[];
}

/** The slots that are open to the planner. */
export function openSlots(view: PlanView): LoadSlot[] {
  const columns: LoadSlot[] = [];
  view.lots.forEach(({ from, to, kind, lot }, index) => {
    if (lot.blocks < 1) return;
    const groups = view.groups.flatMap((group, at) => (group.takes(view.kinds[kind]!.strain) ? [at] : []));
    for (let day = from; day <= to; day++) {
      if (!(view.loadLimit[day]! > 0)) continue;
      for (const group of groups) columns.push({ lot: index, day, group });
    }
  });
  return columns;
}

/** Number of such slots, counted as if every day were a loading day. */
export function openSlotCount(view: PlanView): number {
  return view.lots.reduce((sum, { from, to, kind }) => {
    const groups = view.groups.filter(({ takes }) => takes(view.kinds[kind]!.strain)).length;
    return sum + Math.max(0, to - from + 1) * groups;
  }, 0);
}

/** Preference for earlier orders where a shortage costs the same: too small to weigh against price. */
export const EARLIER_FIRST = 1e-4;
/** Weight of the tie-break, in units of a block's value: large against the solver's tolerance, nothing in money. */
const TIE_BREAK = 1e-3;

/**
 * The programme of a plan.
 *
 * - Columns: blocks of each slot; places taken in a group on a day; mass picked on a day; largest picking day of a
 *   week; mass of an atom given to an order; surplus of an atom; shortage of an order.
 * - Rows: blocks of a lot; places from day to day (yesterday's, plus what is loaded, less what is done); blocks loaded
 *   on a day; mass picked on a day; mass of each atom; each order; each day of a week against its largest.
 *
 * Only places, limits, ages and stocks are hard, so a plan always exists.
 */
export function loadModel(view: PlanView, kept: readonly GroupLoad[] = []): LoadModel {
  const builder = new LinearProgramBuilder();
  const { lots, groups, orders, atoms, problem } = view;
  const open = openSlots(view);
  const keptBlocks = new Map(kept.map((load) => [slotKey(load), load.blocks]));

  const lotRows = lots.map(({ lot }) => builder.addRow(-Infinity, lot.blocks));
  const placeRows = groups.map(({ watched }) => Array.from({ length: watched }, () => builder.addRow(0, 0)));
  const labourRows = view.loadLimit.map((limit) =>
    limit > 0 && limit < Infinity ? builder.addRow(-Infinity, limit) : -1,
  );
  const weekOf = (day: number): number => Math.floor(day / 7);
  const peaks = view.peakCost > 0 ? weekOf(view.countedDays - 1) + 1 : 0;
  const pickRows = view.pickFree.map((free, day) =>
    free < Infinity || (peaks > 0 && day < view.countedDays) ? builder.addRow(0, 0) : -1,
  );
  const atomRows = atoms.map(({ standing }) => builder.addRow(-standing, -standing));
  const orderRows = orders.map(({ order }) => builder.addRow(order.mass, order.mass));
  const peakRows = view.standingPicks.map((mass, day) =>
    peaks > 0 && day < view.countedDays ? builder.addRow(-Infinity, -mass) : -1,
  );

  const loads: LoadColumn[] = [];
  const shortage: number[] = [];
  const rest: number[] = [];
  const trueRest: number[] = [];
  const add = (
    costs: { short?: number; rest?: number; tie?: number },
    entries: Iterable<readonly [number, number]>,
    upper = Infinity,
  ): number => {
    shortage.push((costs.short ?? 0) / view.blockValue);
    trueRest.push((costs.rest ?? 0) / view.blockValue);
    rest.push((costs.rest ?? 0) / view.blockValue + TIE_BREAK * (costs.tie ?? 0));
    return builder.addColumn(0, entries, 0, upper);
  };

  const margin = problem.settings.margin;
  for (const load of open) {
    const lot = lots[load.lot]!;
    const { watched, key } = groups[load.group]!;
    const entries = new Map<number, number>([[lotRows[load.lot]!, 1]]);
    const rows = placeRows[load.group]!;
    entries.set(rows[load.day]!, -1);
    if (load.day + lot.stay < watched) entries.set(rows[load.day + lot.stay]!, 1);
    if (labourRows[load.day]! >= 0) entries.set(labourRows[load.day]!, 1);
    let unsold = 0;
    eachPick(view, load, (day, mass, atom) => {
      if (pickRows[day]! >= 0) entries.set(pickRows[day]!, mass);
      if (atom >= 0) entries.set(atomRows[atom]!, (entries.get(atomRows[atom]!) ?? 0) + mass * (1 - margin));
      else if (day < view.countedDays) unsold += mass * (1 - margin);
    });
    const cost = lot.costOn(load.day) - lot.leftCost + unsold * view.surplusCost;
    const tie = tieBreak(`${lot.key}|${problem.start + load.day}|${key}`);
    const before = keptBlocks.get(slotKey(load));
    if (before !== undefined) {
      loads.push({ ...load, kept: true });
      add({ rest: cost, tie }, entries, before);
    }
    loads.push({ ...load, kept: false });
    add({ rest: cost, tie }, entries);
  }

  groups.forEach(({ free, watched }, group) => {
    const rows = placeRows[group]!;
    for (let day = 0; day < watched; day++) {
      const entries: [number, number][] = [[rows[day]!, 1]];
      if (day + 1 < watched) entries.push([rows[day + 1]!, -1]);
      add({}, entries, free[day]);
    }
  });
  const peakColumns: [number, number][][] = Array.from({ length: peaks }, () => []);
  pickRows.forEach((row, day) => {
    if (row < 0) return;
    const entries: [number, number][] = [[row, -1]];
    if (peakRows[day]! >= 0) {
      entries.push([peakRows[day]!, 1]);
      peakColumns[weekOf(day)]!.push([peakRows[day]!, -1]);
    }
    add({}, entries, view.pickFree[day]);
  });
  peakColumns.forEach((entries) => add({ rest: view.peakCost }, entries));
  atoms.forEach((atom, at) => {
    for (const order of atom.orders) {
      add({}, [
        [atomRows[at]!, -1],
        [orderRows[order]!, 1],
      ]);
    }
    add({ rest: view.surplusCost }, [[atomRows[at]!, -1]]);
  });
  const shortColumns = orders.map(({ order, to }, at) => {
    const sooner = 1 + EARLIER_FIRST * (1 - to / Math.max(1, view.countedDays));
    return add({ short: order.price * sooner }, [[orderRows[at]!, 1]]);
  });
  return {
    program: builder.build(),
    loads,
    shortage: Float64Array.from(shortage),
    rest: Float64Array.from(rest),
    trueRest: Float64Array.from(trueRest),
    shortColumns,
  };
}

/**
 * A number from 0 up to 1 that depends on a label alone: FNV-1a over its characters. The finaliser of MurmurHash3
 * mixes it, so that neighbouring days do not get neighbouring numbers.
 */
export function tieBreak(label: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < label.length; i++) hash = Math.imul(hash ^ label.charCodeAt(i), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return ((hash ^ (hash >>> 16)) >>> 0) / 2 ** 32;
}
