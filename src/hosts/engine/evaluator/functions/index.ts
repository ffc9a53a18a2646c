import type { BuiltIn } from '../builtIn';
import { VALUE } from '../values';
import { averages } from './averages';
import { conditions } from './conditions';
import { databases } from './databases';
import { dates } from './dates';
import { distributions } from './distributions';
import { hypotheses } from './hypotheses';
import { higherOrder } from './higherOrder';
import { information } from './information';
import { logical } from './logical';
import { lookups } from './lookups';
import { mathematics } from './mathematics';
import { money } from './money';
import { references } from './references';
import { regression } from './regression';
import { rounding } from './rounding';
import { shaping } from './shaping';
import { sorting } from './sorting';
import { subtotals } from './subtotals';
import { textNumbers } from './textNumbers';
import { textParts } from './textParts';
import { texts } from './texts';
import { units } from './units';
import { wholeNumbers } from './wholeNumbers';
import { workdays } from './workdays';

/** Functions that take no TRUE and FALSE for numbers: they came from an add-in of their own. */
const REFUSE_TRUTHS: ReadonlySet<string> = new Set(
  [
    'BIN2DEC BIN2HEX BIN2OCT DEC2BIN DEC2HEX DEC2OCT HEX2BIN HEX2DEC HEX2OCT OCT2BIN OCT2DEC OCT2HEX',
    'CONVERT CUMIPMT CUMPRINC DELTA DOLLARDE DOLLARFR EDATE EFFECT EOMONTH ERF ERF.PRECISE ERFC ERFC.PRECISE',
    'FACTDOUBLE GESTEP ISEVEN ISODD MROUND MULTINOMIAL NETWORKDAYS NOMINAL QUOTIENT RANDBETWEEN SERIESSUM SQRTPI',
    'WEEKNUM WORKDAY XIRR XNPV YEARFRAC',
  ].flatMap((names) => names.split(' ')),
);

const refusingTruths = (builtIn: BuiltIn): BuiltIn => ({
  ...builtIn,
  call: (context, given) =>
    given.some((one) => typeof one === 'boolean') ? VALUE : builtIn.call(context, given),
});

/** Every built-in by its name in capitals. */
export const builtIns: ReadonlyMap<string, BuiltIn> = new Map(
  [
    ...averages,
    ...conditions,
    ...databases,
    ...dates,
    ...distributions,
    ...higherOrder,
    ...hypotheses,
    ...information,
    ...logical,
    ...lookups,
    ...mathematics,
    ...money,
    ...references,
    ...regression,
    ...rounding,
    ...shaping,
    ...sorting,
    ...subtotals,
    ...textNumbers,
    ...textParts,
    ...texts,
    ...units,
    ...wholeNumbers,
    ...workdays,
  ].map((builtIn) => [builtIn.name, REFUSE_TRUTHS.has(builtIn.name) ? refusingTruths(builtIn) : builtIn]),
);
