import type { Words } from '../words';

export const words: Words = {
  summary: 'Numbers from text such as 10 lb, 24,1, 63% or 1 lb 4 oz, in the unit you state. Numbers stay.',
  notes: [
    'A figure without a unit is in the stated unit. A written unit of the same measure is converted, such as kg to lb; one of another measure is refused.',
    'share and percent both give a share: 63% is 0.63. With share a bare figure up to 1 is a share, and one above 1 is refused.',
    'With percent a bare figure above 1 is a percentage. One up to 1 may be a share already, or a percentage below 1: the rest of the column says which. 0.61 among 62 and 63% is 61%, 0.5 among 2 and 3 is 0.5%. Where the rest does not say it, the row is refused.',
    'One mark with three digits behind it, 1,250 or 1.250, is refused until you state the decimal mark. 24,1 and 1,250.5 can be read in one way only.',
    'With number, the words blocks, bags, pieces and the like may follow, and a currency sign may come first or last. 10# is 10 lb.',
    'A figure that is not one figure is refused, never rounded off: ~10 kg, 10+, 10–12, 10 lb/bag. Write the one that counts, or state which of a range does: from, to or middle.',
    'With days, 2 weeks is 14 and 10 d is 10.',
    'none and free stay as they are: other functions read them as 0. Blank rows stay blank.',
  ],
  sources: [
    'International yard and pound agreement (1959): 1 lb = 0.45359237 kg',
    'NIST Handbook 44, appendix C: 16 oz = 1 lb, 2,000 lb = 1 short ton',
  ],
  questions: [
    'numbers are text',
    'convert text to numbers',
    'weights with lb or kg in the cell',
    'pounds and ounces to pounds',
    'moisture typed as 62',
  ],
  examples: [
    {
      title: 'Pounds: 1 kg is 1 ÷ 0.45359237 lb, 4 oz are a quarter of a pound',
      arguments: [[['10 lb'], [9.5], ['1 lb 4 oz'], ['1 kg'], [null]], 'lb'],
      gives: [[10], [9.5], [1.25], [1 / 0.45359237], ['']],
    },
    {
      title: 'Moistures in every way they are typed',
      arguments: [[['63%'], [62], [0.61]], 'percent'],
      gives: [[0.63], [0.62], [0.61]],
    },
    {
      title: 'Days, of a range the first: a week has 7 days',
      arguments: [[['70–80 days'], ['2 weeks'], ['14 d'], [21]], 'days', null, 'from'],
      gives: [[70], [14], [14], [21]],
    },
    { title: 'The decimal mark stated', arguments: ['1,250', 'g', 'point'], gives: 1250 },
    { title: 'A decimal comma that says itself', arguments: ['24,1', 'kg'], gives: 24.1 },
  ],
  faults: [
    {
      arguments: ['1,250', 'kg'],
      code: '#VALUE!',
      says: 'figures: "1,250" may be 1.25 or 1250: state the decimal mark, point or comma',
      remedy: 'Give point or comma as the decimal mark.',
    },
    {
      arguments: ['24,1', 'kg', 'point'],
      code: '#VALUE!',
      says: 'figures: "24,1" is no number with a decimal point',
      remedy: 'State the mark that the column is written with, or correct the row.',
    },
    {
      arguments: ['63%', 'lb'],
      code: '#VALUE!',
      says: 'figures must be lb; it is "63%"',
      remedy: 'Look whether the figure is in the right column.',
    },
    {
      arguments: [62, 'share'],
      code: '#VALUE!',
      says: 'figures must be a share; it is "62" – for 62% write 62%, or state the unit percent',
      remedy: 'State the unit percent if the column holds percentages without their sign.',
    },
    {
      arguments: [[[0.5], [0.8]], 'percent'],
      code: '#VALUE!',
      says: 'figures: "0.5" may be 50% or 0.5%, and no other row says which: write it with its % sign, or state the unit share (row 1 of the column)',
      remedy: 'State the unit share if the column holds shares; otherwise write the % sign.',
    },
    {
      arguments: [120, 'percent'],
      code: '#VALUE!',
      says: 'figures must be from 0% to 100%; it is "120"',
      remedy: 'Correct the figure.',
    },
    {
      arguments: ['about 10', 'kg'],
      code: '#VALUE!',
      says: 'figures must be one number, with a unit if you like; it is "about 10"',
      remedy: 'Write the figure alone, and a remark in a column of its own.',
    },
  ],
};
