// Made by `npm run docs` from the function files beside it.

import type { WorksheetFunction } from './definition';
import { READYDATE } from './ripening/readyDate';
import { READYWINDOW } from './ripening/readyWindow';
import { BIOEFFICIENCY } from './harvest/bioEfficiency';
import { CROPTABLE } from './harvest/cropTable';
import { EXPECTEDYIELD } from './harvest/expectedYield';
import { FLUSHSPLIT } from './harvest/flushSplit';
import { SHELFDAYYIELD } from './harvest/shelfDayYield';
import { SHELFLIFE } from './harvest/shelfLife';
import { STRAINTABLE } from './harvest/strainTable';
import { YIELDRANGE } from './harvest/yieldRange';
import { BLOCKCOST } from './cost/blockCost';
import { BREAKEVEN } from './cost/breakEven';
import { COSTPERMASS } from './cost/costPerMass';
import { SHELFDAYMARGIN } from './cost/shelfDayMargin';

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [
  READYDATE,
  READYWINDOW,
  BIOEFFICIENCY,
  CROPTABLE,
  EXPECTEDYIELD,
  FLUSHSPLIT,
  SHELFDAYYIELD,
  SHELFLIFE,
  STRAINTABLE,
  YIELDRANGE,
  BLOCKCOST,
  BREAKEVEN,
  COSTPERMASS,
  SHELFDAYMARGIN,
];
