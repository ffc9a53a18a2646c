import { describe, expect, test } from '@jest/globals';
import { described } from '../../../src/worksheet/described';
import { shownCell, typedCell } from '../../../src/worksheet/cells/shown';
import { toolsAtHand } from '../../../src/worksheet/toolsAtHand';
import { typedFormula } from '../../../src/worksheet/examples';
import { blanksArticle } from '../../../src/hosts/pane/blanks';
import { functionArticle, guideIndex } from '../../../src/hosts/pane/guide';
import { node, toHtml } from '../../../src/hosts/pane/node';

describe.each(described.map((f) => [f.name, f] as const))('the guide page of %s', (_name, f) => {
  test('says what it answers, what it needs, every fault with its remedy, and its sources', () => {
    const html = toHtml(functionArticle(f, { units: 'metric', live: undefined }));
    const words = [
      f.summary,
      ...f.sources,
      ...f.faults.map(({ remedy }) => remedy),
      ...f.arguments.map((a) => a.meaning),
    ];
    for (const text of [...words, ...(f.cautions ?? [])]) expect(html).toContain(toHtml(text));
    expect(html).not.toMatch(/undefined|\[object|NaN/);
  });
});

test.each([
  ['READYLOTS', 0, '=PINSET.READYLOTS(Lots[#All],Strains[#All],DATE(2026,2,16),DATE(2026,2,22))'],
  ['READYDATE', 1, '=PINSET.READYDATE(Lots[inoculated],Lots[strain],Strains[#All],"earliest")'],
  ['MIX', 0, '=PINSET.MIX(Recipe[#All],40,2.5,60%)'],
  ['STEAMPRESSURE', 1, '=PINSET.STEAMPRESSURE(250,,"US")'],
  ['MATCHCOLUMNS', 0, '=PINSET.MATCHCOLUMNS(A1:D6,Names[#All])'],
] as const)('a call of %s is written as a grower types it', (name, at, typed) => {
  const f = described.find((one) => one.name === name)!;
  expect(typedFormula(f, f.examples[at]!.arguments)).toBe(typed);
});

test('no example shows a date as the number that a sheet keeps for it', () => {
  const options = { units: 'metric', live: undefined, tools: toolsAtHand } as const;
  const html = described.map((f) => toHtml(functionArticle(f, options))).join('\n');
  const cells = [...html.matchAll(/<(td|th|code)[^>]*>([^<]*)</g)].map(([, , text]) => text!);
  expect(cells.length).toBeGreaterThan(1000);
  expect(cells.filter((text) => /^4[4-7]\d{3}(\.\d+)?$/.test(text))).toEqual([]);
});

test('a date and time of an example that is typed back is the same one', () => {
  const noon = 46_000.5;
  expect(shownCell(noon, 'dateTime')).toBe('2025-12-09 12:00');
  expect(typedCell('2025-12-09 12:00')).toBe(noon);
});

test('text is never read as markup', () => {
  const hostile = '<img src=x onerror="alert(1)"> & "quoted"';
  expect(toHtml(node('p', { title: hostile }, hostile))).toBe(
    '<p title="&lt;img src=x onerror=&quot;alert(1)&quot;&gt; &amp; &quot;quoted&quot;">&lt;img src=x onerror=&quot;alert(1)&quot;&gt; &amp; &quot;quoted&quot;</p>',
  );
});

test('the index has every function once', () => {
  const html = toHtml(guideIndex(described));
  for (const { name } of described) expect(html.split(`href="#${name}"`)).toHaveLength(2);
});

describe('the page of blanks and zeros', () => {
  const html = toHtml(blanksArticle(described, (name) => `#${name}`));

  test('has every function once, and a row for each argument and each column of a table', () => {
    for (const { name } of described) expect(html.split(`href="#${name}"`)).toHaveLength(2);
    const places = described.flatMap((f) =>
      f.arguments.flatMap((argument) =>
        argument.shape === 'table' ? Object.keys(argument.columns) : [argument.name],
      ),
    );
    expect(html.split('scope="row"')).toHaveLength(places.length + 1);
    expect(html).not.toMatch(/undefined|\[object/);
  });

  test.each([
    ['a figure that is needed', 'an error that names it'],
    ['a mass that may be none', 'none'],
    ['a price', 'free'],
    ['a temperature', '0.01 for 0 degrees'],
    ['a loss', 'counts as 0'],
    ['a label', 'the row does not count; with anything beside it, an error'],
    ['a reading of a log', 'refused beside a time; a row with neither does not count'],
  ])('says what a blank or a 0 is in %s', (_what, words) => {
    expect(html).toContain(`>${words}<`);
  });
});
