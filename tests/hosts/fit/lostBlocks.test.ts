import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { bookOf } from '../../../src/hosts/fit/content';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { readAnswers } from '../../../src/hosts/fit/readAnswers';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import type { Cell } from '../../../src/worksheet/cells/cell';
import { bookWith, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Blocks of lots that are gone, as columns count them. Every figure is counted by hand from the cells.

type Rows = readonly (readonly Held[])[];
const TODAY: Answers = { figures: { today: '2026-03-30', days: 7 } };
const STRAINS: Rows = [
  ['Strain', 'Min days', 'Best', 'Max days'],
  ['Blue larch', 18, 24, 45],
];

/** Lots with one more column. */
const lotsWith = (header: string, held: readonly Held[], blocks: readonly Held[] = BLOCKS): Rows => [
  ['Lot', 'Strain', 'Blocks', 'Inoculated', header],
  ...held.map((one, i): Held[] => [`A${i + 1}`, 'Blue larch', blocks[i]!, `2026-02-2${i + 1}`, one]),
];
const BLOCKS = [40, 36, 40, 44, 40, 60, 40];
const bookOfLots = (lots: Rows): Promise<Uint8Array> => bookWith({ Lots: lots, Strains: STRAINS });
const askedOf = async (lots: Rows): Promise<string[]> =>
  fitted(opened(await bookOfLots(lots)), 'ready', TODAY).questions.map(questionWords);
const readyIn = (prepared: Prepared): Cell[][] =>
  valuesOf(prepared, 'READYLOTS(')
    .slice(1)
    .filter(([, strain]) => strain === 'Blue larch')
    .map(([lot, , blocks]) => [lot!, blocks!]);

async function calculated(bytes: Uint8Array, prepared: Prepared): Promise<readonly (readonly Cell[])[]> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  return workbook.result(prepared.answer, prepared.calls[0]!.address).block!;
}

describe('a column of counts that no list knows', () => {
  const FEW = [2, null, 1, 0, null, 4, null];
  const asked = (header: string): string =>
    `“${header}” of your lots has numbers that may be blocks. Are those blocks gone (thrown away, lost or used up), ` +
    'so that they no longer count? Say not gone if it counts something else';

  test.each<[string, readonly Held[]]>([
    ['Casualties', FEW],
    ['Hylätty', FEW],
    ['Kits sold', FEW],
    ['Bortfall', [40, null, null, null, 2, null, null]],
    ['Utsorterade', [2, 5, 1, 3, 7, 2, 4]],
    ['Hylkyjä', ['-', 2, '-', '-', 3, '-', '-']],
  ])('is asked about: %s', async (header, held) => {
    expect(await askedOf(lotsWith(header, held))).toEqual([asked(header)]);
  });

  test.each<[string, readonly Held[]]>([
    ['Shelf', [1, 2, null, 3, null, null, 4]],
    ['Tent', [1, 2, null, 1, null, 2, null]],
    ['Room no', [1, 2, null, 1, null, 2, null]],
    ['Bag weight', [5, 5, 5, null, null, 5, 5]],
    ['lb', [5, 5, null, null, 5, 5, 5]],
    ['Temp', [22, 21, null, 22, null, 23, null]],
    ['Spawn rate %', [5, 5, null, null, null, 5, 5]],
    ['Spawn batch', [7, 7, null, 8, null, 8, null]],
    ['Week', [8, 8, null, 9, null, 9, null]],
    ['Grupp', [5, 5, 5, 5, 5, 5, 5]],
    ['Löp', [1, 2, 3, 4, 5, 6, 7]],
    ['Löp i del', [11, null, 12, null, 13, null, 14]],
    ['Lux', [410, null, 305, null, 260, null, 500]],
    ['Picked', [12, null, 9, null, 8, null, 7]],
    ['Vatten', [1.5, null, 2.25, null, 0.5, null, null]],
  ])('is not asked about where it is something else: %s', async (header, held) => {
    expect(await askedOf(lotsWith(header, held))).toEqual([]);
  });

  test('takes its blocks off once they are said to be gone, which the book keeps', async () => {
    const bytes = await bookOfLots(lotsWith('Casualties', FEW));
    const lost = { lots: { Casualties: 'gone' as const } };
    const [, prepared] = await laidOut(bytes, 'ready', { ...TODAY, lost });
    expect(readyIn(prepared)).toEqual([
      ['A1', 38],
      ['A2', 36],
      ['A3', 39],
      ['A4', 44],
      ['A5', 40],
      ['A6', 56],
      ['A7', 40],
    ]);
    expect(await calculated(bytes, prepared)).toEqual(valuesOf(prepared, 'READYLOTS('));
    const written = withSheets(bytes, prepared.sheets);
    expect(keptAnswers(bookOf(readWorkbook(written), []), 'ready').lost).toEqual(lost);
  });

  test('stays out of it once it is said to count something else, which the book keeps', async () => {
    // A column besides that is read makes a sheet of readings.
    const lots = lotsWith('Casualties', FEW).map((row, i) => [
      ...row,
      i === 0 ? 'Binned' : i === 1 ? 3 : null,
    ]);
    const bytes = await bookOfLots(lots);
    const lost = { lots: { Casualties: 'not gone' as const } };
    const [, prepared] = await laidOut(bytes, 'ready', { ...TODAY, lost });
    expect(readyIn(prepared).slice(0, 2)).toEqual([
      ['A1', 37],
      ['A2', 36],
    ]);
    const written = withSheets(bytes, prepared.sheets);
    const kept = keptAnswers(bookOf(readWorkbook(written), []), 'ready').lost;
    expect(kept).toEqual({ lots: { Casualties: 'not gone', Binned: 'gone' } });
  });

  test('is open in a template, and answered in a file', async () => {
    const fit = fitted(opened(await bookOfLots(lotsWith('Casualties', FEW))), 'ready', TODAY);
    expect(answersTemplate(fit).lost).toEqual({ lots: { Casualties: null } });
    const answers = '{"lost":{"lots":{"Casualties":"gone"}}}';
    expect(readAnswers(answers)).toEqual({ lost: { lots: { Casualties: 'gone' } } });
    expect(() => readAnswers('{"lost":{"lots":{"Casualties":"yes"}}}')).toThrow(
      'lost, lots: for each header gone or not gone needed',
    );
  });
});

describe('more blocks that are lost than were made', () => {
  test('spoil their own lot alone, told at its cell', async () => {
    const bytes = await bookOfLots(lotsWith('Binned', [2, 63, null, 5, null, 1, null]));
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(fit.unread.map(({ row, column, why }) => [row, column, why])).toEqual([
      [2, 2, 'is less than what is lost of it under Binned'],
    ]);
    const blocks = fit.tables.get('lots')!.values.get('blocks')!;
    expect(blocks.filter((one) => typeof one === 'number')).toEqual([38, 40, 39, 40, 59, 40]);
    const ready = valuesOf(prepared, 'READYLOTS(');
    expect(ready.map(([lot]) => lot)).toContain('A4');
    expect(await calculated(bytes, prepared)).toEqual(ready);
  });

  test('in most lots are something else, which is asked', async () => {
    expect(await askedOf(lotsWith('Lost', [200, 300, null, 250, null, 1, null]))).toEqual([
      expect.stringContaining('“Lost” of your lots has numbers that may be blocks'),
    ]);
  });
});

describe('remarks on lots that are gone', () => {
  const remarks = (held: readonly Held[], header = 'Notes'): Rows => lotsWith(header, held);
  const listed = async (lots: Rows, rows?: Answers['rows']): Promise<Cell[]> => {
    const bytes = await bookOfLots(lots);
    const [, prepared] = await laidOut(bytes, 'ready', { ...TODAY, ...(rows && { rows }) });
    expect(await calculated(bytes, prepared)).toEqual(valuesOf(prepared, 'READYLOTS('));
    return readyIn(prepared).map(([lot]) => lot!);
  };

  test('are asked about with words before the one that says it, and beside numbers', async () => {
    const lots = remarks(['all tossed', 3, null, 'was binned', null, 'slow', null], 'Fate');
    expect(await askedOf(lots)).toEqual([
      '“Fate” tells rows apart: all tossed (1), a number or day (1), blank (3), was binned (1), slow (1). Which of your lots still count?',
    ]);
    const still = ['a number or day', 'blank', 'slow'];
    expect(await listed(lots, { lots: { Fate: still } })).toEqual(['A2', 'A3', 'A5', 'A6', 'A7']);
  });

  test.each<[string, Held]>([
    ['Opmerking', 'weggegooid'],
    ['Bemerkung', 'verworfen am 3.4.'],
    ['Remarques', 'jeté'],
    ['Kasseret', 'x'],
  ])('are asked about in other languages: “%s” %s', async (header, held) => {
    const [asked] = await askedOf(remarks([held, null, null, null, null, null, null], header));
    expect(asked).toContain(`“${header}” tells rows apart: `);
  });

  test('are asked about by their own words where many others are written', async () => {
    const many = Array.from({ length: 20 }, (_, i): Held[] => [
      `B${i}`,
      'Blue larch',
      20,
      '2026-03-02',
      i === 4 ? 'tossed 3/9' : `remark ${'abcdefghijklmnopqrst'[i]!}`,
    ]);
    const lots: Rows = [...lotsWith('Notes', []), ...many];
    expect(await askedOf(lots)).toEqual([
      '“Notes” tells rows apart: tossed (1), anything else (19). Which of your lots still count?',
    ]);
    expect(await listed(lots, { lots: { Notes: ['anything else'] } })).toHaveLength(19);
  });

  test.each<[string, boolean]>([
    ['bad spawn - tossed', true],
    ['Smelled off (tossed)', true],
    ['went green and thrown out', true],
    ['no growth; binned', true],
    ['bad batch. Dumped 3/21', true],
    ['did not take - was binned, all of it', true],
    ['2 tossed', false],
    ['bad edges, 4 binned', false],
    ['slow - some tossed', false],
    ['tossed the worst', false],
    ['so far half of it was binned', false],
    ['not tossed yet', false],
    ['wasn’t tossed', false],
    ['moved, if worse to be binned', false],
  ])('“%s” leaves its lot out of the draft, or a later one of the lots: %s', async (remark, isOut) => {
    const held = ['binned', null, null, 'fine', null, null, null];
    const beside = held.map((one, i) => (i === 1 ? remark : one));
    const asked = fitted(opened(await bookOfLots(remarks(beside))), 'ready', TODAY).questions;
    expect(asked).toMatchObject([{ kind: 'rows', header: 'Notes' }]);
    const proposed = asked.flatMap((one) => (one.kind === 'rows' ? one.proposed : []));
    expect(proposed).toEqual([...(isOut ? [] : [remark]), 'blank', 'fine']);
    const rows = { lots: { Notes: ['blank', 'fine'] } };
    const [, prepared] = await laidOut(await bookOfLots(remarks(held)), 'ready', { ...TODAY, rows });
    const written = withSheets(await bookOfLots(remarks(beside)), prepared.sheets);
    const workbook = await openWorkbook(readWorkbook(written));
    const block = workbook.result(prepared.answer, prepared.calls[0]!.address).block!;
    expect(block.some(([lot]) => lot === 'A2')).toBe(!isOut);
  });

  test('that are written later count in the formula, but where they say a part', async () => {
    const held = ['binned', 'fine', null, 'slow', null, null, null];
    const bytes = await bookOfLots(remarks(held));
    const rows = { lots: { Notes: ['fine', 'blank', 'slow'] } };
    const [, prepared] = await laidOut(bytes, 'ready', { ...TODAY, rows });
    const later = remarks([
      'binned',
      'Tossed 3/28',
      'green, tossed',
      'slow',
      'tossed 3',
      'gone slow',
      'dead',
    ]);
    const written = withSheets(await bookOfLots(later), prepared.sheets);
    const workbook = await openWorkbook(readWorkbook(written));
    const block = workbook.result(prepared.answer, prepared.calls[0]!.address).block!;
    expect(block.slice(1).map(([lot]) => lot)).toEqual(['A4', 'A5', 'A6']);
  });

  test('that say nothing of it yet are told in the sheet as read only when the job is chosen', async () => {
    const notesOf = async (lots: Rows): Promise<readonly string[]> => {
      const [, { sheets, answer }] = await laidOut(await bookOfLots(lots), 'ready', TODAY);
      return sheets.find(({ name }) => name === answer)!.notes;
    };
    const shown = 'Lots that may be opened in these days, and those that are past their last day.';
    expect(await notesOf(remarks(['slow', null, null, null, null, null, null]))).toEqual([
      `${shown} “Notes” of your lots is read only when you choose the job: choose it again once it says there that a lot is gone.`,
    ]);
    expect(await notesOf(remarks(['slow', null, null, null, null, null, null], 'Colour'))).toEqual([shown]);
  });

  test('on a part of a lot are told at their cell, and leave none out', async () => {
    const fit = fitted(
      opened(await bookOfLots(remarks(['3 tossed', null, null, 'lost 2 bags', null, null, null]))),
      'ready',
      TODAY,
    );
    expect(fit.questions).toEqual([]);
    expect(fit.unread.map(({ row, column, why }) => [row, column, why])).toEqual([
      [1, 4, 'says that some of its blocks are gone: put how many into a column of their own, headed lost'],
      [4, 4, 'says that some of its blocks are gone: put how many into a column of their own, headed lost'],
    ]);
    const counted = remarks(['3 tossed', '2 binned', null, null, null, null, null]).map((row, i) => [
      ...row,
      ['Lost', 3][i] ?? null,
    ]);
    const beside = fitted(opened(await bookOfLots(counted)), 'ready', TODAY);
    expect(beside.unread.map(({ row }) => row)).toEqual([2]);
    const words = remarks(['binned', 'some tossed', 'not tossed', null, null, null, null]);
    const inWords = fitted(opened(await bookOfLots(words)), 'ready', TODAY);
    expect(inWords.unread.map(({ row }) => row)).toEqual([2]);
  });
});
