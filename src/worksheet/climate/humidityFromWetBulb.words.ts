import type { Words } from '../words';
import { ASHRAE, ISO2533, MOULD, UNITS } from './examples';

export const words: Words = {
  summary: 'Relative humidity from a dry and a wet bulb thermometer in moving air.',
  notes: [
    'Move the air past the bulbs at 3 m/s or more. Below 0 °C the wet bulb counts as frozen.',
    'A blank or 0 is refused: for 0 degrees write 0.01.',
    UNITS,
  ],
  cautions: [MOULD],
  sources: [ASHRAE, ISO2533],
  questions: ['check a humidity sensor', 'psychrometer', 'two thermometers', 'humidity without a sensor'],
  examples: [
    {
      title: '24 °C dry and 20 °C wet, at sea level and at 1,500 m',
      arguments: [24, 20, [[0], [1500]]],
      gives: [[0.69580741568586], [0.71061080459431]],
    },
    { title: '75 °F dry and 68 °F wet', arguments: [75, 68, null, 'F'], gives: 0.70291999858234 },
  ],
  faults: [
    {
      arguments: [20, 24],
      code: '#VALUE!',
      says: 'wet bulb must be at most 20 °C, the dry bulb; it is 24 °C',
      remedy: 'Swap the two columns, or check the thermometers.',
    },
    {
      arguments: [40, 5],
      code: '#VALUE!',
      says: 'wet bulb is too low: at this dry bulb even perfectly dry air gives a higher reading',
      remedy: 'Check the thermometers and the unit.',
    },
  ],
};
