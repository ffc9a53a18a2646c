import { unzipSync, strFromU8 } from 'fflate';
import { beforeAll, describe, expect, test } from '@jest/globals';
import { extension } from '../../../src/hosts/calc/build';
import { licenceTexts, packageFolder } from '../../../src/hosts/licences/licenceTexts';

describe('licenceTexts(files) names each package once, with the terms it came with', () => {
  test('a package is known by its files, one with a scope too; our own files are of none', () => {
    expect(packageFolder('workspace/node_modules/@borgar/fx/dist/index.js')).toBe(
      'workspace/node_modules/@borgar/fx',
    );
    expect(packageFolder('workspace/node_modules/a/node_modules/b/c/d.js')).toBe(
      'workspace/node_modules/a/node_modules/b',
    );
    expect(packageFolder('workspace/src/maths/serial.ts')).toBeUndefined();
  });

  test('two files of a package are one entry', () => {
    const text = licenceTexts([require.resolve('fflate'), require.resolve('fflate'), __filename]);
    expect(text).toMatch(/^fflate \d+\.\d+\.\d+\n\nMIT License\n\nCopyright/);
    expect(text.match(/Copyright/g)).toHaveLength(1);
  });
});

describe('the extension for Calc carries the licences of what is in it', () => {
  let texts: string;
  beforeAll(async () => {
    texts = strFromU8(unzipSync(await extension())['licences.txt']!);
  });

  // Some packages come without a file of terms and name licence and author only.
  test.each(['date-fns', 'fflate', 'highs', 'jstat', 'numfmt', 'psychrolib', 'saxes'])(
    'that of %s',
    (name) => {
      const entry = texts.split(/\n-{72}\n\n/).find((each) => each.startsWith(`${name} `));
      expect(entry).toMatch(/Copyright|copyright|Permission is hereby granted|Licence: ISC, by \S/);
    },
  );

  test('no package without terms', () => {
    expect(texts).not.toContain('Licence: none named');
  });
});
