// Made by `npm run docs` from the function files beside it.

import type { WorksheetFunction } from './definition';
import { READYDATE } from './ripening/readyDate';
import { READYWINDOW } from './ripening/readyWindow';

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [READYDATE, READYWINDOW];
