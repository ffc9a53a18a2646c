import type { Words } from '../words';
import { airFaults, ASHRAE, HUMIDITY_KEY, ISO2533, MOULD, UNITS } from './examples';

export const words: Words = {
  summary: 'Wet bulb: the temperature that evaporation brings a wetted surface in moving air down to.',
  notes: [
    'It is the lowest temperature that evaporative cooling can reach.',
    'Below 0 °C the bulb counts as frozen. Where the wet bulb passes 0 °C the published equations jump by up to 0.9 °C.',
    UNITS,
    HUMIDITY_KEY,
  ],
  cautions: [MOULD],
  sources: [ASHRAE, ISO2533],
  questions: ['evaporative cooling', 'how far can a swamp cooler cool'],
  examples: [
    {
      title: '16 °C at 85%, at sea level and at 1,500 m',
      arguments: [16, 0.85, [[0], [1500]]],
      gives: [[14.457095039735], [14.351556688721]],
    },
  ],
  faults: airFaults,
};
