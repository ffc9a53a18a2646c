import type { Words } from '../words';
import { IF97, ISO2533, VESSEL } from './examples';

export const words: Words = {
  summary: 'Temperature at which water boils in an open vessel at an altitude.',
  notes: [
    'It is the hottest that an unpressurised steamer gets.',
    'Ambient pressure is that of the standard atmosphere; weather moves the boiling point by about 1 °C.',
    'A blank reads as sea level.',
  ],
  cautions: [
    'Steaming without pressure never reaches the temperatures that kill heat-resistant spores quickly.',
    VESSEL,
  ],
  sources: [IF97, ISO2533],
  questions: ['boiling in the mountains', 'steaming without pressure', 'barrel steamer'],
  examples: [
    {
      title: 'Sea level and 1,500 m',
      arguments: [[[0], [1500]]],
      gives: [[99.97430000048], [94.982993363586]],
    },
    {
      title: '5,000 ft, in °F',
      arguments: [5000, 'US'],
      gives: 202.82537095407,
    },
  ],
  faults: [
    {
      arguments: [30000],
      code: '#VALUE!',
      says: 'altitude must be from -500 to 11000 m; it is 30000 m',
      remedy: 'Give US as the units where the altitude is in feet.',
    },
  ],
};
