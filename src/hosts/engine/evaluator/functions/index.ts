import type { BuiltIn } from '../builtIn';
import { averages } from './averages';
import { conditions } from './conditions';
import { dates } from './dates';
import { higherOrder } from './higherOrder';
import { information } from './information';
import { logical } from './logical';
import { lookups } from './lookups';
import { mathematics } from './mathematics';
import { references } from './references';
import { rounding } from './rounding';
import { subtotals } from './subtotals';
import { textNumbers } from './textNumbers';
import { textParts } from './textParts';
import { texts } from './texts';
import { wholeNumbers } from './wholeNumbers';
import { databases } from './databases';
import { distributions } from './distributions';
import { money } from './money';
import { regression } from './regression';
import { shaping } from './shaping';
import { sorting } from './sorting';
import { units } from './units';
import { workdays } from './workdays';

/** Every built-in by its name in capitals. */
export const builtIns: ReadonlyMap<string, BuiltIn> = new Map(
  [
    ...averages,
    ...conditions,
    ...dates,
    ...higherOrder,
    ...information,
    ...logical,
    ...lookups,
    ...mathematics,
    ...references,
    ...rounding,
    ...subtotals,
    ...textNumbers,
    ...textParts,
    ...texts,
    ...wholeNumbers,
    ...databases,
    ...distributions,
    ...money,
    ...regression,
    ...shaping,
    ...sorting,
    ...units,
    ...workdays,
  ].map((builtIn) => [builtIn.name, builtIn]),
);
