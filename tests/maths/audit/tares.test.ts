import { describe, expect, test } from '@jest/globals';
import { audited } from './books/audits';
import { shelfFarm } from './books/farms';
import type { Finding, PickRecord } from '../../../src/maths/audit/yieldRecords';

// Masses that were weighed in a crate of 1.2 kg, which was taken off: the hand slips in what is typed.
const TARE = 1.2;
const book = shelfFarm(0.25, 5);
const at = book.picks.findIndex(({ mass }) => typeof mass === 'number' && mass > 4 && mass < 5);
const net = book.picks[at]!.mass as number;

const found = (mass: number, tare = TARE): Finding | undefined => {
  const picks = book.picks.map((pick, i): PickRecord => (i === at ? { ...pick, mass, tare } : pick));
  return audited({ ...book, picks }).find(
    ({ table, row }) => table === 'harvests' && row === book.picks[at]!.row,
  );
};
const gross = Number((net + TARE).toPrecision(12));

describe('yieldAudit of a mass that its tare was taken off', () => {
  test('undoes a decimal in the mass with its tare, and says so', () => {
    const typed = Number((10 * gross - TARE).toPrecision(12));
    expect(found(typed)).toMatchObject({ cause: 'mass', slip: 'decimal right', tare: TARE });
    expect(found(typed)!.corrected).toBeCloseTo(net, 9);
    // Without the tare it would be a tenth of what is left.
    expect(found(typed, 0)!.corrected).toBeCloseTo(typed / 10, 9);
  });

  test('finds no minus sign too many in a mass that is lighter than its tare', () => {
    expect(found(gross / 10 - TARE)).toMatchObject({
      cause: 'mass negative',
      corrected: undefined,
      slip: undefined,
    });
  });

  test('leaves an honest one alone', () => {
    expect(found(net)).toBeUndefined();
  });
});
