import { describe, expect, test } from '@jest/globals';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { BUILT } from './site';

// The folder that the build writes can be put on any server as it is: each link in it leads to something in it.

const pages = readdirSync(BUILT).filter((name) => name.endsWith('.html'));
const textOf = (page: string): string => readFileSync(path.join(BUILT, page), 'utf8');
const idsOf = (page: string): Set<string> =>
  new Set([...textOf(page).matchAll(/\bid="([^"]+)"/g)].map(([, id]) => id!));

test('the pages that a store asks for and those of the jobs are there', () => {
  expect(pages).toEqual(
    expect.arrayContaining([
      ...['ready.html', 'plan.html', 'audit.html', 'mix.html'],
      'errors.html',
      'guide.html',
      'privacy.html',
      'review.html',
      'support.html',
      'terms.html',
    ]),
  );
});

describe.each(pages)('%s', (page) => {
  test('links to files and places that are there', () => {
    const links = [...textOf(page).matchAll(/\b(?:href|src)="([^"]+)"/g)].map(([, link]) => link!);
    const dead = links.filter((link) => {
      if (/^(https:|mailto:|data:)/.test(link) || link.startsWith('office/')) return false;
      const [file = '', place] = link.split('#');
      const target = file === '' ? page : file;
      if (!existsSync(path.join(BUILT, target))) return true;
      return place !== undefined && place !== '' && !idsOf(target).has(decodeURIComponent(place));
    });
    expect(dead).toEqual([]);
  });
});

test('the manifest and the functions’ help links lead to files of the build', () => {
  const manifest = textOf('manifest.xml');
  const helped = (JSON.parse(textOf('functions.json')) as { functions: { helpUrl: string }[] }).functions;
  const addresses = [
    ...[...manifest.matchAll(/DefaultValue="(https:[^"]*)"/g)].map(([, address]) => address!),
    ...helped.map(({ helpUrl }) => helpUrl),
  ];
  expect(addresses.length).toBeGreaterThan(60);
  const dead = addresses.filter((address) => {
    const { pathname, hash } = new URL(address);
    const file = pathname.slice(1);
    return (
      !existsSync(path.join(BUILT, file)) ||
      (hash !== '' && !idsOf(file).has(decodeURIComponent(hash.slice(1))))
    );
  });
  expect(dead).toEqual([]);
});
