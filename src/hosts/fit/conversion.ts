/** Which figure of a range counts. */
export type OfRange = 'from' | 'to' | 'middle';

/** What has to be done to a column of the grower's before a calculation can read it. */
export type Conversion =
  | 'none'
  | 'dates'
  | 'day figures'
  | 'figures'
  | 'headings'
  | 'day headings'
  | 'beginnings'
  | 'sheets'
  | 'said'
  | 'weekdays';

/** Whether a column is read from other cells than its own. */
export const isFromElsewhere = (conversion: Conversion): boolean =>
  ['headings', 'day headings', 'beginnings', 'sheets', 'said'].includes(conversion);
