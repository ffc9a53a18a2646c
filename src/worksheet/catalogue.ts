import type { WorksheetFunction } from './define';
import { harvest } from './harvest';

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [...harvest];
