import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';

interface Locked {
  readonly integrity?: string;
  readonly resolved?: string;
  readonly engines?: { readonly node?: string };
}

const textOf = (file: string): string => readFileSync(join(__dirname, '../..', file), 'utf8');
const { packages } = JSON.parse(textOf('package-lock.json')) as {
  readonly packages: Readonly<Record<string, Locked>>;
};
const locked = Object.entries(packages).filter(([path]) => path !== '');
const namesOf = (some: typeof locked): string[] => some.map(([path]) => path.split('node_modules/').at(-1)!);

// What npm installs is what was locked: it compares each package with its hash. An address of one machine's registry
// would fail on another's.
test('the lock file has a hash and no address for every package', () => {
  expect(locked.length).toBeGreaterThan(300);
  const wrong = locked.filter(
    ([, { integrity, resolved }]) => resolved !== undefined || !/^sha512-[\w+/]{86}==$/.test(integrity ?? ''),
  );
  expect(namesOf(wrong)).toEqual([]);
});

test('no package comes in by the back door: what an older one drags in stays out, and the list stays short', () => {
  // One old unzipping package of the tests' other reader asked for 90 others, the grid's compiler for 48 MB.
  const names = namesOf(locked);
  expect(names).toContain('exceljs');
  expect(names.filter((name) => ['es-abstract', 'traverse', 'binary'].includes(name))).toEqual([]);
  const compilers = names.filter((name) => /^@swc\/core/.test(name));
  expect(compilers).toEqual([...new Set(compilers)]);
  expect(locked.length).toBeLessThanOrEqual(760);
});

/** The least version that a range begins with, of its alternatives: 20.19 for `^20.19.0 || >=22`. */
const leastOf = (range: string): number =>
  Math.min(
    ...range.split('||').map((part) => {
      const [, major, minor = '0'] = /(\d+)(?:\.(\d+))?/.exec(part) ?? [undefined, '0'];
      return Number(major) + Number(minor) / 1000;
    }),
  );

test('README, package.json and the message in LibreOffice name one least Node, and what asks for more runs in the browser', () => {
  const { engines } = JSON.parse(textOf('package.json')) as { readonly engines: { readonly node: string } };
  const least = engines.node.replace('>=', '');
  expect(textOf('README.md')).toContain(
    `You need [Node.js](https://nodejs.org) ${least} or later; take 22 or later where you can, since 20 is no longer maintained.`,
  );
  expect(textOf('src/hosts/calc/pinset.py')).toContain(`Pinset needs Node.js ${least} or later`);
  expect(leastOf(engines.node)).toBe(20.019);
  // tests/hosts/headless/withoutGrid.test.ts holds that nothing of these two is loaded outside a browser.
  const newer = locked.filter(
    ([, { engines: wants }]) => leastOf(wants?.node ?? '*') > leastOf(engines.node),
  );
  expect(namesOf(newer)).toEqual(['@fluentui/web-components', '@odoo/o-spreadsheet']);
});
