// Made by `npm run docs` from the function files beside it.

import { catalogue } from './catalogue';
import { withWords, type DescribedFunction } from './words';
import { words as MATCHCOLUMNS } from './records/matchColumns.words';
import { words as MATCHLABELS } from './records/matchLabels.words';
import { words as TODATES } from './records/toDates.words';
import { words as TONUMBERS } from './records/toNumbers.words';
import { words as READYDATE } from './ripening/readyDate.words';
import { words as READYWINDOW } from './ripening/readyWindow.words';
import { words as INOCULATEBY } from './ripening/inoculateBy.words';
import { words as STAGE } from './ripening/stage.words';
import { words as GROWTHRATE } from './ripening/growthRate.words';
import { words as READYFROMLOG } from './ripening/readyFromLog.words';
import { words as READYSTATS } from './ripening/readyStats.words';
import { words as RIPECALENDAR } from './ripening/ripeCalendar.words';
import { words as READYLOTS } from './ripening/readyLots.words';
import { words as LOTCODE } from './lineage/lotCode.words';
import { words as LOTPART } from './lineage/lotPart.words';
import { words as DESCENDANTS } from './lineage/descendants.words';
import { words as ANCESTORS } from './lineage/ancestors.words';
import { words as SPAWNCHAIN } from './lineage/spawnChain.words';
import { words as MIX } from './substrate/mix.words';
import { words as MIXWATER } from './substrate/mixWater.words';
import { words as MIXMOISTURE } from './substrate/mixMoisture.words';
import { words as MIXRATIO } from './substrate/mixRatio.words';
import { words as MIXCOST } from './substrate/mixCost.words';
import { words as CHEAPESTMIX } from './substrate/cheapestMix.words';
import { words as BATCHES } from './substrate/batches.words';
import { words as LETHALITY } from './sterilising/lethality.words';
import { words as LETHALITYCURVE } from './sterilising/lethalityCurve.words';
import { words as HOLDMINUTES } from './sterilising/holdMinutes.words';
import { words as HEATINGFIT } from './sterilising/heatingFit.words';
import { words as STEAMTEMP } from './sterilising/steamTemp.words';
import { words as STEAMPRESSURE } from './sterilising/steamPressure.words';
import { words as BOILINGPOINT } from './sterilising/boilingPoint.words';
import { words as MINUTESABOVE } from './sterilising/minutesAbove.words';
import { words as DEWPOINT } from './climate/dewPoint.words';
import { words as WETBULB } from './climate/wetBulb.words';
import { words as HUMIDITYRATIO } from './climate/humidityRatio.words';
import { words as VPD } from './climate/vpd.words';
import { words as HUMIDITYFROMWETBULB } from './climate/humidityFromWetBulb.words';
import { words as CLIMATEPLAN } from './climate/climatePlan.words';
import { words as FRESHAIR } from './climate/freshAir.words';
import { words as CARBONDIOXIDE } from './climate/carbonDioxide.words';
import { words as FOGWATER } from './climate/fogWater.words';
import { words as BLOCKSFOR } from './loading/blocksFor.words';
import { words as PICKDATE } from './loading/pickDate.words';
import { words as SHELFBLOCKS } from './loading/shelfBlocks.words';
import { words as PICKCALENDAR } from './loading/pickCalendar.words';
import { words as SHELFUSE } from './loading/shelfUse.words';
import { words as SPLITLOAD } from './loading/splitLoad.words';
import { words as LOADPLAN } from './loading/loadPlan.words';
import { words as CHECKLOADS } from './loading/checkLoads.words';
import { words as BACKPLAN } from './loading/backPlan.words';
import { words as SEASON } from './loading/season.words';
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
});
