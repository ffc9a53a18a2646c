// Made by `npm run docs` from the function files beside it.

import type { WorksheetFunction } from './definition';
import { READYDATE } from './ripening/readyDate';
import { READYWINDOW } from './ripening/readyWindow';
import { BIOEFFICIENCY } from './harvest/bioEfficiency';
import { EXPECTEDYIELD } from './harvest/expectedYield';
import { YIELDRANGE } from './harvest/yieldRange';
import { SHELFDAYYIELD } from './harvest/shelfDayYield';
import { CROPTABLE } from './harvest/cropTable';
import { STRAINTABLE } from './harvest/strainTable';
import { FLUSHSPLIT } from './harvest/flushSplit';
import { SHELFLIFE } from './harvest/shelfLife';
import { OUTLIERS } from './audit/outliers';
import { CONTROLCHART } from './audit/controlChart';
import { LOSSRATE } from './audit/lossRate';
import { COMPARE } from './audit/compare';
import { YIELDAUDIT } from './audit/yieldAudit';
import { BLOCKCOST } from './cost/blockCost';
import { COSTPERMASS } from './cost/costPerMass';
import { BREAKEVEN } from './cost/breakEven';
import { SHELFDAYMARGIN } from './cost/shelfDayMargin';

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [
  READYDATE,
  READYWINDOW,
  BIOEFFICIENCY,
  EXPECTEDYIELD,
  YIELDRANGE,
  SHELFDAYYIELD,
  CROPTABLE,
  STRAINTABLE,
  FLUSHSPLIT,
  SHELFLIFE,
  OUTLIERS,
  CONTROLCHART,
  LOSSRATE,
  COMPARE,
  YIELDAUDIT,
  BLOCKCOST,
  COSTPERMASS,
  BREAKEVEN,
  SHELFDAYMARGIN,
];
