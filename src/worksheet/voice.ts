import type { DateSystem } from './calendar';

/** The units that a call asks in and its messages speak in. */
export interface Voice {
  readonly degrees: 'C' | 'F';
  readonly pressure: 'bar' | 'kPa' | 'psi';
  readonly length: 'm' | 'ft';
}

export const METRIC: Voice = { degrees: 'C', pressure: 'bar', length: 'm' };

/** What a call's messages are told in. */
export interface Telling {
  readonly dateSystem: DateSystem;
  readonly voice: Voice;
}
