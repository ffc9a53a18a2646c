import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';

interface Locked {
  readonly integrity?: string;
  readonly resolved?: string;
  readonly link?: boolean;
}

// What npm installs is what was locked: it compares each package with its hash. An address of one machine's registry
// would fail on another's.
test('the lock file has a hash and no address for every package', () => {
  const { packages } = JSON.parse(readFileSync(join(__dirname, '../../package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, Locked>>;
  };
  const locked = Object.entries(packages).filter(([path]) => path !== '');
  expect(locked.length).toBeGreaterThan(300);
  const wrong = locked.filter(
    ([, { integrity, resolved }]) => resolved !== undefined || !/^sha512-[\w+/]{86}==$/.test(integrity ?? ''),
  );
  expect(wrong.map(([path]) => path)).toEqual([]);
});
