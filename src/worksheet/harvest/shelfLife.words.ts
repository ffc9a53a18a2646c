import type { Words } from '../words';

export const words: Words = {
  summary: 'Share of the shelf life a cold-chain log has used, and days left at its last temperature.',
  notes: [
    'The integral of Q10^((T − reference)/10) over the days, divided by the days of life at the reference. It is exact for ' +
      'straight lines between readings.',
    'Use your own life and Q10. Published figures: shiitake keeps 10–12 days at 4 °C and 2–3 at 25–30 °C (Q10 1.9). ' +
      'Oyster has Q10 2.8 by the heat it gives off (3.5 to 15 °C). Button has Q10 2.2 by its breathing (0 to 20 °C) and 1.5 by its keeping.',
    'A reading that is blank or 0 is refused, since the two cannot be told apart: for 0 degrees write 0.01.',
  ],
  cautions: [
    'Quality only. Food safety is another matter: a log that looks fresh enough says nothing of Listeria or of toxins ' +
      'in airtight packs. Keep to your food safety plan and local rules.',
  ],
  sources: [
    'Labuza, T. P. (1982) Shelf-Life Dating of Foods (from memory, unverified): Q10 and the fraction of life consumed',
    'Bohling, H., Hansen, H. (1989) Acta Horticulturae 258:573 (oyster); Iqbal, T. et al. (2009) (button): rates',
  ],
  questions: ['how long will they keep', 'cold chain', 'warm fridge', 'use by', 'still fresh'],
  examples: [
    {
      title: 'Two days at 10 °C, twice as fast as at 0 °C, use 4 of 10 days; 3 days are left at 10 °C',
      arguments: [[[46000], [46001], [46002]], [[10], [10], [10]], 10],
      gives: [[0.4, 3]],
    },
    {
      title: 'Warmed evenly from 10 to 20 °C in a day: mean rate (4 − 2)/ln 2',
      arguments: [[[46000], [46001]], [[10], [20]], 10],
      gives: [[0.2 / Math.LN2, (10 - 2 / Math.LN2) / 4]],
    },
  ],
  faults: [
    {
      arguments: [[[46001], [46000]], [[4], [4]], 10],
      code: '#VALUE!',
      says: 'times must rise from row to row; 2025-12-09 00:00 comes after 2025-12-10 00:00 (row 2 of the column)',
      remedy: 'Sort the log by time, or correct the reading.',
    },
    {
      arguments: [[[46000], [46001]], [[4], [null]], 10],
      code: '#VALUE!',
      says: 'temperatures must be a temperature; it is blank or 0 – for 0 degrees write 0.01 (row 2 of the column)',
      remedy: 'Fill in the readings; write 0.01 for exactly 0.',
    },
  ],
};
