import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from '@jest/globals';
import {
  COPIED,
  isUnchanged,
  licenceBeside,
  objections,
  ofTheCommand,
  copied,
  type Shipped,
} from '../licences/shipped';
import { BUILT, builtFile, IN_BUNDLES } from './site';

const bundled = JSON.parse(readFileSync(IN_BUNDLES, 'utf8')) as Shipped[];
const namesIn = (where: string): string[] =>
  bundled
    .filter((one) => one.where === where)
    .map(({ name }) => name)
    .sort();

test('what Excel loads holds these packages of others and nothing of the workbench', () => {
  expect(namesIn('functions.js')).toEqual(['@date-fns/utc', 'date-fns', 'fastest-levenshtein', 'psychrolib']);
  const pane = namesIn(builtFile('pane', 'js'));
  expect(pane).toContain('minisearch');
  expect(pane.filter((name) => /^@odoo\/|^saxes$|^fflate$|^highs$/.test(name))).toEqual([]);
});

test('licences.txt lies beside the scripts, with the terms of every package in them', () => {
  const texts = readFileSync(path.join(BUILT, 'licences.txt'), 'utf8').split(/\n-{72}\n\n/);
  const heads = texts.map((text) => text.split('\n')[0]!);
  expect(heads[0]).toBe('Pinset');
  const packages = new Set(bundled.map(({ name, version }) => `${name} ${version}`));
  expect(packages.size).toBeGreaterThan(8);
  expect(heads).toEqual(expect.arrayContaining([...packages]));
  for (const text of texts)
    expect(text).toMatch(/Copyright|copyright|Permission is hereby granted|Licence: [A-Z0-9.-]+, by \S/);
});

test('no bundle holds the spreadsheet engine or anything under a GPL', () => {
  expect(bundled.length).toBeGreaterThan(8);
  expect(bundled.filter(({ name }) => name.startsWith('@odoo/'))).toEqual([]);
  expect(objections(bundled)).toEqual([]);
});

test.each(COPIED.map((file) => [file[0], file] as const))(
  '%s is as its makers published it, its licence beside it',
  (where, file) => {
    expect(isUnchanged(BUILT, file)).toBe(true);
    expect(licenceBeside(BUILT, where)).toBe(true);
  },
);

test('nothing that the pages copy or the command loads is under a GPL', () => {
  expect(ofTheCommand().map(({ name }) => name)).toEqual(
    expect.arrayContaining(['highs', 'saxes', '@odoo/o-spreadsheet']),
  );
  expect(objections([...copied(), ...ofTheCommand()])).toEqual([]);
});

describe('the check objects to', () => {
  const one = (licence: string, asItsOwnFile = true): Shipped => ({
    name: 'x',
    version: '1.0.0',
    licence,
    where: 'x.js',
    asItsOwnFile,
  });
  test.each([
    one('GPL-3.0-only'),
    one('AGPL-3.0-or-later'),
    one('MIT AND GPL-2.0-only'),
    one('LGPL-3.0-or-later', false),
    one('none named'),
    one('SEE LICENSE IN LICENSE.txt'),
  ])('$licence, as its own file: $asItsOwnFile', (shipped) => {
    expect(objections([shipped])).toHaveLength(1);
  });
  test.each([one('(OFL-1.1 AND MIT)', false), one('GPL-2.0-only OR MIT', false), one('LGPL-3.0-or-later')])(
    'and not to $licence',
    (shipped) => {
      expect(objections([shipped])).toEqual([]);
    },
  );
});
