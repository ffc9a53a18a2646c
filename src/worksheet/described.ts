// Made by `npm run docs` from the function files beside it.

import { catalogue } from './catalogue';
import { withWords, type DescribedFunction } from './words';
import { words as READYDATE } from './ripening/readyDate.words';
import { words as READYWINDOW } from './ripening/readyWindow.words';
import { words as BIOEFFICIENCY } from './harvest/bioEfficiency.words';
import { words as EXPECTEDYIELD } from './harvest/expectedYield.words';
import { words as YIELDRANGE } from './harvest/yieldRange.words';
import { words as SHELFDAYYIELD } from './harvest/shelfDayYield.words';
import { words as CROPTABLE } from './harvest/cropTable.words';
import { words as STRAINTABLE } from './harvest/strainTable.words';
import { words as FLUSHSPLIT } from './harvest/flushSplit.words';
import { words as SHELFLIFE } from './harvest/shelfLife.words';
import { words as OUTLIERS } from './audit/outliers.words';
import { words as CONTROLCHART } from './audit/controlChart.words';
import { words as LOSSRATE } from './audit/lossRate.words';
import { words as COMPARE } from './audit/compare.words';
import { words as YIELDAUDIT } from './audit/yieldAudit.words';
import { words as BLOCKCOST } from './cost/blockCost.words';
import { words as COSTPERMASS } from './cost/costPerMass.words';
import { words as BREAKEVEN } from './cost/breakEven.words';
import { words as SHELFDAYMARGIN } from './cost/shelfDayMargin.words';

/** The catalogue with its words: for the guide, the pane, the README and the tests, not for what Excel loads first. */
export const described: readonly DescribedFunction[] = withWords(catalogue, {
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
});
