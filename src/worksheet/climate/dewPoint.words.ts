import type { Words } from '../words';
import { airFaults, ASHRAE, HUMIDITY_KEY, MOULD, UNITS } from './examples';

export const words: Words = {
  summary: 'Dew point: the temperature at which walls, packs and mushrooms begin to drip.',
  notes: ['Below 0 °C it is the frost point. Altitude does not change it.', UNITS, HUMIDITY_KEY],
  cautions: [MOULD],
  sources: [ASHRAE],
  questions: ['condensation', 'dripping walls', 'wet ceiling', 'will it sweat'],
  examples: [
    {
      title: 'Rooms of 16 °C at 85% and 18 °C at 92%',
      arguments: [
        [[16], [18]],
        [[0.85], [0.92]],
      ],
      gives: [[13.481703170104], [16.681413283073]],
    },
    { title: '64 °F at 90%, in °F', arguments: [64, 0.9, null, 'F'], gives: 61.010106656557 },
  ],
  faults: [
    ...airFaults,
    {
      arguments: [20, 1e-9],
      code: '#VALUE!',
      says: 'humidity is too low: the dew point would be below -100 °C',
      remedy: 'Check the humidity sensor.',
    },
  ],
};
