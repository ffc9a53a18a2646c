import type { Words } from '../words';
import { AIR, CORE, IF97, ISO2533, VESSEL } from './examples';

export const words: Words = {
  summary: 'Temperature of saturated, air-free steam in a vessel from what its gauge shows.',
  notes: [
    'A gauge shows pressure above the outside air, so the same reading is colder on a mountain.',
    'Ambient pressure is that of the standard atmosphere; weather moves it by up to 3%.',
    'For a gauge at 0 write none.',
  ],
  cautions: [AIR, CORE, VESSEL],
  sources: [IF97, ISO2533],
  questions: ['temperature from the pressure gauge', 'how hot at 15 psi', 'how hot is the steam'],
  examples: [
    {
      title: 'A gauge at 1 bar, at sea level and at 1,500 m',
      arguments: [
        [[1], [1]],
        [[0], [1500]],
      ],
      gives: [[120.42043278514], [117.68938178712]],
    },
    {
      title: '15 psi at sea level and at 5,000 ft, in °F',
      arguments: [[[15], [15]], [[0], [5000]], 'US'],
      gives: [[249.7183996907], [244.79819836309]],
    },
  ],
  faults: [
    {
      arguments: [15],
      code: '#VALUE!',
      says: 'gauge pressure must be from -0.9 to 10 bar; it is 15 bar',
      remedy: 'Give the units of the gauge: US for psi.',
    },
    {
      arguments: [-85, 2000, 'kPa'],
      code: '#VALUE!',
      says: 'gauge pressure is close to a full vacuum at this altitude; it is -85 kPa',
      remedy: 'Check the gauge and the altitude.',
    },
  ],
};
