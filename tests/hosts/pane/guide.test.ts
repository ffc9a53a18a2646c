import { describe, expect, test } from '@jest/globals';
import { described } from '../../../src/worksheet/described';
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
