// Made by `npm run docs` from the function files beside it.

import type { WorksheetFunction } from './definition';
import { MATCHCOLUMNS } from './records/matchColumns';
import { MATCHLABELS } from './records/matchLabels';
import { TODATES } from './records/toDates';
import { TONUMBERS } from './records/toNumbers';
import { READYDATE } from './ripening/readyDate';
import { READYWINDOW } from './ripening/readyWindow';
import { INOCULATEBY } from './ripening/inoculateBy';
import { STAGE } from './ripening/stage';
import { GROWTHRATE } from './ripening/growthRate';
import { READYFROMLOG } from './ripening/readyFromLog';
import { READYSTATS } from './ripening/readyStats';
import { RIPECALENDAR } from './ripening/ripeCalendar';
import { READYLOTS } from './ripening/readyLots';
import { LOTCODE } from './lineage/lotCode';
import { LOTPART } from './lineage/lotPart';
import { DESCENDANTS } from './lineage/descendants';
import { ANCESTORS } from './lineage/ancestors';
import { SPAWNCHAIN } from './lineage/spawnChain';
import { MIX } from './substrate/mix';
import { MIXWATER } from './substrate/mixWater';
import { MIXMOISTURE } from './substrate/mixMoisture';
import { MIXRATIO } from './substrate/mixRatio';
import { MIXCOST } from './substrate/mixCost';
import { CHEAPESTMIX } from './substrate/cheapestMix';
import { BATCHES } from './substrate/batches';
import { LETHALITY } from './sterilising/lethality';
import { LETHALITYCURVE } from './sterilising/lethalityCurve';
import { HOLDMINUTES } from './sterilising/holdMinutes';
import { HEATINGFIT } from './sterilising/heatingFit';
import { STEAMTEMP } from './sterilising/steamTemp';
import { STEAMPRESSURE } from './sterilising/steamPressure';
import { BOILINGPOINT } from './sterilising/boilingPoint';
import { MINUTESABOVE } from './sterilising/minutesAbove';
import { DEWPOINT } from './climate/dewPoint';
import { WETBULB } from './climate/wetBulb';
import { HUMIDITYRATIO } from './climate/humidityRatio';
import { VPD } from './climate/vpd';
import { HUMIDITYFROMWETBULB } from './climate/humidityFromWetBulb';
import { CLIMATEPLAN } from './climate/climatePlan';
import { FRESHAIR } from './climate/freshAir';
import { CARBONDIOXIDE } from './climate/carbonDioxide';
import { FOGWATER } from './climate/fogWater';
import { BLOCKSFOR } from './loading/blocksFor';
import { PICKDATE } from './loading/pickDate';
import { SHELFBLOCKS } from './loading/shelfBlocks';
import { PICKCALENDAR } from './loading/pickCalendar';
import { SHELFUSE } from './loading/shelfUse';
import { SPLITLOAD } from './loading/splitLoad';
import { LOADPLAN } from './loading/loadPlan';
import { CHECKLOADS } from './loading/checkLoads';
import { BACKPLAN } from './loading/backPlan';
import { SEASON } from './loading/season';
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
  MATCHCOLUMNS,
  MATCHLABELS,
  TODATES,
  TONUMBERS,
  READYDATE,
  READYWINDOW,
  INOCULATEBY,
  STAGE,
  GROWTHRATE,
  READYFROMLOG,
  READYSTATS,
  RIPECALENDAR,
  READYLOTS,
  LOTCODE,
  LOTPART,
  DESCENDANTS,
  ANCESTORS,
  SPAWNCHAIN,
  MIX,
  MIXWATER,
  MIXMOISTURE,
  MIXRATIO,
  MIXCOST,
  CHEAPESTMIX,
  BATCHES,
  LETHALITY,
  LETHALITYCURVE,
  HOLDMINUTES,
  HEATINGFIT,
  STEAMTEMP,
  STEAMPRESSURE,
  BOILINGPOINT,
  MINUTESABOVE,
  DEWPOINT,
  WETBULB,
  HUMIDITYRATIO,
  VPD,
  HUMIDITYFROMWETBULB,
  CLIMATEPLAN,
  FRESHAIR,
  CARBONDIOXIDE,
  FOGWATER,
  BLOCKSFOR,
  PICKDATE,
  SHELFBLOCKS,
  PICKCALENDAR,
  SHELFUSE,
  SPLITLOAD,
  LOADPLAN,
  CHECKLOADS,
  BACKPLAN,
  SEASON,
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
