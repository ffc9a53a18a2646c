import type { PlanView } from './loadingProblem';

/** Blocks of a lot opened on a day and set in a group of rooms, whole. */
export interface GroupLoad {
  readonly lot: number;
  readonly day: number;
  readonly group: number;
  readonly blocks: number;
}

/** Part of a block by which floating point may pass a picking limit. */
export const SLACK = 1e-7;

/** What a growing plan still leaves free: blocks of lots, loading, places and picking. */
export class PlanRoom {
  readonly left: number[];
  private readonly loading: number[];
  private readonly places: number[][];
  private readonly picking: number[];

  constructor(private readonly view: PlanView) {
    this.left = view.lots.map(({ lot }) => lot.blocks);
    this.loading = [...view.loadLimit];
    this.places = view.groups.map(({ free }) => [...free]);
    this.picking = [...view.pickFree];
  }

  /** Most blocks of a lot that may still be opened on a day and set in a group. */
  most(lot: number, day: number, group: number): number {
    const { from, to, stay, picks, kind } = this.view.lots[lot]!;
    const { watched, takes } = this.view.groups[group]!;
    if (day < from || day > to || !takes(this.view.kinds[kind]!.strain)) return 0;
    let most = Math.min(this.left[lot]!, this.loading[day]!);
    const places = this.places[group]!;
    for (let k = day; k < Math.min(day + stay, watched); k++) most = Math.min(most, places[k]!);
    for (const [k, mass] of picks) {
      most = Math.min(most, this.picking[day + k]! / mass + SLACK);
    }
    return Math.max(0, Math.floor(most));
  }

  add({ lot, day, group, blocks }: GroupLoad): void {
    const { stay, picks } = this.view.lots[lot]!;
    const { unit } = this.view.groups[group]!;
    this.left[lot]! -= blocks;
    this.loading[day]! -= blocks;
    const places = this.places[group]!;
    const taken = Math.ceil(blocks / unit) * unit;
    for (let k = day; k < Math.min(day + stay, places.length); k++) places[k]! -= taken;
    for (const [k, mass] of picks) this.picking[day + k]! -= blocks * mass;
  }
}
