import type { DayLimits, LoadingProblem, PlannedLoad } from '../../maths/loading/loadingProblem';
import { picksByDay } from '../../maths/loading/pickCalendar';
import type { RoomDays } from '../../maths/loading/roomDays';
import { labelKey } from '../../maths/shared/labels';
import { roomsWith } from './boardRows';
import { lotsByLabel } from './solvedPlan';

/** A load as a picture of the plan shows it. Days are serials. */
export interface BoardLoad {
  /** Empty for blocks on the shelves whose lot is not named. */
  readonly lot: string;
  readonly strain: string;
  readonly room: string;
  readonly blocks: number;
  readonly loaded: number;
  /** Day of the last pick. */
  readonly last: number;
  /** First and last day of each flush. */
  readonly flushes: readonly { readonly from: number; readonly to: number }[];
  /** Its place in the plan; undefined for what is on the shelves already. */
  readonly planned: number | undefined;
}

/** What a picture of a plan shows, day by day from the start until the last block is done. */
export interface DrawnBoard {
  readonly start: number;
  /** Days on which the plan loads. */
  readonly days: number;
  readonly rooms: readonly RoomDays[];
  readonly loads: readonly BoardLoad[];
  readonly limits: readonly DayLimits[];
  /** Fresh mass picked on each day, in all and of each strain. */
  readonly picked: readonly number[];
  readonly picks: ReadonlyMap<string, readonly number[]>;
}

/** The picture of a problem's standing loads and these planned ones, which need not be what a plan would choose. */
export function drawnBoard(problem: LoadingProblem, planned: readonly PlannedLoad[]): DrawnBoard {
  const { start, days, standing } = problem;
  const byLot = lotsByLabel(problem);
  const all = [
    ...standing.map((load) => ({ ...load, lot: '', planned: undefined })),
    ...planned.map(({ lot, room, day, blocks }, at) => ({
      ...byLot.get(labelKey(lot))!,
      room,
      loaded: day,
      blocks,
      planned: at,
    })),
  ];
  const shown = all.reduce(
    (most, { loaded, curve }) => Math.max(most, Math.floor(loaded) - start + curve.stay),
    days,
  );
  const { total, byGroup } = picksByDay(all, ({ strain }) => strain, start, shown);
  return {
    start,
    days,
    rooms: roomsWith(problem, planned, start, shown),
    loads: all.flatMap((load): BoardLoad[] => {
      const { lot, strain, room, blocks, curve } = load;
      const loaded = Math.floor(load.loaded);
      const last = loaded + curve.stay - 1;
      if (last < start) return [];
      const flushes = curve.flushes.map((flush) => ({
        from: loaded + flush.start,
        to: loaded + flush.start + flush.days - 1,
      }));
      return [{ lot, strain, room, blocks, loaded, last, flushes, planned: load.planned }];
    }),
    limits: Array.from({ length: shown }, (_, day) => problem.limitsOn(start + day)),
    picked: total,
    picks: byGroup,
  };
}
