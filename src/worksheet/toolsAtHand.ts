import * as statistics from './audit/statistics';
import * as planning from './loading/planning';
import * as converting from './records/converting';
import * as ripening from './ripening/ripening';

/** The tools that need no loading, for pages that the build writes: no page that Excel opens may import this. */
export const toolsAtHand = { planning, statistics, converting, ripening };
