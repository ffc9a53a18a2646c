import { ColumnEntries, LinearProgramBuilder, type LinearProgram } from '../shared/linearProgram';
import { seasonWeight } from './fates';
import type { GroupLoad, LoadSlot } from './groupLoad';
import type { Future } from './futures';
import { LEAST_WORTH, type PlanView } from './planView';
import { groupsFor, lotDays } from './openSlots';
import { tieBreak } from './tieBreak';

/** A column of the programme: blocks of a lot opened on a day. */
export interface LoadColumn {
  readonly lot: number;
  readonly day: number;
  /** Where they go; undefined where several groups could take them, and columns of their own share them out. */
  readonly group: number | undefined;
  /** Whether these are blocks kept where the previous plan had them. */
  readonly kept: boolean;
}

/** Blocks of one day that stay equally long and that the same groups could take: shared out over those groups. */
export interface SharedDay {
  readonly day: number;
  readonly groups: readonly number[];
  /** For each of the groups, its column. */
  readonly columns: readonly number[];
  /** The load columns that it shares out. */
  readonly loads: readonly number[];
}

/** The plan as a linear programme, with each objective by itself. Costs are in units of `PlanView.blockValue`. */
export interface LoadModel {
  readonly program: LinearProgram;
  /** The first columns of the programme. */
  readonly loads: readonly LoadColumn[];
  readonly shared: readonly SharedDay[];
  /** Value of what orders fall short, per column; of equal orders the earlier weighs slightly more. */
  readonly shortage: Float64Array;
  /** All costs together, per column: shortage, shortage over the row's limit again, and the rest. */
  readonly total: Float64Array;
  /** What breaks ties between equal plans, per column: too small to weigh against a cost. */
  readonly ties: Float64Array;
  /** The row that limits the shortage: what is over its limit counts `ORDERS_FIRST` times. */
  readonly shortageRow: number;
  /** Column of each planned order's shortage, in each possible season; and the unit of its mass. */
  readonly shortColumns: readonly number[];
  readonly massUnit: number;
  /** Columns of the mass picked on a day, and the day of each; none where there are possible seasons. */
  readonly pickColumns: readonly number[];
  readonly pickDays: readonly number[];
  /** Row of the blocks loaded on each day; -1 where they are not limited. */
  readonly labourRows: readonly number[];
  /** For each group, the columns of the places taken on each of its days. */
  readonly placeColumns: readonly (readonly number[])[];
}

/** Preference for earlier orders where a shortage costs the same: too small to weigh against price. */
export const EARLIER_FIRST = 1e-4;
/** How often a shortage counts once it is over the least one and the tolerance. */
export const ORDERS_FIRST = 5;
/** How often a shortage counts over possible seasons, which have no least one: orders come first there too. */
export const SHORT_TIMES = 3;
/** Weight of the tie-break, in units of a block's value: large against the solver's tolerance, nothing in money. */
const TIE_BREAK = 1e-3;

/**
 * The programme of a plan.
 *
 * - Columns: blocks of a lot on a day; their shares in groups of rooms; places taken in a group on a day; mass picked
 *   on a day; largest picking day of a week; mass of an atom given to an order; surplus of an atom; shortage of an
 *   order; shortage over the limit.
 * - Rows: blocks of a lot; blocks of a day shared out; places from day to day (yesterday's, plus what is loaded, less
 *   what is done); blocks loaded on a day; mass picked on a day; mass of each atom; each order; each day of a week
 *   against its largest; the shortage.
 *
 * With several possible seasons, loads are the same in all of them. Picking, atoms and orders have their columns and
 * rows once for each. What is picked has no column there: its row ends at the limit, and mass over it has a column and
 * a cost.
 *
 * Only places, limits, ages and stocks are hard, so a plan always exists. Masses are in units of a mean block's yield,
 * so that the solver's tolerances mean the same for grams and tonnes.
 *
 * Room groups do not multiply the columns of lots: blocks of one day that stay equally long are shared out together.
 *
 * @param slots where given, the only slots that are open, each with its group
 */
export function loadModel(
  view: PlanView,
  kept: readonly GroupLoad[] = [],
  slots?: readonly LoadSlot[],
): LoadModel {
  const builder = new LinearProgramBuilder();
  const { lots, groups, orders, atoms, problem } = view;
  const massUnit = meanYield(view);
  const inUnits = (mass: number): number => mass / massUnit;

  const lotRows = lots.map(({ lot }) => builder.addRow(-Infinity, lot.blocks));
  const placeRows = groups.map(({ watched }) => Array.from({ length: watched }, () => builder.addRow(0, 0)));
  const labourRows = view.loadLimit.map((limit) =>
    limit > 0 && limit < Infinity ? builder.addRow(-Infinity, limit) : -1,
  );
  const { countedDays } = view;
  const futures = futuresOf(view);
  const isCertain = view.futures.length === 0;
  const weightOf = (f: number, day: number): number => seasonWeight(f, futures.length, day);
  const weekOf = (day: number): number => Math.floor(day / 7);
  const peaks = isCertain && view.peakCost > 0 ? weekOf(countedDays - 1) + 1 : 0;
  const pickFree = (standingPicks: readonly number[], day: number): number =>
    inUnits(Math.max(0, view.pickLimit[day]! - standingPicks[day]!));
  const rowsOf = futures.map(({ standingPicks, standingIn }, f) => ({
    picks: view.pickLimit.map((limit, day) => {
      if (!(weightOf(f, day) > 0 && (limit < Infinity || (peaks > 0 && day < countedDays)))) return -1;
      return isCertain ? builder.addRow(0, 0) : builder.addRow(-Infinity, pickFree(standingPicks, day));
    }),
    atoms: standingIn.map((mass, at) =>
      weightOf(f, atoms[at]!.from) > 0 ? builder.addRow(-inUnits(mass), -inUnits(mass)) : -1,
    ),
    orders: orders.map(({ order, from }) =>
      weightOf(f, from) > 0 ? builder.addRow(inUnits(order.mass), inUnits(order.mass)) : -1,
    ),
    peaks: standingPicks.map((mass, day) =>
      peaks > 0 && day < countedDays ? builder.addRow(-Infinity, -inUnits(mass)) : -1,
    ),
  }));
  const shortageRow = builder.addRow(-Infinity, Infinity);

  const shortage: number[] = [];
  const total: number[] = [];
  const ties: number[] = [];
  const add = (
    costs: { short?: number; rest?: number; tie?: number },
    entries: Iterable<readonly [number, number]>,
    upper = Infinity,
  ): number => {
    shortage.push((costs.short ?? 0) / view.blockValue);
    total.push((costs.rest ?? 0) / view.blockValue);
    ties.push(TIE_BREAK * (costs.tie ?? 0));
    return builder.addColumn(0, entries, 0, upper);
  };
  const placeEntries = (group: number, day: number, stay: number): [number, number][] => {
    const rows = placeRows[group]!;
    return day + stay < groups[group]!.watched
      ? [
          [rows[day]!, -1],
          [rows[day + stay]!, 1],
        ]
      : [[rows[day]!, -1]];
  };

  const margin = problem.settings.margin;
  const loads: LoadColumn[] = [];
  const sharing = new Map<
    string,
    { day: number; stay: number; groups: number[]; row: number; loads: number[] }
  >();
  const keptBlocks = new Map<string, number>();
  const columnKey = (lot: number, day: number, group: number | undefined): string => `${lot} ${day} ${group}`;
  for (const { lot, day, group, blocks } of kept) {
    const key = columnKey(lot, day, slots && group);
    keptBlocks.set(key, (keptBlocks.get(key) ?? 0) + blocks);
  }
  const entries = new ColumnEntries();
  for (const slot of slots ?? lotDays(view)) {
    const lot = lots[slot.lot]!;
    const { day } = slot;
    const open = slots ? [(slot as LoadSlot).group] : groupsFor(view, slot.lot, day);
    entries.clear();
    entries.put(lotRows[slot.lot]!, 1);
    let shares: number[] | undefined;
    if (open.length === 1)
      placeEntries(open[0]!, day, lot.stay).forEach(([row, value]) => entries.put(row, value));
    else {
      const key = `${day} ${lot.stay} ${open.join()}`;
      if (!sharing.has(key)) {
        sharing.set(key, { day, stay: lot.stay, groups: open, row: builder.addRow(0, 0), loads: [] });
      }
      const one = sharing.get(key)!;
      entries.put(one.row, 1);
      shares = one.loads;
    }
    if (labourRows[day]! >= 0) entries.put(labourRows[day]!, 1);
    let unsold = 0;
    const atomOf = view.atomOf[lot.kind]!;
    futures.forEach(({ eachPickOf }, f) => {
      const { picks, atoms: inAtoms } = rowsOf[f]!;
      eachPickOf(slot.lot, day, (on, mass) => {
        const atom = atomOf[on]!;
        if (picks[on]! >= 0) entries.put(picks[on]!, inUnits(mass));
        if (atom < 0) {
          if (on < countedDays) unsold += weightOf(f, on) * mass * (1 - margin);
        } else if (inAtoms[atom]! >= 0) entries.put(inAtoms[atom]!, inUnits(mass) * (1 - margin));
      });
    });
    const rest = lot.costOn(day) - lot.leftCost + unsold * view.surplusCost;
    const tie = tieBreak(`${lot.key}|${problem.start + day}`);
    const group = open.length === 1 ? open[0]! : undefined;
    const before = keptBlocks.get(columnKey(slot.lot, day, slots && group));
    const put = (isKept: boolean, upper: number): void => {
      shares?.push(loads.length);
      loads.push({ lot: slot.lot, day, group, kept: isKept });
      add({ rest, tie }, entries, upper);
    };
    if (before !== undefined) put(true, before);
    put(false, Infinity);
  }
  const shared = [...sharing.values()].map(({ day, stay, groups: open, row, loads: theirs }): SharedDay => ({
    day,
    groups: open,
    loads: theirs,
    columns: open.map((group) =>
      add({ tie: 0.1 * tieBreak(`${stay}|${problem.start + day}|${groups[group]!.key}`) }, [
        [row, -1],
        ...placeEntries(group, day, stay),
      ]),
    ),
  }));

  const placeColumns = groups.map(({ free, watched }, group) => {
    const rows = placeRows[group]!;
    return Array.from({ length: watched }, (_, day) => {
      const entries: [number, number][] = [[rows[day]!, 1]];
      if (day + 1 < watched) entries.push([rows[day + 1]!, -1]);
      return add({}, entries, free[day]);
    });
  });
  const pickColumns: number[] = [];
  const pickDays: number[] = [];
  const shortColumns: number[] = [];
  futures.forEach(({ standingPicks }, f) => {
    const rows = rowsOf[f]!;
    const peakColumns: [number, number][][] = Array.from({ length: peaks }, () => []);
    rows.picks.forEach((row, day) => {
      if (row < 0) return;
      if (!isCertain) {
        add({ rest: weightOf(f, day) * view.overtimeCost * massUnit }, [[row, -1]]);
        return;
      }
      const entries: [number, number][] = [[row, -1]];
      if (rows.peaks[day]! >= 0) {
        entries.push([rows.peaks[day]!, 1]);
        peakColumns[weekOf(day)]!.push([rows.peaks[day]!, -1]);
      }
      pickColumns.push(add({}, entries, pickFree(standingPicks, day)));
      pickDays.push(day);
    });
    peakColumns.forEach((entries) => add({ rest: view.peakCost * massUnit }, entries));
    atoms.forEach((atom, at) => {
      if (rows.atoms[at]! < 0) return;
      for (const order of atom.orders) {
        if (rows.orders[order]! < 0) continue;
        add({}, [
          [rows.atoms[at]!, -1],
          [rows.orders[order]!, 1],
        ]);
      }
      add({ rest: weightOf(f, atom.from) * view.surplusCost * massUnit }, [[rows.atoms[at]!, -1]]);
    });
    orders.forEach(({ order, from, to }, at) => {
      if (rows.orders[at]! < 0) return;
      const sooner = 1 + EARLIER_FIRST * (1 - to / Math.max(1, countedDays));
      const price = weightOf(f, from) * order.price * massUnit;
      shortColumns.push(
        add({ short: price * sooner, rest: isCertain ? price : SHORT_TIMES * price }, [
          [rows.orders[at]!, 1],
          [shortageRow, price / view.blockValue],
        ]),
      );
    });
  });
  add({ rest: (ORDERS_FIRST - 1) * view.blockValue }, [[shortageRow, -1]]);
  return {
    program: builder.build(),
    loads,
    shared,
    shortage: Float64Array.from(shortage),
    total: Float64Array.from(total),
    ties: Float64Array.from(ties),
    shortageRow,
    shortColumns,
    massUnit,
    pickColumns,
    pickDays,
    labourRows,
    placeColumns,
  };
}

/** The possible seasons of a view: the expected one where everything goes as expected. */
function futuresOf(view: PlanView): readonly Future[] {
  if (view.futures.length > 0) return view.futures;
  const eachPickOf: Future['eachPickOf'] = (lot, day, visit) =>
    view.lots[lot]!.picks.forEach(([k, mass]) => visit(day + k, mass));
  return [
    { eachPickOf, standingPicks: view.standingPicks, standingIn: view.atoms.map(({ standing }) => standing) },
  ];
}

/** Mean yield of a block, by which masses are measured in the programme. */
function meanYield({ lots }: PlanView): number {
  const blocks = lots.reduce((sum, { lot }) => sum + lot.blocks, 0);
  const mass = lots.reduce((sum, { lot }) => sum + lot.blocks * lot.yieldPerBlock, 0);
  const mean = blocks > 0 ? mass / blocks : 0;
  return mean > LEAST_WORTH ? mean : 1;
}
