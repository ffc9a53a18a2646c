import type { DateOrder } from '../../worksheet/writtenDates';
import type { Candidate } from './candidate';
import { readings } from './reading';
import type { DecimalMark } from './units';

/** What text dates and figures prove somewhere in the book, where no others contradict it. */
export interface ProvenElsewhere {
  readonly order: DateOrder | undefined;
  readonly mark: DecimalMark | undefined;
}

export function provenAnywhere(found: readonly Candidate[]): ProvenElsewhere {
  const all = found.flatMap(readings);
  const only = <T>(proven: readonly T[]): T | undefined =>
    new Set(proven).size === 1 ? proven[0] : undefined;
  return {
    order: only(all.flatMap(({ proven }) => proven?.order ?? [])),
    mark: only(all.flatMap(({ decimalMark }) => decimalMark ?? [])),
  };
}
