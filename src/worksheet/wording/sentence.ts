import type { FaultCode, FaultDetails, Figure, Given, Limits } from '../../maths/shared/fault';

/** What a sentence is made with: everything shown in the dates and units of the call. */
export interface Say {
  /** What the fault concerns: `moisture`, `best in strains`. */
  readonly subject: string;
  readonly argument: string;
  /** What a sentence calls another argument, or a column of one. */
  readonly named: (argument: string) => string;
  readonly figure: (figure: Figure) => string;
  readonly given: (given: Given) => string;
  /** After "must be": `above 0`, `from 1 to 9`. */
  readonly limits: (limits: Limits) => string;
  readonly quoted: (label: string) => string;
  readonly percent: (share: number) => string;
  readonly listed: (words: readonly string[]) => string;
  /** The letter of the degrees asked in. */
  readonly degrees: 'C' | 'F';
}

export type Sentence<C extends FaultCode> = (details: FaultDetails[C], say: Say) => string;
/** A sentence for each of some codes. */
export type Sentences<C extends FaultCode> = { readonly [K in C]: Sentence<K> };
