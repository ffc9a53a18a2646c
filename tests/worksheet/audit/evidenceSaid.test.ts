import { expect, test } from '@jest/globals';
import { Evidence } from '../../../src/worksheet/audit/evidenceSaid';
import type { Finding, LotRecord } from '../../../src/maths/audit/yieldRecords';

const LOADED = 46_000;
const lotOf = (inoculated: number | undefined, loaded: number | undefined): LotRecord => ({
  row: 2,
  lot: 'A-101',
  strain: 'Alder-3',
  blocks: 30,
  blockMass: 2.5,
  moisture: 0.6,
  inoculated,
  loaded,
  total: undefined,
});
const finding = (cause: 'inoculated' | 'unripe', expected: number | undefined): Finding => ({
  table: 'lots',
  row: 2,
  rows: [2],
  lot: 'A-101',
  cause,
  column: cause === 'unripe' ? 'loaded' : 'inoculated',
  value: LOADED,
  expected,
  corrected: undefined,
  slip: undefined,
  sure: 0.9,
  wrong: 0.9,
});

test.each<[string, LotRecord, Finding, string]>([
  [
    'a load too soon: the earliest load is expected',
    lotOf(LOADED - 10, LOADED),
    finding('unripe', LOADED + 11),
    'The lot ran 10 days before it was loaded; the strain usually takes 21 days.',
  ],
  [
    'a run too long: another day of inoculation is expected',
    lotOf(LOADED - 90, LOADED),
    finding('inoculated', LOADED - 25),
    'The lot ran 90 days before it was loaded; the strain usually takes 25 days.',
  ],
  [
    'loaded before it was inoculated, and nothing usual known',
    lotOf(LOADED + 3, LOADED),
    finding('inoculated', undefined),
    'The lot was loaded 3 days before it was inoculated.',
  ],
  ['no day of load', lotOf(LOADED - 10, undefined), finding('unripe', LOADED), ''],
  ['no day of inoculation', lotOf(undefined, LOADED), finding('inoculated', LOADED), ''],
])('evidence on the time from inoculation to loading: %s', (_what, lot, of, said) => {
  expect(new Evidence([], [lot], 'kg', 1900).of(of)).toBe(said);
});
