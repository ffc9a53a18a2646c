// Made by `npm run docs` from the function files beside it.

import type { WorksheetFunction } from './definition';
import { READYDATE } from './ripening/readyDate';
import { READYWINDOW } from './ripening/readyWindow';
import { INOCULATEBY } from './ripening/inoculateBy';
import { STAGE } from './ripening/stage';
import { GROWTHRATE } from './ripening/growthRate';
import { READYFROMLOG } from './ripening/readyFromLog';
import { READYSTATS } from './ripening/readyStats';
import { RIPECALENDAR } from './ripening/ripeCalendar';

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [
  READYDATE,
  READYWINDOW,
  INOCULATEBY,
  STAGE,
  GROWTHRATE,
  READYFROMLOG,
  READYSTATS,
  RIPECALENDAR,
];
