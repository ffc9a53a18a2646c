import { optionalSetting, setting } from '../cells/arguments';
import { formatted, type Formatted } from '../cells/cell';
import { count, mass, serial, text } from '../cells/kinds';
import { amount, date, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { pickStrains } from './arguments';

export const SPLITLOAD = defineFunction({
  name: 'SPLITLOAD',
  family: 'loading',
  arguments: [
    setting('blocks', count(), 'blocks to load'),
    setting('block yield', mass(), 'fresh mass one block gives over all flushes, losses taken off'),
    setting('daily limit', mass(), 'fresh mass that can be picked in a day, in the same unit'),
    setting('strain', text(), 'strain of the blocks, as in strains'),
    pickStrains,
    optionalSetting(
      'first day',
      serial(),
      undefined,
      'day of the first load; days are numbered from 0 if left out',
    ),
  ],
  result: tableResult({
    load: amount('its number'),
    loaded: date('or the days after the first load'),
    blocks: amount(),
    'first pick': date(),
    'last pick': date(),
  }),
  needs: ['planning'],
  whole: (blocks, blockYield, dailyLimit, strain, strains, firstDay, { tools: { planning } }) => {
    const curve = planning.curveOf(strain, strains, 'strain');
    const dated = (day: number): number | Formatted =>
      firstDay === undefined ? formatted(day, 'plain') : Math.floor(firstDay) + day;
    return planning.splitLoad(blocks, blockYield, dailyLimit, curve).map((load, n) => ({
      load: n + 1,
      loaded: dated(load.day),
      blocks: load.blocks,
      'first pick': dated(load.day + curve.firstPick),
      'last pick': dated(load.day + curve.stay - 1),
    }));
  },
});
