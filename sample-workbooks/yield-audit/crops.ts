import { chart, formula, heading, inputs, spilled, type Sheet } from '../../src/hosts/xlsx/describe';
import { correctedEnd, lotCount, lotsOf, strains } from './records';

const FIRST = 5;
const LAST = FIRST - 1 + lotCount;
const withFlushes = `Corrected!$A$5:$D$${correctedEnd}`;
const crop = (letter: string, from = FIRST, to = LAST): string => `Crops!$${letter}$${from}:$${letter}$${to}`;
/** A column of Crops for one strain: the lots are kept by strain. */
const ALDER_LAST = FIRST - 1 + lotsOf('Alder-3');
const BIRCH_LAST = ALDER_LAST + lotsOf('Birch-1');
export const ofAlder = (letter: string): string => crop(letter, FIRST, ALDER_LAST);
const ofBirch = (letter: string): string => crop(letter, ALDER_LAST + 1, BIRCH_LAST);

/** The whole table of Crops. */
export const cropTable = `Crops!$A$${FIRST - 1}:$K$${LAST}`;

const KEYS = `Y${FIRST}:Y${LAST}`;
/** A column of Crops in the order of the keys, the highest first. Both programs look a list of values up by VLOOKUP. */
const inOrder = (place: number): string =>
  `=VLOOKUP(LARGE(${KEYS}, ROW(${KEYS})-${FIRST - 1}), Y${FIRST}:AA${LAST}, ${place}, FALSE)`;

export const crops: Sheet = {
  name: 'Crops',
  title: 'Crops: what each lot gave',
  notes: ['From the corrected picks; and what a shelf brought in a day.'],
  things: [
    formula(
      'A4',
      `=PINSET.CROPTABLE(${withFlushes}, Lots[#All])`,
      ['text', 'text', 'count', 'mass', 'mass', 'mass', 'mass', 'mass', 'percent', 'count', 'percent'],
      { headed: true, growth: 10 },
    ),
    formula(
      `L${FIRST}`,
      `=PINSET.SHELFDAYYIELD(${crop('G')}, ${crop('C')}, PerShelf, ${crop('J')})`,
      'mass',
      { headers: ['kg per shelf and day'], growth: 10 },
    ),
    chart('N5:U21', 'column', 'Efficiency by lot, the best of each strain first', {
      says: 'Efficiency of every lot, a column a lot: strain by strain, and within a strain from the best lot to the worst.',
      across: spilled(`AC${FIRST}`),
      series: [{ title: 'Efficiency', values: spilled(`AD${FIRST}`) }],
      upReads: 'percent',
    }),
    inputs('N23', { label: 'Blocks per shelf', value: 20, reads: 'count', name: 'PerShelf' }),

    heading('Y3', 'For the chart: lots in order of strain, then of efficiency'),
    formula(
      `Y${FIRST}`,
      `=IF(ISNUMBER(${crop('I')}), ${crop('I')}, 0) - 100*COUNTIF(${crop('B')}, "<"&${crop('B')}) - ROW(${crop('I')})/1000000`,
      { code: '0.00' },
      { headers: ['Key'], spills: true },
    ),
    formula(`Z${FIRST}`, `=${crop('A')}`, 'text', { headers: ['Lot'], spills: true }),
    formula(`AA${FIRST}`, `=${crop('I')}`, 'percent', { headers: ['Efficiency'], spills: true }),
    formula(`AC${FIRST}`, inOrder(2), 'text', { headers: ['Lot'], spills: true }),
    formula(`AD${FIRST}`, inOrder(3), 'percent', { headers: ['Efficiency'], spills: true }),
  ],
  freeze: 'A5',
  prints: 'A:L',
};

const strainRows = (letter: string): string => `${letter}${FIRST}:${letter}${FIRST - 1 + strains.length}`;

export const compared: Sheet = {
  name: 'Compared',
  title: 'Strains compared',
  notes: ['What the corrected records say of each strain: means with their 95% intervals.'],
  things: [
    formula(
      'A4',
      `=PINSET.STRAINTABLE(${withFlushes}, Lots[#All])`,
      [
        'text',
        'count',
        'count',
        'percent',
        'percent',
        'percent',
        'number',
        'number',
        'number',
        'count',
        'percent',
        'percent',
        'percent',
        'text',
      ],
      { headed: true, growth: 6 },
    ),
    chart('R5:Y21', 'dots', 'Mean efficiency and its 95% interval', {
      says: 'Mean efficiency of each strain as a dot, its 95% interval as whiskers.',
      across: spilled('A4', 1),
      series: [{ title: 'Mean', values: spilled('A4', 4) }],
      whiskers: { down: spilled('AA5'), up: spilled('AB5') },
      upReads: 'percent',
    }),
    heading('AA3', 'For the chart'),
    formula('AA5', `=${strainRows('D')}-${strainRows('E')}`, 'percent', {
      headers: ['Mean less from'],
      spills: true,
    }),
    formula('AB5', `=${strainRows('F')}-${strainRows('D')}`, 'percent', {
      headers: ['To less mean'],
      spills: true,
    }),
  ],
  freeze: 'A5',
  prints: 'A:P',
};

export const differences: Sheet = {
  name: 'Differences',
  title: 'Do the strains differ?',
  notes: [
    'Which strains truly differ in efficiency, with one value a lot: the columns strain and efficiency of Crops.',
  ],
  things: [
    formula(
      'A4',
      `=PINSET.COMPARE(${crop('B')}, ${crop('I')})`,
      ['text', 'count', 'percent', 'percent', 'percent', 'number', 'number', { code: '0.0000' }, 'text'],
      { headed: true, growth: 3 },
    ),
  ],
};

export const nextLot: Sheet = {
  name: 'Next lot',
  title: 'The next lot, 9 times out of 10',
  notes: ['Between which efficiencies the next lot of a strain will lie, from its lots in Crops.'],
  things: [
    heading('A4', 'Alder-3'),
    formula('A6', `=PINSET.YIELDRANGE(${ofAlder('I')})`, ['percent', 'percent', 'percent', 'count'], {
      headers: ['From', 'Mean', 'To', 'Lots'],
    }),
    heading('A8', 'Birch-1'),
    formula('A10', `=PINSET.YIELDRANGE(${ofBirch('I')})`, ['percent', 'percent', 'percent', 'count'], {
      headers: ['From', 'Mean', 'To', 'Lots'],
    }),
  ],
};
