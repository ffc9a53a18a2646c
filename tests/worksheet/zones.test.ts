import { join } from 'node:path';
import { beforeAll, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { ASKED_FOR, differences, heardFrom, type Heard } from '../surroundings';

let heard: Heard[];
beforeAll(async () => {
  heard = await heardFrom(join(__dirname, 'everyAnswer.ts'));
}, 300_000);

test('the surroundings are those asked for', () => {
  expect(heard.map(({ surroundings }) => surroundings)).toEqual(ASKED_FOR);
});

test('every function and every calendar word is the same in every time zone and locale', () => {
  const first = heard[0]!;
  expect(new Set(first.answers.map((answer) => (answer as string[])[0])).size).toBeGreaterThan(
    catalogue.length,
  );
  expect(differences(heard)).toEqual([]);
});
