import type { Words } from '../words';
import { airFaults, ASHRAE, HUMIDITY_KEY, MOULD, UNITS } from './examples';

export const words: Words = {
  summary:
    'Vapour pressure deficit in kPa: how hard the air of a room pulls water out of pins and mushrooms.',
  notes: [
    'It is taken at the temperature of the air, and in kPa with either unit. Altitude does not change it.',
    UNITS,
    HUMIDITY_KEY,
  ],
  cautions: [MOULD],
  sources: [
    ASHRAE,
    'Oke, T. R. (1987) Boundary Layer Climates, 2nd ed., equation 2.13a: saturated less actual pressure',
  ],
  questions: ['air too dry for pins', 'caps cracking', 'drying out', 'vapour pressure'],
  examples: [
    {
      title: 'Rooms of 16 °C at 85% and 18 °C at 92%',
      arguments: [
        [[16], [18]],
        [[0.85], [0.92]],
      ],
      gives: [[0.27276593362719], [0.16514333111493]],
    },
  ],
  faults: airFaults,
};
