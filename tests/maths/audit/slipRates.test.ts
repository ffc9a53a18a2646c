import { describe, expect, test } from '@jest/globals';
import { JudgedPick } from '../../../src/maths/audit/judgedPick';
import { KnownPick } from '../../../src/maths/audit/knownBook';
import { massSlipsOf, type MassSlip } from '../../../src/maths/audit/massSlips';
import { learntRates, verdictOn, type Explained } from '../../../src/maths/audit/slipRates';
import { USUAL_SETTINGS, yieldAudit } from '../../../src/maths/audit/yieldAudit';
import type { Finding, Slip } from '../../../src/maths/audit/yieldRecords';
import { bagFarm } from './books/farms';

const slips = massSlipsOf('lb');
const slipOf = (name: Slip): MassSlip => slips.find(({ slip }) => slip === name)!;
const one = new JudgedPick(new KnownPick({ row: 2, lot: 'A', date: 1, mass: 1, flush: 1 } as never), 0);
one.spread = 0.3;
/** A mass of which each slip is so many times as likely as "right". */
const mass = (odds: Partial<Record<Slip, number>>): Explained => ({
  one,
  right: 0,
  others: [
    ...Object.entries(odds).map(([slip, times]) => ({ weight: Math.log(times), of: slipOf(slip as Slip) })),
    { weight: Math.log(0.001), of: 'odd' },
  ],
});
const asEver = { slips: 0, odd: 0, mix: new Map() };

describe('verdictOn(mass, rates): what a mass is judged to be', () => {
  test('the slip named is as sure as it is itself, and not as sure as that there is one', () => {
    // 60 + 30 in 91.001
    const { wrong, slips: named } = verdictOn(mass({ 'decimal right': 60, ounces: 30 }), asEver);
    expect(wrong).toBeCloseTo(90.001 / 91.001, 6);
    expect(named.map(({ of, sure }) => [of.slip, Number(sure.toFixed(4))])).toEqual([
      ['decimal right', 0.6593],
      ['ounces', 0.3297],
    ]);
  });

  test('slips that the book holds more often are named sooner, and a slip is no likelier for them', () => {
    const doubtful = mass({ 'decimal right': 60, ounces: 30 });
    const mixed = verdictOn(doubtful, { ...asEver, mix: new Map<Slip, number>([['ounces', 4]]) });
    expect(mixed.wrong).toBe(verdictOn(doubtful, asEver).wrong);
    // 30 × 4 against 60: two thirds of 90 in 91.001
    expect(mixed.slips[0]).toMatchObject({ of: { slip: 'ounces' } });
    expect(mixed.slips[0]!.sure).toBeCloseTo((2 / 3) * (90 / 91.001), 6);
  });
});

test('a book with many masses in ounces tells what its doubtful ones are', () => {
  const sure = Array.from({ length: 9 }, () => mass({ 'decimal right': 1, ounces: 1000 }));
  const doubtful = mass({ 'decimal right': 600, ounces: 300 });
  const rates = learntRates(
    [...sure, doubtful],
    Array.from({ length: 500 }, () => one),
    slips,
  );
  expect(verdictOn(doubtful, { ...rates, mix: new Map() }).slips[0]!.of.slip).toBe('decimal right');
  expect(verdictOn(doubtful, rates).slips[0]!.of.slip).toBe('ounces');
});

describe('yieldAudit of a mass in ounces in a book of pounds', () => {
  const book = bagFarm(0.35, 130_002);
  const { row, mass: pounds } = book.picks.find((pick) => Number(pick.mass) === 4)!;
  const withMass = (typed: number, sureness: number): Finding | undefined =>
    yieldAudit(
      book.picks.map((pick) => (pick.row === row ? { ...pick, mass: typed } : pick)),
      book.lots,
      book.strains,
      { ...USUAL_SETTINGS, unit: 'lb', sureness },
    ).find((finding) => finding.table === 'harvests' && finding.row === row);

  test('decimal and ounces are both said, neither as nearly sure', () => {
    const finding = withMass(16 * Number(pounds), 0.4)!;
    const said = [{ slip: finding.slip, corrected: finding.corrected }, ...(finding.rivals ?? [])];
    expect(finding.wrong).toBeGreaterThan(0.95);
    expect(finding.sure).toBeLessThan(0.9);
    expect(said.slice(0, 2)).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ slip: 'ounces', corrected: 4 }),
        expect.objectContaining({ slip: 'decimal right', corrected: 6.4 }),
      ]),
    );
  });

  test('no figure is offered where the slip is less sure than is asked for, and the mass is told', () => {
    const finding = withMass(16 * Number(pounds), 0.95)!;
    expect(finding).toMatchObject({ cause: 'mass', corrected: undefined });
    expect(finding.rivals!.length).toBeGreaterThan(1);
  });

  test('pounds that were called ounces are pounds', () => {
    expect(withMass(5 / 16, 0.5)).toMatchObject({ slip: 'ounces', corrected: 5 });
  });
});
