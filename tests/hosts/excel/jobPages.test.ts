import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import jobPages from '../../../src/hosts/excel/jobPages';
import { JOBS } from '../../../src/hosts/fit/jobs';
import { jobPage } from '../../../src/hosts/pane/jobPage';
import { STARTERS } from '../../../src/hosts/pane/starters';
import { isCellError } from '../../../src/worksheet/cells/cell';
import { formula, type PlainSheet } from '../../../src/hosts/xlsx/describe';
import { newWorkbook } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';

// What a job's page says to type is typed, in a workbook that has all the starter sheets.

/** The calls of a page, before the example, on the invented day of the starters. */
const typed = (html: string): string[] =>
  [...html.split('What the answer looks like')[0]!.matchAll(/<code>(.*?)<\/code>/g)].map(([, code]) =>
    code!
      .replaceAll('<wbr>', '')
      .replaceAll('&quot;', '"')
      .replaceAll('TODAY()', 'Farm[today]')
      .replace('MyLoads', 'Loads'),
  );

describe.each(JOBS)('the page of the job %s', (job) => {
  const html = jobPages({ filename: jobPage(job) });

  test('has the starters that it names', () => {
    const named = /<b>([^<]*)<\/b> from the tab Starters/.exec(html)![1]!.split(', ');
    expect(STARTERS.map(({ name }) => name)).toEqual(expect.arrayContaining(named));
    expect(html).not.toMatch(/undefined|\[object|NaN/);
  });

  test.each(typed(html))('says to type what answers: %s', async (call) => {
    const sheet: PlainSheet = { name: 'Try', title: '', notes: [], things: [formula('A4', call, 'text')] };
    const book = newWorkbook({ file: 'x', title: 'x', sheets: [...STARTERS, sheet] });
    const { value, unsupported } = (await openWorkbook(readWorkbook(book))).result('Try', 'A4');
    expect(value).not.toBeNull();
    const [reason] = isCellError(value) ? value.reason.split(';') : [''];
    // The starter's recipe has no prices.
    const refused = call.includes('MIXCOST') ? 'recipe needs a column headed cost' : '';
    expect([unsupported, reason]).toEqual([undefined, refused]);
  });
});
