import type { Words } from '../words';
import { AIR, CORE, IF97, ISO2533, VESSEL } from './examples';

export const words: Words = {
  summary: 'What the gauge of a vessel of saturated, air-free steam shows at a temperature.',
  notes: [
    'It is below 0 where water boils hotter than that at this altitude.',
    'Ambient pressure is that of the standard atmosphere.',
  ],
  cautions: [AIR, CORE, VESSEL],
  sources: [IF97, ISO2533],
  questions: ['what should the gauge show', 'pressure for 121 degrees', 'gauge at altitude'],
  examples: [
    {
      title: '121.1 °C at sea level and at 1,500 m, in bar',
      arguments: [
        [[121.1], [121.1]],
        [[0], [1500]],
      ],
      gives: [[1.0436027531377], [1.211292847902]],
    },
    {
      title: '250 °F at sea level, in psi',
      arguments: [250, null, 'US'],
      gives: 15.14661034573,
    },
  ],
  faults: [
    {
      arguments: [250],
      code: '#VALUE!',
      says: 'temperature must be from 10 to 185 °C; it is 250 °C',
      remedy: 'Give US as the units where temperatures are in °F.',
    },
  ],
};
