import { describe, expect, test } from '@jest/globals';
import { USUAL_LIMITS, yieldAudit, type AuditLimits } from '../../../src/maths/audit/yieldAudit';
import {
  RULES,
  type Finding,
  type LotRecord,
  type PickRecord,
  type RuleCode,
} from '../../../src/maths/audit/yieldRecords';
import { expectFault, type Refusal } from '../expectFault';
import { cleanBook, plantSlips, STRAINS, type Book, type PlantedSlip } from './plantedBook';

const audit = ({ picks, lots, strains }: Book): Finding[] => yieldAudit(picks, lots, strains);

interface Score {
  readonly recall: Map<string, [found: number, planted: number]>;
  readonly falseAlarms: number;
  readonly cleanRows: number;
}

/** A slip is found where its row, or for a slip in lots its lot, has a finding of its kind. */
function score({ book, slips }: { book: Book; slips: PlantedSlip[] }): Score {
  const findings = audit(book);
  const byRow = new Map<string, Finding[]>();
  for (const finding of findings) {
    const key = `${finding.table} ${finding.row}`;
    byRow.set(key, [...(byRow.get(key) ?? []), finding]);
  }
  const recall = new Map<string, [number, number]>();
  for (const { kind, of, table, row } of slips) {
    const own = byRow.get(`${table} ${row}`) ?? [];
    const found = own.some(({ code }) =>
      of === 'mass' ? code.startsWith('mass-') : RULES[code].severity === 'cannot be',
    );
    for (const key of [kind, of]) {
      const [hits, all] = recall.get(key) ?? [0, 0];
      recall.set(key, [hits + (found ? 1 : 0), all + 1]);
    }
  }
  // What a slip drags along in its own lot (a total that no longer agrees) is no false alarm.
  const touched = new Set(slips.map(({ lot }) => lot));
  const slipped = new Set(slips.map(({ table, row }) => `${table} ${row}`));
  const falseAlarms = new Set(
    findings
      .filter(
        ({ table, row, lot }) => !slipped.has(`${table} ${row}`) && !(table === 'lots' && touched.has(lot)),
      )
      .map(({ table, row }) => `${table} ${row}`),
  ).size;
  return { recall, falseAlarms, cleanRows: book.picks.length - slips.length };
}

const percent = ([found, planted]: readonly [number, number]): number => (100 * found) / planted;

describe('yieldAudit finds planted slips', () => {
  // The promise: 95% of slips that cannot be, 80% of slips of unit and decimal, at most 1 false alarm per 200 clean rows
  test.each([
    { picks: 500, spread: 0.15, flushesRecorded: true },
    { picks: 5_000, spread: 0.15, flushesRecorded: true },
    { picks: 5_000, spread: 0.25, flushesRecorded: true },
    { picks: 5_000, spread: 0.35, flushesRecorded: true },
    { picks: 5_000, spread: 0.25, flushesRecorded: false },
    { picks: 50_000, spread: 0.2, flushesRecorded: true },
  ])('in $picks picks with a spread of $spread, flushes recorded: $flushesRecorded', (size) => {
    const clean = cleanBook({ ...size, seed: size.picks });
    // Small books are drawn several times so that the shares mean something.
    const draws = size.picks < 1000 ? 10 : 1;
    const scores = Array.from({ length: draws }, (_, draw) => score(plantSlips(clean, 0.02, 17 + draw)));
    const total = (kind: string): [number, number] =>
      scores.reduce<[number, number]>(
        ([found, planted], { recall }) => {
          const [f, p] = recall.get(kind) ?? [0, 0];
          return [found + f, planted + p];
        },
        [0, 0],
      );
    const alarms = scores.reduce((sum, { falseAlarms }) => sum + falseAlarms, 0);
    const rows = scores.reduce((sum, { cleanRows }) => sum + cleanRows, 0);
    const kinds = [...new Set(scores.flatMap(({ recall }) => [...recall.keys()]))].sort();
    console.log(
      `YIELDAUDIT, ${size.picks} picks, spread ${100 * size.spread}%, flushes ${size.flushesRecorded ? '' : 'not '}recorded: ` +
        `cannot be ${percent(total('cannot be')).toFixed(1)}%, unit and decimal ${percent(total('mass')).toFixed(1)}%, ` +
        `false alarms 1 per ${alarms ? Math.round(rows / alarms) : `more than ${rows}`} clean rows\n` +
        kinds.map((kind) => `  ${kind}: ${total(kind).join(' of ')}`).join('\n'),
    );
    expect(percent(total('cannot be'))).toBeGreaterThanOrEqual(95);
    expect(percent(total('mass'))).toBeGreaterThanOrEqual(80);
    expect(alarms / rows).toBeLessThanOrEqual(1 / 200);
  });

  test.each([0.05, 0.2, 0.35])('clean books with a natural spread of %p stay quiet', (spread) => {
    const book = cleanBook({ picks: 5_000, spread, seed: 3 });
    const findings = audit(book);
    console.log(
      `YIELDAUDIT, clean book, spread ${100 * spread}%: ${findings.length} findings in ${book.picks.length} rows`,
    );
    expect(findings.filter(({ code }) => RULES[code].severity === 'cannot be')).toEqual([]);
    expect(findings.length / book.picks.length).toBeLessThanOrEqual(1 / 200);
  });
});

describe('each rule of yieldAudit', () => {
  // One lot of Alder-3 (first pick on day 7, five days, 18 days apart) and what is wrong with it
  const LOADED = 46000;
  const lot: LotRecord = {
    row: 2,
    lot: 'A-101',
    strain: 'Alder-3',
    blocks: 50,
    blockMass: 2.5,
    moisture: 0.6,
    inoculated: LOADED - 77,
    loaded: LOADED,
    total: 40,
  };
  const later: LotRecord = { ...lot, row: 3, lot: 'A-102', total: undefined };
  const pick = (row: number, day: number, mass: number, flush: number): PickRecord => ({
    row,
    lot: 'A-101',
    date: LOADED + day,
    mass,
    flush,
    blocks: 50,
  });
  // 40 kg from 50 kg dry: 24 in the first flush, 10 and 6 in the others
  const picks = [
    pick(2, 7, 8, 1),
    pick(3, 8, 8.5, 1),
    pick(4, 9, 7.5, 1),
    pick(5, 25, 5.2, 2),
    pick(6, 26, 4.8, 2),
    pick(7, 43, 3.1, 3),
    pick(8, 44, 2.9, 3),
    { ...pick(9, 10, 20, 1), lot: 'A-102' },
  ];
  const run = (
    changedPick: Partial<PickRecord> & { row: number },
    changedLot: Partial<LotRecord> = {},
    more: { picks?: PickRecord[]; lots?: LotRecord[] } = {},
  ): Finding[] =>
    yieldAudit(
      [
        ...picks.map((one) => (one.row === changedPick.row ? { ...one, ...changedPick } : one)),
        ...(more.picks ?? []),
      ],
      [{ ...lot, ...changedLot }, later, ...(more.lots ?? [])],
      STRAINS,
    );
  const none = { row: 0 };

  test('finds nothing in a book without a slip', () => {
    expect(run(none)).toEqual([]);
  });

  test.each<[string, Parameters<typeof run>, { code: RuleCode; row: number } & Partial<Finding>]>([
    ['a blank lot', [{ row: 3, lot: '' }], { code: 'lot-missing', row: 3 }],
    ['a mistyped lot', [{ row: 3, lot: 'A-1O1' }], { code: 'lot-unknown', row: 3, corrected: 'A-101' }],
    [
      'two neighbours swapped',
      [{ row: 3, lot: 'A1-01' }],
      { code: 'lot-unknown', row: 3, corrected: 'A-101' },
    ],
    ['a lot like several', [{ row: 3, lot: 'A-10' }], { code: 'lot-unknown', row: 3, corrected: '' }],
    ['a lot twice', [none, {}, { lots: [{ ...lot, row: 9 }] }], { code: 'lot-twice', row: 9, table: 'lots' }],
    ['a lot never loaded', [none, { loaded: undefined }], { code: 'lot-not-loaded', row: 2 }],
    [
      'a lot never picked',
      [
        none,
        {},
        {
          lots: [
            { ...lot, row: 4, lot: 'A-103', loaded: LOADED - 90, inoculated: LOADED - 170, total: undefined },
          ],
        },
      ],
      { code: 'lot-not-picked', row: 4, table: 'lots' },
    ],
    ['a mass as text', [{ row: 3, mass: '8,5' }], { code: 'figure-text', row: 3, corrected: 8.5 }],
    ['an error in a mass', [{ row: 3, mass: '#REF!' }], { code: 'figure-text', row: 3, corrected: '' }],
    ['a date as text', [{ row: 3, date: '2026-03-01' }], { code: 'figure-text', row: 3 }],
    ['a moisture of 60', [none, { moisture: 60 }], { code: 'figure-bad', row: 2, corrected: 0.6 }],
    ['no mass', [{ row: 3, mass: undefined }], { code: 'mass-missing', row: 3 }],
    ['a negative mass', [{ row: 3, mass: -8.5 }], { code: 'mass-negative', row: 3, corrected: 8.5 }],
    [
      'grams',
      [{ row: 3, mass: 8500 }],
      { code: 'mass-unit', row: 3, corrected: 8.5, slip: 'grams typed for kilograms' },
    ],
    [
      'ounces',
      [{ row: 4, mass: 7.5 * 16 }],
      { code: 'mass-unit', row: 4, corrected: 7.5, slip: 'ounces typed for pounds' },
    ],
    ['a decimal', [{ row: 3, mass: 85 }], { code: 'mass-decimal', row: 3, corrected: 8.5 }],
    ['a mass four times too high', [{ row: 3, mass: 34 }], { code: 'mass-outlying', row: 3 }],
    ['no date', [{ row: 3, date: undefined }], { code: 'date-missing', row: 3 }],
    [
      'last year’s date',
      [{ row: 3, date: LOADED + 8 - 365 }],
      { code: 'date-before-load', row: 3, corrected: LOADED + 8, slip: 'another year' },
    ],
    [
      'a pick the day after the load',
      [{ row: 2, date: LOADED + 1 }],
      { code: 'date-early', row: 2, expected: LOADED + 7 },
    ],
    [
      'next year’s date',
      [{ row: 8, date: LOADED + 44 + 365 }],
      { code: 'date-late', row: 8, corrected: LOADED + 44, slip: 'another year' },
    ],
    [
      'a load before its inoculation',
      [none, { inoculated: LOADED + 5 }],
      { code: 'load-before-inoculation', row: 2, table: 'lots' },
    ],
    [
      'an unripe load',
      [none, { inoculated: LOADED - 30 }],
      { code: 'load-unripe', row: 2, expected: LOADED + 33 },
    ],
    ['flush 2.5', [{ row: 5, flush: 2.5 }], { code: 'flush-bad', row: 5 }],
    [
      'flush 2 with flush 1’s date',
      [{ row: 5, date: LOADED + 8 }],
      { code: 'flush-order', row: 5, corrected: 1 },
    ],
    [
      'a second flush far above the first',
      [{ row: 5, mass: 70 }, { total: undefined }, {}],
      { code: 'flush-rising', row: 2 },
    ],
    [
      'a pick typed twice',
      [none, { total: 48.5 }, { picks: [{ ...pick(20, 8, 8.5, 1) }] }],
      { code: 'pick-twice', row: 20 },
    ],
    ['more blocks than loaded', [{ row: 3, blocks: 51 }], { code: 'blocks-over', row: 3 }],
    [
      'an efficiency beyond belief',
      [none, { blocks: 15 }],
      { code: 'efficiency-out', row: 2, table: 'lots' },
    ],
    ['a total that is not the sum', [none, { total: 44 }], { code: 'total-differs', row: 2, corrected: 40 }],
  ])('%s', (_what, [changedPick, changedLot, more], wanted) => {
    const found = run(changedPick, changedLot, more).filter(
      ({ code, row }) => code === wanted.code && row === wanted.row,
    );
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject(wanted);
  });

  test('gives the surest first, and the same whatever the order of rows', () => {
    const book = plantSlips(cleanBook({ picks: 600, spread: 0.2, seed: 5 }), 0.05, 9).book;
    const findings = audit(book);
    const sureness = findings.map(({ code }) =>
      ['cannot be', 'unlikely', 'look again'].indexOf(RULES[code].severity),
    );
    expect(sureness).toEqual([...sureness].sort());
    const turned = audit({ ...book, picks: [...book.picks].reverse(), lots: [...book.lots].reverse() });
    expect(turned.map(({ code, row }) => `${code} ${row}`)).toEqual(
      findings.map(({ code, row }) => `${code} ${row}`),
    );
  });

  test('leaves its input as it was', () => {
    const frozen = picks.map((one) => Object.freeze(one));
    expect(() =>
      yieldAudit(Object.freeze(frozen), [Object.freeze(lot), Object.freeze(later)], STRAINS),
    ).not.toThrow();
  });

  test.each<[Partial<AuditLimits>, Refusal]>([
    [{ deviations: 0 }, ['settings, deviations', 'outside', { above: 0, given: 0 }]],
    [{ highestEfficiency: NaN }, ['settings, highest efficiency', 'outside', { above: 0, given: NaN }]],
  ])('refuses limits of %p', (limits, refusal) => {
    expectFault(() => yieldAudit(picks, [lot], STRAINS, { ...USUAL_LIMITS, ...limits }), refusal);
  });
});
