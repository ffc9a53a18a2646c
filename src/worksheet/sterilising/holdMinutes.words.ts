import type { Words } from '../words';
import { BIGELOW, CONVENTIONS, CORE, NO_PROOF, VESSEL } from './examples';

export const words: Words = {
  summary: 'Minutes to hold a core at a steady temperature for a wanted number of equivalent minutes.',
  notes: [
    'Heating and cooling are not counted.',
    CONVENTIONS,
    'There is no published target for mushroom substrate: yours comes from your own contamination records.',
  ],
  cautions: [CORE, NO_PROOF, VESSEL],
  sources: [BIGELOW],
  questions: ['how long to sterilise', 'how long to pasteurise', 'cooking time', 'minutes at temperature'],
  examples: [
    {
      title: 'What 1.5 minutes at 121 °C take at 111 °C',
      arguments: [1.5, 111, 10, 121],
      gives: 15,
    },
    {
      title: '15 minutes at 250 °F take ten times as long at 232 °F',
      arguments: [15, [[250], [232]], 18, 250, 'F'],
      gives: [[15], [150]],
    },
  ],
  faults: [
    {
      arguments: [15, 250],
      code: '#VALUE!',
      says: 'temperature must be from 50 to 160 °C; it is 250 °C',
      remedy: 'Give F as the unit where temperatures are in °F.',
    },
    {
      arguments: [15, 250, 100, 250, 'F'],
      code: '#VALUE!',
      says: 'z must be from 3.6 to 90 °F; it is 100 °F',
      remedy: 'Give z as a number of degrees: 10 °C or 18 °F is usual for spores.',
    },
  ],
};
