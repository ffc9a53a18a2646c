import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from '@jest/globals';
import { strFromU8, unzipSync } from 'fflate';
import { run } from '../../src/hosts/headless/command';
import { catalogue } from '../../src/worksheet/catalogue';

// How Excel stores a call of an add-in (seen in files that Excel saved): `_xldudf_NAMESPACE_NAME` in an array formula
// over the cells it fills, the cell pointing to a record of dynamic arrays in the workbook's metadata. In any other
// form the cell stays #NAME? until somebody types it again.

const FOLDER = join(__dirname, '../../sample-workbooks');
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.xlsx'));
const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
afterAll(() => rmSync(folder, { recursive: true }));

const STORED = new Set(catalogue.map(({ name }) => `_xldudf_PINSET_${name}`));

interface Call {
  readonly place: string;
  readonly cell: string;
  readonly formula: string;
}

/** The text of each part. */
const textsIn = (bytes: Uint8Array): [string, string][] =>
  Object.entries(unzipSync(bytes)).map(([name, part]) => [name, strFromU8(part)]);

const callsIn = (parts: readonly [string, string][]): Call[] =>
  parts
    .filter(([name]) => name.startsWith('xl/worksheets/sheet'))
    .flatMap(([name, xml]) =>
      [...xml.matchAll(/<c ([^>]*[^/])>(?:(?!<\/c>).)*?<f([^>]*)>([^<]*)<\/f>/gs)]
        .filter(([, , , formula]) => /pinset/i.test(formula!))
        .map(([, cell, attributes, formula]) => ({
          place: `${name} ${cell!}`,
          cell: `${cell!} ${attributes!}`,
          formula: formula!,
        })),
    );

/** The 1-based numbers of cell records that say: a dynamic array. */
function dynamicRecords(parts: readonly [string, string][]): string[] {
  const metadata = parts.find(([name]) => name === 'xl/metadata.xml')?.[1] ?? '';
  const types = [...metadata.matchAll(/<metadataType name="(\w+)"/g)].map(([, name]) => name);
  const records = /<cellMetadata[^>]*>(.*?)<\/cellMetadata>/s.exec(metadata)?.[1] ?? '';
  return [...records.matchAll(/<rc t="(\d+)"/g)].flatMap(([, type], at) =>
    types[Number(type) - 1] === 'XLDAPR' ? [String(at + 1)] : [],
  );
}

function complaints(parts: readonly [string, string][]): string[] {
  const dynamic = dynamicRecords(parts);
  return callsIn(parts).flatMap(({ place, cell, formula }) => {
    const names = formula.match(/[\w.]*pinset[\w.]*/gi)!;
    const stray = names.filter((name) => !STORED.has(name));
    const record = /\bcm="(\d+)"/.exec(cell)?.[1];
    return [
      ...stray.map((name) => `${place}: ${name}`),
      ...(/\bt="array" ref="[A-Z]+\d/.test(cell) ? [] : [`${place}: no array`]),
      ...(record !== undefined && dynamic.includes(record) ? [] : [`${place}: no record of dynamic arrays`]),
    ];
  });
}

describe.each(files)('%s', (file) => {
  const path = join(FOLDER, file);

  test('stores every call of Pinset as Excel stores it', () => {
    const bytes = readFileSync(path);
    expect(callsIn(textsIn(bytes)).length).toBeGreaterThan(0);
    expect(complaints(textsIn(bytes))).toEqual([]);
  });

  test('recalculated and written, does so still, with as many calls', async () => {
    const out = join(folder, file);
    const silent = { out: () => {}, error: () => {} };
    expect(await run(['recalc', path, '--out', out], silent)).toBeLessThan(2);
    expect(complaints(textsIn(readFileSync(out)))).toEqual([]);
    expect(callsIn(textsIn(readFileSync(out)))).toHaveLength(callsIn(textsIn(readFileSync(path))).length);
  });
});

test.each([
  ['a name as it is typed', /_xldudf_PINSET_/, 'PINSET.'],
  ['a cell without its record', / cm="\d+"/, ''],
  ['a formula that is no array', / t="array" ref="[^"]*"/, ''],
  ['a record of another kind', /"XLDAPR"/, '"XLRICHVALUE"'],
])('the check notices %s', (_what, sought, instead) => {
  const parts = textsIn(readFileSync(join(FOLDER, files[0]!)));
  const changed = parts.map(([name, xml]): [string, string] => [name, xml.replace(sought, instead)]);
  expect(complaints(changed)).not.toEqual([]);
});
