import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';

// Codes of faults from all families meet in one list: of two sentences for one code only the last would be told.

const FOLDER = join(__dirname, '../../src/worksheet/wording');

test('no code of a fault is worded in two places', () => {
  const codes = readdirSync(FOLDER).flatMap((file) => {
    const text = readFileSync(join(FOLDER, file), 'utf8');
    return [...text.matchAll(/: Sentences<([^>]*)>/g)].flatMap(([, list]) =>
      [...list!.matchAll(/'(\w+)'/g)].map(([, code]) => code!),
    );
  });
  expect(codes.length).toBeGreaterThan(50);
  expect(codes.filter((code, at) => codes.indexOf(code) !== at)).toEqual([]);
});
