import { beforeAll, describe, expect, test } from '@jest/globals';
import { isCellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { YIELDAUDIT } from '../../src/worksheet/audit/yieldAudit';
import { CROPTABLE } from '../../src/worksheet/harvest/cropTable';
import { FLUSHSPLIT } from '../../src/worksheet/harvest/flushSplit';
import { STRAINTABLE } from '../../src/worksheet/harvest/strainTable';
import { READYLOTS } from '../../src/worksheet/ripening/readyLots';
import { RIPECALENDAR } from '../../src/worksheet/ripening/ripeCalendar';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(READYLOTS));

// What is under `loaded` in lots is read alike by all that read lots: the day, or how many blocks are loaded so far.
// The farm is invented; LOADPLAN and CHECKLOADS have tests of their own.

const MADE = 46083; // 2026-03-02
const LOADED = MADE + 30;

const lots = (...loaded: Cell[]): Grid => [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated', 'loaded'],
  ...loaded.map((one, n): Cell[] => [`E-${n + 1}`, 'Elm-2', 50, 2, 0.6, MADE, one]),
];
const STRAINS: Grid = [
  ['strain', 'earliest', 'latest', 'first pick', 'pick days', 'flush gap', 'efficiency'],
  ['Elm-2', 25, 40, 8, 3, 14, 0.8],
];
const picks = (count: number): Grid => [
  ['lot', 'date', 'mass'],
  ...Array.from({ length: count }, (_, n): Cell[] => [`E-${n + 1}`, LOADED + 9, 16]),
];
const rowsOf = (f: WorksheetFunction, ...given: (Grid | Cell)[]): Cell[][] =>
  plainValues(
    evaluate(
      f,
      given.map((one) => (Array.isArray(one) ? (one as Grid) : [[one as Cell]])),
    ),
  ).slice(1);

describe('a number of blocks under loaded', () => {
  test('CROPTABLE: the picks are of these blocks, and their day is not known', () => {
    // 16 / 20 is 0.8 a block; a block holds 2 × 0.4 = 0.8 dry: 100%. All 50 blocks: 16 / 50 / 0.8 is 40%.
    const [some, all] = rowsOf(CROPTABLE, picks(2), lots(20, LOADED));
    expect(some).toEqual(['E-1', 'Elm-2', 20, 16, 0.8, expect.closeTo(1), '', '']);
    expect(all!.slice(0, 7)).toEqual(['E-2', 'Elm-2', 50, 16, 0.32, expect.closeTo(0.4), 9]);
  });

  test('STRAINTABLE counts the lot with its efficiency', async () => {
    await prepared(STRAINTABLE);
    const [row] = rowsOf(STRAINTABLE, picks(2), lots(20, LOADED));
    expect(row!.slice(0, 4)).toEqual(['Elm-2', 2, 0, expect.closeTo(0.7)]);
  });

  test('FLUSHSPLIT numbers without a day of loading', () => {
    expect(rowsOf(FLUSHSPLIT, picks(1), lots(20), STRAINS)).toEqual([[1]]);
  });

  test('RIPECALENDAR and READYLOTS count the rest', () => {
    const span = [STRAINS, MADE + 21, MADE + 34] as const;
    expect(rowsOf(RIPECALENDAR, lots(20), ...span, 'week').map((row) => row[5])).toEqual([30, 30]);
    expect(rowsOf(READYLOTS, lots(20), ...span)[0]![2]).toBe(30);
  });

  test('RIPECALENDAR refuses it beside loads of the lot', () => {
    const loads: Grid = [
      ['loaded', 'blocks', 'lot'],
      [LOADED, 10, 'e-1'],
    ];
    const given = [lots(20), STRAINS, [[MADE]], [[MADE + 40]], [['week']], loads] as const;
    expect(evaluate(RIPECALENDAR, given).rows[0]![0]).toMatchObject({
      reason:
        'loaded in lots: "E-1" has a number of blocks here and rows of its own in loads: keep one of the two (row 2 of lots)',
    });
  });

  test('YIELDAUDIT neither finds fault with it nor shows it as a date', async () => {
    await prepared(YIELDAUDIT);
    const findings = rowsOf(YIELDAUDIT, picks(1), lots(20), STRAINS);
    expect(findings.filter((row) => row[0] === 'lots')).toEqual([]);
    const given = [picks(1), lots(20), STRAINS, null, [['lots']]] as const;
    const { rows } = evaluate(YIELDAUDIT, given);
    expect(rows[1]![rows[0]!.indexOf('loaded')]).toMatchObject({ value: 20, format: 'plain' });
  });
});

test.each([51, 12.5])('%d of 50 blocks is told by all of them in the same words', async (loaded) => {
  await prepared(STRAINTABLE);
  const said = `loaded in lots must be a date, or a whole number of blocks up to the 50 of the lot; it is ${loaded} (row 2 of lots)`;
  const span = [STRAINS, MADE, MADE + 40] as const;
  for (const rows of [
    rowsOf(CROPTABLE, picks(1), lots(loaded)),
    rowsOf(STRAINTABLE, picks(1), lots(loaded)),
    rowsOf(READYLOTS, lots(loaded), ...span),
    evaluate(RIPECALENDAR, [lots(loaded), STRAINS, [[MADE]], [[MADE + 40]]]).rows as Cell[][],
  ]) {
    const words = rows.flat().map((cell) => (isCellError(cell) ? cell.reason : String(cell)));
    expect(words).toContainEqual(expect.stringContaining(said));
  }
});
