import type { Words } from '../words';
import { airFaults, ASHRAE, HUMIDITY_KEY, ISO2533, MOULD, UNITS } from './examples';

export const words: Words = {
  summary:
    'Humidity ratio: mass of water vapour to a mass of dry air, the figure to compare airs of two temperatures.',
  notes: ['Kilograms to a kilogram, and the same figure in pounds to a pound.', UNITS, HUMIDITY_KEY],
  cautions: [MOULD],
  sources: [ASHRAE, ISO2533],
  questions: ['water in the air', 'absolute humidity', 'compare inside and outside air'],
  examples: [
    {
      title: '16 °C at 85%, at sea level and at 1,500 m',
      arguments: [16, 0.85, [[0], [1500]]],
      gives: [[0.009634500621752], [0.01158077716015]],
    },
  ],
  faults: airFaults,
};
