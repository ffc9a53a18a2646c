import { join } from 'node:path';
import { beforeAll, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { ASKED_FOR, heardFrom, type Heard } from '../surroundings';

let heard: Heard[];
beforeAll(async () => {
  heard = await heardFrom(join(__dirname, 'everyAnswer.ts'));
}, 120_000);

test('the surroundings are those asked for', () => {
  expect(heard.map(({ surroundings }) => surroundings)).toEqual(ASKED_FOR);
});

test('every function and every calendar word is the same in every time zone and locale', () => {
  const [first, ...others] = heard as [Heard, ...Heard[]];
  expect(new Set(first.answers.map((answer) => (answer as string[])[0])).size).toBeGreaterThan(
    catalogue.length,
  );
  for (const { answers } of others) expect(answers).toEqual(first.answers);
});
