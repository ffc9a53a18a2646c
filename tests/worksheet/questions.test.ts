import { describe, expect, test } from '@jest/globals';
import { described } from '../../src/worksheet/described';

describe.each(described.map(({ name, questions }) => [name, questions] as const))(
  'the questions of %s',
  (_name, questions) => {
    test('are one to five short phrases', () => {
      expect(questions.length).toBeGreaterThanOrEqual(1);
      expect(questions.length).toBeLessThanOrEqual(5);
      for (const question of questions) expect(question).toMatch(/^.{2,50}$/);
    });
  },
);

test('no question is asked of two functions', () => {
  const all = described.flatMap(({ questions }) => questions);
  expect(new Set(all).size).toBe(all.length);
});
