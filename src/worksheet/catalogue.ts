import { audit } from './audit';
import { climate } from './climate';
import { cost } from './cost';
import type { WorksheetFunction } from './define';
import { harvest } from './harvest';
import { lineage } from './lineage';
import { loading } from './loading';
import { ripening } from './ripening';
import { sterilising } from './sterilising';
import { substrate } from './substrate';

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [
  ...ripening,
  ...lineage,
  ...substrate,
  ...sterilising,
  ...climate,
  ...loading,
  ...harvest,
  ...audit,
  ...cost,
];
