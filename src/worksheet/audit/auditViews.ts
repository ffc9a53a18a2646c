import { amount, date, label, mixed, percent, sometimes, views } from '../cells/results';

/** What an audit can be asked for. The first is what YIELDAUDIT gives if nothing is said. */
export const AUDIT_VIEWS = {
  findings: 'what is wrong, a line each',
  evidence: 'the same lines, each with a sentence of what speaks for it',
  harvests: 'your harvests with the findings corrected, each marked',
  lots: 'your lots with the findings corrected, each marked',
};

const marks = {
  corrected: label('what was changed, and why'),
  'how sure': percent('of what was changed'),
};

export const auditViews = {
  findings: {
    table: label('table that the row is in'),
    row: amount('row of the table, its header row being row 1'),
    lot: label(),
    'what is wrong': label(),
    value: mixed('what the cell holds'),
    expected: mixed('what was expected'),
    'if corrected': mixed('what it would be without the suspected slip'),
    'suspected slip': label(),
    'how sure': label(),
    sureness: percent('the share of all explanations that the suspected slip has'),
  },
  evidence: {
    table: label('table that the row is in'),
    row: amount('row of the table, its header row being row 1'),
    lot: label(),
    'what is wrong': label(),
    evidence: label('what speaks for it, from your own figures'),
    'how sure': label(),
  },
  harvests: {
    lot: label(),
    date: date(),
    mass: mixed(),
    flush: sometimes(mixed()),
    blocks: sometimes(mixed()),
    picker: sometimes(label()),
    scale: sometimes(label()),
    grade: sometimes(label()),
    crate: sometimes(label()),
    ...marks,
  },
  lots: {
    lot: label(),
    strain: label(),
    blocks: sometimes(mixed()),
    'block mass': sometimes(mixed()),
    moisture: sometimes(mixed()),
    inoculated: sometimes(date()),
    loaded: sometimes(mixed('the day it was loaded, or the number of blocks')),
    total: sometimes(mixed()),
    ...marks,
  },
};

export const auditResult = views(auditViews);
