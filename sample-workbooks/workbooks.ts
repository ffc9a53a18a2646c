import type { Workbook } from '../src/hosts/xlsx/describe';
import { farmBook } from './farm-book';
import { incubationBook } from './incubation-book';
import { loadingPlan } from './loading-plan';
import { workRooms } from './work-rooms';
import { yieldAudit } from './yield-audit';

/** Every sample workbook. */
export const workbooks: readonly Workbook[] = [farmBook, incubationBook, loadingPlan, workRooms, yieldAudit];
