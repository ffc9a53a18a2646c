import type { Workbook } from './describe';
import { farmBook } from './farm-book';

/** Every sample workbook. */
export const workbooks: readonly Workbook[] = [farmBook];
