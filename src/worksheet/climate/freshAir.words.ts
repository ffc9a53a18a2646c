import type { Words } from '../words';
import { BALANCE, CO2, PRODUCTION_NOTES, SPORES } from './examples';

export const words: Words = {
  summary: 'Airflow of outside air that holds a room at a CO2 limit.',
  notes: ['It holds at steady production.', ...PRODUCTION_NOTES],
  cautions: [CO2, SPORES],
  sources: [BALANCE],
  questions: [
    'how much fresh air',
    'long stems',
    'how big a fan keeps CO2 down',
    'air exchange',
    'ventilation',
  ],
  examples: [
    {
      title: '0.29 m³ of CO2 an hour, to be held at 1,000 ppm: 0.29 / 0.00058',
      arguments: [0.29, 1000],
      gives: 500,
    },
  ],
  faults: [
    {
      arguments: [0.29, 400],
      code: '#VALUE!',
      says: 'limit must be above 420 ppm, the level outside; it is 400',
      remedy: 'Outside air cannot bring a room below its own level.',
    },
  ],
};
