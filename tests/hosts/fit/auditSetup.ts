import { bookWith, fitted, opened, type Held } from './laidOut';

// Two lots and their strain, for the audits of many books of picks.

export type Rows = readonly (readonly (Held | Date)[])[];
export const LOTS: Rows = [
  ['Lot', 'Strain', 'Blocks', 'Block kg', 'Moisture', 'Inoculated', 'Loaded'],
  ['L1', 'Blue larch', 40, 2.5, 0.6, '2026-03-02', '2026-03-26'],
  ['L2', 'Blue larch', 40, 2.5, 0.6, '2026-03-09', '2026-04-02'],
];
export const STRAINS: Rows = [
  ['Strain', 'Earliest', 'First pick', 'Pick days', 'Flushes', 'Days between', 'BE'],
  ['Blue larch', 18, 7, 4, 1, 12, 0.7],
];
export const auditOf = async (sheets: Readonly<Record<string, Rows>>, answers = {}) =>
  fitted(opened(await bookWith({ Strains: STRAINS, Lots: LOTS, ...sheets })), 'audit', answers);
export const picksIn = (fit: ReturnType<typeof fitted>, column: string) =>
  fit.tables.get('harvests')!.values.get(column);
