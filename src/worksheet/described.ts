// Made by `npm run docs` from the function files beside it.

import { catalogue } from './catalogue';
import { withWords, type DescribedFunction } from './words';
import { words as READYDATE } from './ripening/readyDate.words';
import { words as READYWINDOW } from './ripening/readyWindow.words';
import { words as BACKPLAN } from './loading/backPlan.words';
import { words as BLOCKSFOR } from './loading/blocksFor.words';
import { words as CHECKLOADS } from './loading/checkLoads.words';
import { words as LOADPLAN } from './loading/loadPlan.words';
import { words as PICKCALENDAR } from './loading/pickCalendar.words';
import { words as PICKDATE } from './loading/pickDate.words';
import { words as SHELFBLOCKS } from './loading/shelfBlocks.words';
import { words as SHELFUSE } from './loading/shelfUse.words';
import { words as SPLITLOAD } from './loading/splitLoad.words';

/** The catalogue with its words: for the guide, the pane, the README and the tests, not for what Excel loads first. */
export const described: readonly DescribedFunction[] = withWords(catalogue, {
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
});
