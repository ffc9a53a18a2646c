import type { BuiltIn } from '../builtIn';
import { averages } from './averages';
import { conditions } from './conditions';
import { databases } from './databases';
import { dates } from './dates';
import { distributions } from './distributions';
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

/** Every built-in by its name in capitals. */
export const builtIns: ReadonlyMap<string, BuiltIn> = new Map(
  [
    ...averages,
    ...conditions,
    ...databases,
    ...dates,
    ...distributions,
    ...higherOrder,
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
  ].map((builtIn) => [builtIn.name, builtIn]),
);
