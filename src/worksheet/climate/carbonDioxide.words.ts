import type { Words } from '../words';
import { BALANCE, CO2, PRODUCTION_NOTES, SPORES } from './examples';

export const words: Words = {
  summary: 'CO2 level of a well-mixed room, in ppm, after some minutes of steady production and airflow.',
  notes: [
    'Airflow and production are per hour. For a closed room write none as the airflow.',
    ...PRODUCTION_NOTES,
  ],
  cautions: [CO2, SPORES],
  sources: [BALANCE],
  questions: ['CO2 in the room', 'carbon dioxide with the fan off', 'how fast does CO2 build up'],
  examples: [
    {
      // 2,000 ppm above outside at first, n t = 10 × 6 / 60 = 1: 420 + 2,000 / e
      title: 'Airing a room of 100 m³ from 2,420 ppm with 1,000 m³/h for 6 minutes',
      arguments: ['none', 1000, 100, 6, 2420],
      gives: 420 + 2000 / Math.E,
    },
    {
      title: 'A closed room of 100 m³ with 0.1 m³ of CO2 an hour: 1,000 ppm more each hour',
      arguments: [0.1, 'none', 100, [['none'], [60], [120]]],
      gives: [[420], [1420], [2420]],
    },
  ],
  faults: [
    {
      arguments: [100, 'none', 100, 120],
      code: '#VALUE!',
      says: 'production is too high: before then the room would be pure CO2',
      remedy: 'Check that production, airflow and volume are in one unit of volume.',
    },
  ],
};
