import { requirePositive, requireWithin } from '../shared/checks';
import type { DateSystem } from '../shared/serial';
import { judgeGroups } from './groupFactors';
import { knownBook } from './knownBook';
import { judgeLoads } from './loadDates';
import { judgeLotColumns } from './lotColumns';
import { judgeMasses } from './massExplanations';
import { massModel } from './massModel';
import { massSlipsOf, TypedDigits } from './massSlips';
import { judgeMissingFlushes } from './missingFlushes';
import { PickDates } from './pickDates';
import { findFlushes, PickTimes } from './pickTimes';
import { judgeCopies } from './typedTwice';
import { judgeWholeLots, tellNotJudged, type EfficiencyLimits } from './wholeLots';
import type { Finding, LotRecord, MassUnit, PickRecord, StrainFacts } from './yieldRecords';

/** What an audit goes by. */
export interface AuditSettings extends EfficiencyLimits {
  /** A finding is told from this share on, and so is what it would be corrected to: the one may be surer than the other. */
  readonly sureness: number;
  /** The unit of the masses; undefined where nothing says it. */
  readonly unit: MassUnit | undefined;
  readonly dateSystem: DateSystem;
}

export const USUAL_SETTINGS: AuditSettings = {
  sureness: 0.5,
  unit: undefined,
  lowestEfficiency: undefined,
  highestEfficiency: undefined,
  dateSystem: 1900,
};

/**
 * What is wrong in a book of picks and lots, by likelihood over explanations: for every figure it is asked what makes it
 * likeliest, that it is right or one of a short list of slips (Bayes). Nothing is changed.
 *
 * Dates are judged by the lot's other picks and the strain's usual days; masses on the logarithmic scale by the lot's
 * other picks, the strain's other lots and the day within the flush; masses of a picker, a scale or a stretch of days
 * also together; the lots' own columns by other lots and by what the lot yielded. All spreads are the book's own. What is
 * found is corrected for the sake of what is judged after it, so that one cause is told once.
 *
 * @param strains by the key of their label
 * @returns findings, the most surely wrong first, then by table and row
 * @throws invalid where a setting is out of range
 */
export function yieldAudit(
  picks: readonly PickRecord[],
  lots: readonly LotRecord[],
  strains: ReadonlyMap<string, StrainFacts>,
  settings: AuditSettings = USUAL_SETTINGS,
): Finding[] {
  requireWithin('settings, sureness', settings.sureness, 0.01, 1);
  if (settings.lowestEfficiency !== undefined) {
    requirePositive('settings, lowest efficiency', settings.lowestEfficiency);
  }
  if (settings.highestEfficiency !== undefined) {
    requirePositive('settings, highest efficiency', settings.highestEfficiency);
  }
  const book = knownBook(picks, lots, strains);
  judgeCopies(book);
  for (const lot of book.lots.values()) findFlushes(lot, false);
  const times = new PickTimes(book);
  judgeLoads(book, times, settings.dateSystem);
  const slips = massSlipsOf(settings.unit);
  new PickDates(book, times, settings.dateSystem, slips).run();
  judgeMissingFlushes(book, times);
  const known = massModel(book);
  judgeLotColumns(book, known, settings.unit);
  const model = judgeGroups(book, known, slips);
  judgeMasses(book, model, slips, new TypedDigits(model.judged.map(({ pick }) => pick.mass! + pick.tare)));
  judgeWholeLots(book, model, slips, settings);
  tellNotJudged(book);
  const rank = ({ wrong, table }: Finding): number => (1 - wrong) * 4 + (table === 'harvests' ? 0 : 1e-9);
  return book.findings
    .filter(({ wrong }) => wrong >= settings.sureness)
    .map((finding) => (finding.sure >= settings.sureness ? finding : uncorrected(finding)))
    .sort((a, b) => rank(a) - rank(b) || a.row - b.row);
}

/** A finding of which it is not sure enough what was meant: nothing is offered, and what was likeliest is one of what it may be. */
function uncorrected(finding: Finding): Finding {
  const { cause, slip, corrected, sure, rivals = [] } = finding;
  if (slip === undefined || corrected === undefined || !(cause === 'mass' || rivals.length > 0))
    return { ...finding, corrected: undefined };
  return { ...finding, corrected: undefined, rivals: [{ slip, corrected, sure }, ...rivals] };
}
