// Made by `npm run docs` from the function files beside it.

import { catalogue } from './catalogue';
import { withWords, type DescribedFunction } from './words';
import { words as READYDATE } from './ripening/readyDate.words';
import { words as READYWINDOW } from './ripening/readyWindow.words';
import { words as INOCULATEBY } from './ripening/inoculateBy.words';
import { words as STAGE } from './ripening/stage.words';
import { words as GROWTHRATE } from './ripening/growthRate.words';
import { words as READYFROMLOG } from './ripening/readyFromLog.words';
import { words as READYSTATS } from './ripening/readyStats.words';
import { words as RIPECALENDAR } from './ripening/ripeCalendar.words';

/** The catalogue with its words: for the guide, the pane, the README and the tests, not for what Excel loads first. */
export const described: readonly DescribedFunction[] = withWords(catalogue, {
  READYDATE,
  READYWINDOW,
  INOCULATEBY,
  STAGE,
  GROWTHRATE,
  READYFROMLOG,
  READYSTATS,
  RIPECALENDAR,
});
