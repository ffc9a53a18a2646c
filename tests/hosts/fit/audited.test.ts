import { beforeAll, describe, expect, test } from '@jest/globals';
import { auditedFindings, type AuditedFinding } from '../../../src/hosts/fit/audited';
import { placeText } from '../../../src/hosts/fit/book';
import { bookOf } from '../../../src/hosts/fit/content';
import { fitJob } from '../../../src/hosts/fit/fit';
import { functionReader } from '../../../src/hosts/fit/functionReader';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { newCaller } from '../../../src/worksheet/call';
import { loadTools } from '../../../src/worksheet/tools';
import { auditBook } from './messyBooks';

// A book of eight lots with five slips, listed beside its place in messyBooks.

let found: AuditedFinding[];
beforeAll(async () => {
  const caller = newCaller();
  await caller.ready(['TODATES', 'TONUMBERS', 'MATCHLABELS']);
  const book = bookOf(readWorkbook(await auditBook()), []);
  const fit = fitJob(book, 'audit', {}, functionReader(caller, book.dateSystem));
  expect(fit.questions).toEqual([]);
  found = auditedFindings(fit, (await loadTools(['auditing'])).auditing!);
});

const at = (place: string): AuditedFinding =>
  found.find(({ cells: [first] }) => placeText(first!.sheet, first!.row, first!.column) === place)!;

describe('an audit of the grower’s own sheets', () => {
  test('finds each slip at its cell, and nothing in a mass that is only text', () => {
    expect(
      found.map(({ cells: [first] }) => placeText(first!.sheet, first!.row, first!.column)).sort(),
    ).toEqual(['Lots!E8', 'Picks!A32', 'Picks!B16', 'Picks!C9']);
  });

  test.each<[string, unknown, unknown]>([
    ['Picks!C9', 47, 4.7],
    ['Picks!B16', 'M-44', 'M-4'],
    // 12 March 2026 is day 46093, 3 December 2026 is day 46359.
    ['Picks!A32', 46359, 46093],
    ['Lots!E8', 0.38, 0.62],
  ])('would correct %s as it is written there', (place, before, after) => {
    expect(at(place).corrections).toEqual([expect.objectContaining({ before, after })]);
  });

  test('says in a sentence what speaks for a finding', () => {
    expect(at('Picks!C9').told.evidence).toMatch(
      /^The lot’s 2 other picks of flush 1 weigh 2\.2 kg to 2\.8 kg; about 3\.\d+ kg was to be expected\.$/,
    );
    expect(at('Lots!E8').told.evidence).toBe('The 3 other lots of Marsh-2 mostly have 62%.');
  });

  test('gives the picture of a lot as a sentence too', () => {
    expect(at('Picks!C9').told.picture!.sentence).toBe(
      '4 picks of lot M-3 from 2026-02-21 to 2026-03-06 after the load of 2026-02-15; marked: 47 kg on 2026-02-22.',
    );
  });
});
