import type { Words } from '../words';
import { ROSSO } from './examples';

export const words: Words = {
  summary: 'Growth rate of mycelium at a temperature, relative to its best temperature: 0 to 1.',
  notes: [
    'Uses the cardinal temperature model with inflection: 0 at and beyond min and max, 1 at best, and a slow start above min.',
    'The model describes how fast mycelium grows, not fruiting: many strains fruit only after a drop in temperature.',
    'The four temperatures may be in °C or °F as long as all are in one. Take min, best and max from your own trials or your culture’s supplier.',
    'The inside of a block is warmer than the room.',
  ],
  sources: [ROSSO],
  questions: ['too cold to grow', 'how fast does mycelium run', 'slower in winter'],
  examples: [
    {
      title: 'At 15 °C, with min 5, best 25 and max 33: (−18 × 100) / (20 × (−200 − 0))',
      arguments: [15, 5, 25, 33],
      gives: 0.45,
    },
    {
      title: 'At min, 20 °C, best and beyond max',
      arguments: [[[5], [20], [25], [40]], 5, 25, 33],
      gives: [[0], [0.8125], [1], [0]],
    },
  ],
  faults: [
    {
      arguments: [15, 5, 18, 33],
      code: '#VALUE!',
      says: 'best must be above 19, halfway between min and max; it is 18',
      remedy: 'The model’s curve leans to the warm side: best must lie above the middle of min and max.',
    },
    {
      arguments: [15, 33, 25, 5],
      code: '#VALUE!',
      says: 'max must be above 33, which is min; it is 5',
      remedy: 'Give the temperatures in the order min, best, max.',
    },
  ],
};
