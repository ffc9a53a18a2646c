import type { GroupLoad, LoadSlot } from './groupLoad';
import { eachPick, type PlanView } from './planView';
import { outInTime } from './roomGroups';

/** Part of a block by which floating point may pass a picking limit. */
export const SLACK = 1e-7;

/** What a growing plan still leaves free: blocks of lots, loading, places and picking. */
export class FreeCapacity {
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

  /** Most blocks that may still go into a slot. */
  most({ lot, day, group }: LoadSlot): number {
    const { from, to, stay, kind } = this.view.lots[lot]!;
    const { watched, takes } = this.view.groups[group]!;
    if (day < from || day > to || !takes(this.view.kinds[kind]!.strain)) return 0;
    if (!outInTime(this.view.groups[group]!, day, stay)) return 0;
    let most = Math.min(this.left[lot]!, this.loading[day]!);
    const places = this.places[group]!;
    for (let k = day; k < Math.min(day + stay, watched); k++) most = Math.min(most, places[k]!);
    eachPick(this.view, { lot, day }, (on, mass) => {
      most = Math.min(most, this.picking[on]! / mass + SLACK);
    });
    return Math.max(0, Math.floor(most));
  }

  add({ lot, day, group, blocks }: GroupLoad): void {
    const { stay } = this.view.lots[lot]!;
    const { perShelf } = this.view.groups[group]!;
    this.left[lot]! -= blocks;
    this.loading[day]! -= blocks;
    const places = this.places[group]!;
    const taken = Math.ceil(blocks / perShelf) * perShelf;
    for (let k = day; k < Math.min(day + stay, places.length); k++) places[k]! -= taken;
    eachPick(this.view, { lot, day }, (on, mass) => {
      this.picking[on]! -= blocks * mass;
    });
  }
}
