import { describe, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { QUESTIONS } from '../../src/worksheet/questions';

test('every function, and nothing else, has questions that lead to it', () => {
  expect(Object.keys(QUESTIONS).sort()).toEqual(catalogue.map(({ name }) => name).sort());
});

describe.each(Object.entries(QUESTIONS))('the questions of %s', (_name, questions) => {
  test('are one to five short phrases', () => {
    expect(questions.length).toBeGreaterThanOrEqual(1);
    expect(questions.length).toBeLessThanOrEqual(5);
    for (const question of questions) expect(question).toMatch(/^.{2,50}$/);
  });
});

test('no question is asked of two functions', () => {
  const all = Object.values(QUESTIONS).flat();
  expect(new Set(all).size).toBe(all.length);
});
