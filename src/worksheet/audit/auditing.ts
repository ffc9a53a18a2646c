import { unitOfBlocks } from '../../maths/audit/bookUnit';
import { yieldAudit, type AuditSettings, USUAL_SETTINGS } from '../../maths/audit/yieldAudit';
import type { LotRecord, PickRecord } from '../../maths/audit/yieldRecords';
import { correctedHarvests, correctedLots, evidenceRows, findingRow, nothingFound } from './auditRows';
import type { AUDIT_VIEWS, auditResult } from './auditViews';

// YIELDAUDIT's own code, which no other function needs: loaded once a sheet asks for an audit.

export { toldFindings } from './toldFindings';
export type * from './toldFindings';

type Facts = Parameters<typeof yieldAudit>[2];

/** One view of the audit that a call asks for. A setting that is left out is the usual one. */
export function auditView(
  picks: readonly PickRecord[],
  lots: readonly LotRecord[],
  facts: Facts,
  settings: Omit<AuditSettings, 'sureness'> & { readonly sureness: number | undefined },
  view: keyof typeof AUDIT_VIEWS,
): NonNullable<(typeof auditResult)['type']> {
  const { unit = unitOfBlocks(lots), dateSystem, sureness = USUAL_SETTINGS.sureness } = settings;
  const findings = yieldAudit(picks, lots, facts, { ...settings, unit, sureness });
  if (view === 'harvests') return { view, rows: correctedHarvests(picks, findings, unit, dateSystem) };
  if (view === 'lots') return { view, rows: correctedLots(lots, findings, unit, dateSystem) };
  if (view === 'evidence') return { view, rows: evidenceRows(findings, picks, lots, unit, dateSystem) };
  const rows = findings.map((finding) => findingRow(finding, unit, dateSystem));
  return { view, rows: rows.length ? rows : [nothingFound(picks.length, lots.length)] };
}
