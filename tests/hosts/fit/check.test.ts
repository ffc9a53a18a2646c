import { beforeAll, describe, expect, test } from '@jest/globals';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { placeText } from '../../../src/hosts/fit/book';
import { checkData } from '../../../src/hosts/fit/check';
import type { DataFinding } from '../../../src/hosts/fit/dataFinding';
import { bookOf } from '../../../src/hosts/fit/content';
import { functionReader, READ_WITH } from '../../../src/hosts/fit/functionReader';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { newCaller } from '../../../src/worksheet/call';
import { europeanBook, groupedBook, scriptedBook, usBook } from './messyBooks';

const caller = newCaller();
beforeAll(() => caller.ready(READ_WITH));

const look = (bytes: Uint8Array): DataFinding[] =>
  checkData(bookOf(readWorkbook(bytes), []), functionReader(caller, 1900));

const told = (findings: readonly DataFinding[], cause: string, sheet: string): string[] =>
  findings
    .filter((one) => one.cause === cause && one.cells[0]!.sheet === sheet)
    .flatMap(({ cells }) => cells.map(({ row, column }) => placeText(sheet, row, column)));

describe('a check of the data', () => {
  let us: DataFinding[];
  let european: DataFinding[];
  beforeAll(async () => {
    us = look(await usBook());
    european = look(await europeanBook());
  });

  test('takes no list that formulas give for names typed twice', () => {
    const file = path.join(__dirname, '../../../sample-workbooks/incubation-book.xlsx');
    const found = look(new Uint8Array(readFileSync(file)));
    // Records, Weeks ahead and Inoculate by repeat their strains; the strains to label are typed.
    expect(found.filter(({ cause }) => cause === 'twice').map(({ cells }) => cells[0]!.sheet)).toEqual([
      'Labels',
    ]);
  });

  test('finds each kind of trouble once a column, with every cell it is in', () => {
    // The places are those of the book's description: nothing here is read back from the check.
    expect(us.map(({ cause, cells }) => `${cells[0]!.sheet}: ${cause}`).sort()).toEqual([
      'Grow log: per cent',
      'Grow log: spellings',
      'Grow log: text dates',
      'Grow log: text dates',
      'Grow log: text figures',
      'Grow log: text figures',
      'Orders: text dates',
      'Orders: text figures',
      'Picks: text dates',
      'Picks: text figures',
    ]);
    expect(told(us, 'per cent', 'Grow log')).toEqual(["'Grow log'!F6", "'Grow log'!F10", "'Grow log'!F11"]);
    expect(told(us, 'spellings', 'Grow log')).toEqual(["'Grow log'!B7"]);
    expect(told(us, 'text figures', 'Picks')).toEqual(['Picks!C6']);
  });

  test('a figure keeps its unit in the header, a date its day, 62 becomes 62%', () => {
    const ofWeight = us.find(({ words }) => words.includes('Bag wt'))!.ways[0]!.corrections;
    expect(ofWeight[0]).toMatchObject({ row: 3, column: 4, before: 'Bag wt', after: 'Bag wt (lb)' });
    expect(ofWeight.slice(1).map(({ before, after }) => [before, after])).toEqual([
      ...new Array<unknown>(5).fill(['10 lb', 10]),
      ['10 lbs', 10],
    ]);
    const slips = us.find(({ cause }) => cause === 'per cent')!.ways[0]!.corrections;
    expect(slips.map(({ before, after }) => [before, after])).toEqual(new Array(3).fill([62, 0.62]));
    // 5 January 2026 is day 46027.
    const dates = us.find(({ words }) => words.includes('Date inoc'))!.ways;
    expect(dates.map(({ name }) => name)).toEqual(['']);
    expect(dates[0]!.corrections[0]).toMatchObject({ before: '1/5/26', after: 46027, format: 'yyyy-mm-dd' });
  });

  test('decimal commas and dates with the day first are read by what the column proves', () => {
    const corrections = european.flatMap(({ ways }) => ways.flatMap((way) => way.corrections));
    const after = (before: string) => corrections.find((one) => one.before === before)?.after;
    // 14 March 2026 is day 46095.
    expect([after('24,1 kg'), after('61,5%'), after('14.03.2026'), after('14,50')]).toEqual([
      24.1, 0.615, 46095, 14.5,
    ]);
    expect(told(european, 'unreadable', 'Incubation')).toEqual(['Incubation!D9']);
  });

  test('figures whose mark may part thousands can be corrected either way, strains as headings are no fault', async () => {
    const grouped = look(await groupedBook());
    const amounts = grouped.find(({ words }) => words.includes('Amount (kg)'))!;
    expect(
      amounts.ways.map(({ name, corrections }) => [name, corrections[0]!.before, corrections[0]!.after]),
    ).toEqual([
      ['decimal point', '12,500', 12500],
      ['decimal comma', '12,500', 12.5],
    ]);
    expect(told(grouped, 'unreadable', 'Fruiting blocks')).toEqual([
      "'Fruiting blocks'!B9",
      "'Fruiting blocks'!E14",
      "'Fruiting blocks'!D17",
    ]);
    expect(told(grouped, 'totals', 'Fruiting blocks')).toEqual(["'Fruiting blocks'!A11"]);
  });

  test('dates that prove no order can be corrected either way, and a lot in two rows is told', () => {
    const scripted = look(scriptedBook());
    const dates = scripted.find(({ cause }) => cause === 'text dates')!;
    expect(dates.ways.map(({ name }) => name)).toEqual(['day first', 'month first']);
    expect(told(scripted, 'twice', 'Batches')).toEqual(['Batches!A3', 'Batches!A4']);
    expect(told(scripted, 'spellings', 'Batches')).toEqual(['Batches!B5']);
  });
});
