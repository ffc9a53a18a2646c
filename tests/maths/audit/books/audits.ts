import { USUAL_SETTINGS, yieldAudit } from '../../../../src/maths/audit/yieldAudit';
import type { Finding } from '../../../../src/maths/audit/yieldRecords';
import type { Book } from './farms';

/** The audit of a book as its header would name the unit. */
export const audited = ({ picks, lots, strains, unit }: Book): Finding[] =>
  yieldAudit(picks, lots, strains, { ...USUAL_SETTINGS, unit });
