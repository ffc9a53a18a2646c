// Made by `npm run docs` from the function files beside it.

import type { WorksheetFunction } from './definition';
import { READYDATE } from './ripening/readyDate';
import { READYWINDOW } from './ripening/readyWindow';
import { BACKPLAN } from './loading/backPlan';
import { BLOCKSFOR } from './loading/blocksFor';
import { CHECKLOADS } from './loading/checkLoads';
import { LOADPLAN } from './loading/loadPlan';
import { PICKCALENDAR } from './loading/pickCalendar';
import { PICKDATE } from './loading/pickDate';
import { SHELFBLOCKS } from './loading/shelfBlocks';
import { SHELFUSE } from './loading/shelfUse';
import { SPLITLOAD } from './loading/splitLoad';

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [
  READYDATE,
  READYWINDOW,
  BACKPLAN,
  BLOCKSFOR,
  CHECKLOADS,
  LOADPLAN,
  PICKCALENDAR,
  PICKDATE,
  SHELFBLOCKS,
  SHELFUSE,
  SPLITLOAD,
];
