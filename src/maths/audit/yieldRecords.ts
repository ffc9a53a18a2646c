/** A cell of the records as it was typed: a number, text where a number should be, or nothing (0 counts as nothing). */
export type Entry = number | string | undefined;

/** A row of the harvests table. */
export interface PickRecord {
  /** Row in the table given, its header being row 1. */
  readonly row: number;
  /** Empty where the cell is blank. */
  readonly lot: string;
  readonly date: Entry;
  readonly mass: Entry;
  readonly flush: Entry;
  /** Blocks picked from. */
  readonly blocks: Entry;
}

/** A row of the lots table. */
export interface LotRecord {
  readonly row: number;
  readonly lot: string;
  readonly strain: string;
  readonly blocks: Entry;
  readonly blockMass: Entry;
  readonly moisture: Entry;
  readonly inoculated: Entry;
  readonly loaded: Entry;
  /** Mass of the whole lot as the grower summed it. */
  readonly total: Entry;
}

/** A row of the strains table, days from load; undefined where the table does not say. */
export interface StrainFacts {
  /** Days from inoculation to ready at the earliest. */
  readonly earliest: number | undefined;
  readonly firstPick: number | undefined;
  readonly pickDays: number | undefined;
  readonly flushGap: number | undefined;
  readonly flushes: number;
  readonly efficiency: number | undefined;
}

/** How sure a finding is. */
export type Severity = 'cannot be' | 'unlikely' | 'look again';

/** The rules, by the short code that findings carry. Codes are never renamed. */
export const RULES = {
  'lot-missing': { severity: 'cannot be', says: 'a pick without a lot' },
  'lot-unknown': { severity: 'cannot be', says: 'the lot is not in lots' },
  'lot-twice': { severity: 'cannot be', says: 'the lot stands twice in lots' },
  'lot-not-loaded': { severity: 'cannot be', says: 'picked from a lot without a load date' },
  'lot-not-picked': { severity: 'look again', says: 'loaded long ago, and never picked' },
  'figure-text': { severity: 'cannot be', says: 'text or an error where a number should be' },
  'figure-bad': { severity: 'cannot be', says: 'no number that can be' },
  'mass-missing': { severity: 'cannot be', says: 'no mass, or 0' },
  'mass-negative': { severity: 'cannot be', says: 'a mass below 0' },
  'mass-unit': { severity: 'unlikely', says: 'off by a change of unit' },
  'mass-decimal': { severity: 'unlikely', says: 'off by a slipped decimal' },
  'mass-outlying': { severity: 'look again', says: 'far from what the lot’s other picks suggest' },
  'date-missing': { severity: 'cannot be', says: 'no date' },
  'date-before-load': { severity: 'cannot be', says: 'picked on or before the day of load' },
  'date-early': { severity: 'unlikely', says: 'picked long before the strain’s first pick' },
  'date-late': { severity: 'unlikely', says: 'picked long after the strain’s last flush' },
  'load-before-inoculation': { severity: 'cannot be', says: 'loaded before it was inoculated' },
  'load-unripe': { severity: 'unlikely', says: 'loaded long before the strain is ready' },
  'flush-bad': { severity: 'cannot be', says: 'no flush number from 1 to 20' },
  'flush-order': { severity: 'cannot be', says: 'a later flush dated before an earlier one' },
  'flush-rising': { severity: 'look again', says: 'the second flush is far above the first' },
  'pick-twice': { severity: 'unlikely', says: 'the same lot, day and mass as another row' },
  'blocks-over': { severity: 'cannot be', says: 'more blocks picked than loaded' },
  'efficiency-out': { severity: 'unlikely', says: 'efficiency of the lot outside the plausible range' },
  'total-differs': { severity: 'cannot be', says: 'the lot’s total is not the sum of its rows' },
} as const satisfies Record<string, { severity: Severity; says: string }>;
export type RuleCode = keyof typeof RULES;

/** What a finding's figures are. */
export type Measure = 'plain' | 'date' | 'percent';

/** One thing that is wrong, or looks it. */
export interface Finding {
  readonly table: 'harvests' | 'lots';
  readonly row: number;
  readonly lot: string;
  readonly code: RuleCode;
  readonly measure: Measure;
  /** What stands there. */
  readonly value: number | string;
  /** What was expected: a figure or words; empty where nothing can be said. */
  readonly expected: number | string;
  /** What it would be if the suspected slip were mended; empty where no slip is suspected. */
  readonly corrected: number | string;
  /** The suspected slip in words. */
  readonly slip: string;
}
