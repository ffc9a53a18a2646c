import type { Caller } from '../../../worksheet/call';
import type { DateSystem } from '../../../worksheet/calendar';
import {
  isCellError,
  plainValues,
  type Cell,
  type CellError,
  type Grid,
} from '../../../worksheet/cells/cell';
import { LOADPLAN, readPlan } from '../../../worksheet/readPlan';
import type { Tools } from '../../../worksheet/tools';
import { textOf, todayIn } from '../../fit/book';
import type { Solve } from '../../worker/solver';
import type { PlanInBook } from './plans';
import { layOut, type Board, type Layout } from './shapes';
import { brokenIn, changeOf, type Broken, type Change } from './words';

export type Planning = Tools['planning'];
type Problem = ReturnType<Planning['problemOf']>;
export type PlannedLoad = Parameters<Planning['drawnBoard']>[1][number];

const DAY_WIDTH = 26;

/** A plan of the workbook with its loads as they are moved on the board. Nothing of it is in the workbook. */
export class DrawnPlan {
  readonly today: number;
  /** The rules that the plan itself breaks. */
  readonly before: readonly Broken[];
  loads: readonly PlannedLoad[];
  board!: Board;
  layout!: Layout;
  /** Loads that were moved, the last one last. */
  private order: number[] = [];

  private constructor(
    readonly plan: PlanInBook,
    readonly dateSystem: DateSystem,
    private readonly planning: Planning,
    private readonly caller: Caller,
    private readonly problem: Problem,
    /** The loads as the plan has them. */
    readonly planned: readonly PlannedLoad[],
    /** What the plan says is wrong with itself. */
    readonly remarks: readonly string[],
  ) {
    this.today = todayIn(dateSystem);
    this.loads = planned;
    this.before = this.broken();
    this.draw();
  }

  /** Works the plan out again; the same cells give the same plan. @returns why there is none */
  static async of(
    plan: PlanInBook,
    dateSystem: DateSystem,
    caller: Caller,
    solve: Solve,
    planning: Planning,
  ): Promise<DrawnPlan | CellError> {
    const { signal } = new AbortController();
    const [block] = await Promise.all([
      solve(LOADPLAN, [...plan.given, [['plan']]], dateSystem, signal),
      caller.ready(['CHECKLOADS']),
    ]);
    const rows = plainValues(block!);
    const fault = rows[0]![0];
    if (isCellError(fault)) return fault;
    const { farm, start, days } = readPlan(plan.given, dateSystem);
    const problem = planning.problemOf(farm, start, days, dateSystem);
    const { planned, remarks } = loadsIn(rows);
    return new DrawnPlan(plan, dateSystem, planning, caller, problem, planned, remarks);
  }

  get dayWidth(): number {
    return DAY_WIDTH;
  }

  /** Loads that are not where the plan has them, the one that was moved last at the end. */
  get moved(): readonly number[] {
    return this.order.filter((at) => !isSame(this.loads[at]!, this.planned[at]!));
  }

  /** Takes a load to a day, kept inside those of the plan, and a room. The board is drawn anew by `draw`. */
  move(at: number, day: number, room: string): void {
    const { start, days } = this.problem;
    const within = Math.max(start, Math.min(start + days - 1, day));
    this.put(at, { ...this.loads[at]!, day: within, room });
  }

  put(at: number, load: PlannedLoad): void {
    this.loads = this.loads.map((one, n) => (n === at ? load : one));
    this.order = [...this.order.filter((one) => one !== at), at];
  }

  putAllBack(): void {
    this.loads = this.planned;
    this.order = [];
  }

  draw(): void {
    this.board = this.planning.drawnBoard(this.problem, this.loads);
    this.layout = this.laidOut({ dayWidth: DAY_WIDTH });
  }

  /** The board in other widths, or a part of it. */
  laidOut(look: Pick<Parameters<typeof layOut>[1], 'dayWidth' | 'from' | 'to' | 'rooms'>): Layout {
    const { dateSystem, today, moved } = this;
    return layOut(this.board, { dateSystem, today, moved: new Set(moved), ...look });
  }

  /** The check of loads in a table, as a formula. */
  checkOf(loads: string): string {
    const [lots, strains, rooms, orders, , , ...others] = this.plan.texts;
    const [calendar = '', standing = '', settings = ''] = others;
    const given = [loads, lots, strains, rooms, orders, calendar, standing, settings];
    return `=PINSET.CHECKLOADS(${given.join(', ').replace(/[, ]+$/, '')})`;
  }

  /** What the loads as they are break, beside the plan. */
  change(): Change {
    return changeOf(this.before, this.broken());
  }

  private broken(): Broken[] {
    const { loads, plan, caller, dateSystem } = this;
    if (loads.length === 0) return [];
    const table: Grid = [
      ['loaded', 'lot', 'room', 'blocks'],
      ...loads.map(({ day, lot, room, blocks }) => [day, lot, room, blocks]),
    ];
    const [lots, strains, rooms, orders, , , calendar, standing, settings] = plan.given;
    const given = [table, lots, strains, rooms, orders, calendar, standing, settings];
    return brokenIn(plainValues(caller.call('CHECKLOADS', given, { dateSystem })));
  }
}

export const isSame = (a: PlannedLoad, b: PlannedLoad): boolean => a.day === b.day && a.room === b.room;

/** The loads of LOADPLAN's first view, and the lines above them that say what is wrong. */
function loadsIn(rows: readonly (readonly Cell[])[]): { planned: PlannedLoad[]; remarks: string[] } {
  const [head, ...rest] = rows;
  const at = (header: string): number => head!.indexOf(header);
  const [loaded, lot, room, blocks] = [at('loaded'), at('lot'), at('room'), at('blocks')];
  return {
    planned: rest
      .filter((row) => typeof row[loaded] === 'number')
      .map((row) => ({
        day: row[loaded] as number,
        lot: textOf(row[lot]!),
        room: textOf(row[room]!),
        blocks: row[blocks] as number,
      })),
    remarks: rest.filter((row) => typeof row[loaded] !== 'number').map((row) => textOf(row.at(-1)!)),
  };
}
