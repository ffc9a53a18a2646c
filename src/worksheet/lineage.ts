import { lotCode } from '../maths/lineage/lotCode';
import { lotParts } from '../maths/lineage/lotParts';
import { spawnChain } from '../maths/lineage/spawnChain';
import { ancestors, descendants, type LotParents, type Relative } from '../maths/lineage/spawnFamily';
import { column, keyColumn, optionalColumn, optionalSetting, setting, table } from './cells/arguments';
import { Formatted } from './cells/cell';
import { choice, count, fractionBelowOne, mass, number, orBlank, serial, text } from './cells/kinds';
import { key, optional } from './cells/table';
import { defineFunction, resultColumn, tableResult, value, type Answer } from './define';

const CHECK_CHARACTER =
  'ISO/IEC 7064:2003, Information technology – Security techniques – Check character systems, MOD 37,36';

const familyArguments = (lotMeaning: string) =>
  [
    setting('lot', text('lot'), lotMeaning),
    keyColumn('lots', text('lot'), 'every lot: spawn, jars, bags, blocks; a lot may stand in several rows'),
    column(
      'parents',
      orBlank(text('lot')),
      'the lot each was made from; several with commas between; blank where bought in or not known',
    ),
  ] as const;

const familyResult = tableResult(
  resultColumn('lot'),
  resultColumn('steps'),
  resultColumn('path'),
  resultColumn('note'),
);

const exampleLots = [['M-1'], ['G-1'], ['G-2'], ['S-1'], ['S-2'], ['B-1'], ['B-2'], ['B-3']];
const exampleParents = [[null], ['M-1'], ['M-1'], ['G-1'], ['G-2'], ['S-1'], ['S-1, S-2'], ['X-9']];
const FAMILY_HEADER = ['lot', 'steps', 'path', 'note'];

const familyNotes =
  'Nearest first: the lot, how many steps away, and the shortest way to it. A lot made from several has them all in one ' +
  'cell with commas between, or stands in several rows. The note says where a parent is named that has no row of its ' +
  'own. Case and outer spaces of labels do not count. Only the table’s header comes back where there is none. A way of ' +
  'more than twelve lots is shortened in its middle.';

const familyFaults = [
  {
    arguments: ['B-9', exampleLots, exampleParents],
    code: '#N/A' as const,
    says: 'lot: "B-9" is not in lots',
    remedy: 'Mend the label, or add the lot to the list.',
  },
  {
    arguments: ['B-2', [['G-1'], ['S-1'], ['B-2']], [['B-2'], ['G-1'], ['S-1']]],
    code: '#VALUE!' as const,
    says: 'parents: a lot cannot be its own ancestor: B-2 → G-1 → S-1 → B-2 (row 3)',
    remedy: 'One of the lots in the loop has a wrong parent: mend it.',
  },
];

const SEPARATORS = /[,;]/;

/** Several parents of a row stand in one cell. */
function splitParents(cell: string | null): string[] {
  if (cell === null) return [];
  if (!SEPARATORS.test(cell)) return [cell];
  return cell
    .split(SEPARATORS)
    .map((parent) => parent.trim())
    .filter((parent) => parent !== '');
}

const recordsOf = (lots: readonly string[], parents: readonly (string | null)[]): LotParents[] =>
  lots.map((lot, i) => ({ lot, parents: splitParents(parents[i]!) }));

const shownRelative = ({ lot, steps, path, isRecorded, unknownParents }: Relative): Answer[] => {
  const unknown = unknownParents.map((parent) => `parent ${parent} is not in lots`);
  return [lot, steps, path.join(' → '), isRecorded ? unknown.join('; ') : 'not in lots'];
};

const exampleSteps = [
  ['step', 'makes', 'days', 'loss', 'mass', 'batch', 'max generation'],
  ['mother culture', 8, 10, 0.1, null, null, null],
  ['grain jar', 10, 14, 0.05, 1.2, 6, null],
  ['sawdust bag', 10, 21, 0.02, 2.5, null, null],
  ['block', null, 77, 0.04, 2.5, 12, 3],
];

const CHAIN_HEADER = ['step', 'generation', 'start', 'good', 'start on', 'ready by', 'mass', 'note'];

export const lineage = [
  defineFunction({
    name: 'LOTCODE',
    family: 'lineage',
    needsDateSystem: true,
    summary:
      'A lot label with a check character that gives a mistyped label away: SHI-ALDER3-G2-260302-01-7.',
    notes:
      'The pattern is Pinset’s own: first three letters of the species, letters and digits of the strain, G and the ' +
      'generation, year, month and day, the serial of the day, and a check character (ISO/IEC 7064 MOD 37,36) over all of ' +
      'it. Hyphens are for the eye and not part of the check. Every single mistyped character is caught, and every swap ' +
      'of two neighbours but about one in six hundred. With a strain of up to six letters and digits the label without ' +
      'its hyphens has at most 20 characters and fits a GS1 batch or lot number. What the law asks of a lot label is ' +
      'for your own food-safety authority to say.',
    arguments: [
      column('species', text('species'), 'species in words, three letters A to Z or more'),
      column('strain', text('strain'), 'strain, 1 to 12 letters and digits; spaces and hyphens are left out'),
      column(
        'generation',
        number({ word: 'generation', from: 0, to: 9, whole: true }),
        'generation from the mother culture, 0 to 9',
      ),
      keyColumn('made', serial(), 'day the lot was made'),
      optionalColumn(
        'serial',
        number({ word: 'serial', from: 1, to: 99, whole: true }),
        1,
        'which of the day’s lots of this kind, 1 to 99; 1 if left out',
      ),
    ],
    result: value('lot label'),
    sources: [
      CHECK_CHARACTER,
      'GS1 General Specifications: batch or lot number (AI 10), at most 20 characters',
    ],
    examples: [
      {
        // Carries by hand: 36, 19, 35, 34, 10, 15, 34, 35, 10, 20, 9, 18, 3, 6, 14; 37 − 14 = 23 is N.
        title: 'Strain 7 of shiitake, second generation, made on 2 March 2026',
        arguments: ['Shiitake', 7, 2, 46083],
        gives: 'SHI-7-G2-260302-01-N',
      },
      {
        title: 'Two lots of a day, and a row not made yet',
        arguments: ['Shiitake', 'Alder-3', 2, [[46083], [46083], [null]], [[1], [2], [null]]],
        gives: [['SHI-ALDER3-G2-260302-01-7'], ['SHI-ALDER3-G2-260302-02-5'], ['']],
      },
    ],
    faults: [
      {
        arguments: ['LE', 'Alder-3', 2, 46083],
        code: '#VALUE!',
        says: 'species: three letters or more needed, got "LE"',
        remedy: 'Write the species in words.',
      },
      {
        arguments: ['Shiitake', 'Alder-3 from the north', 2, 46083],
        code: '#VALUE!',
        says: 'strain: 1 to 12 letters and digits needed, got "Alder-3 from the north"',
        remedy: 'Give the strain a short name.',
      },
      {
        arguments: ['Shiitake', 'Alder-3', 12, 46083],
        code: '#VALUE!',
        says: 'generation: a whole number from 0 to 9 needed, got 12',
        remedy: 'Count generations from the mother culture, which is 0.',
      },
    ],
    eachRow: (species, strain, generation, madeSerial, ofTheDay, { dateSystem }) =>
      lotCode({ species, strain, generation, madeSerial, serial: ofTheDay }, dateSystem),
  }),

  defineFunction({
    name: 'LOTPART',
    family: 'lineage',
    needsDateSystem: true,
    summary: 'One part of a lot label made by LOTCODE; a mistyped label is caught by its check character.',
    notes:
      'Case, spaces and hyphens do not count. Where one look-alike put right (O for 0, I for 1, …) would make the check ' +
      'fit, the fault says which; it is not put right unasked. The part label gives the label as it should be written.',
    arguments: [
      keyColumn('code', text('lot label'), 'label as LOTCODE makes it'),
      setting(
        'part',
        choice(['species', 'strain', 'generation', 'made', 'serial', 'label']),
        'species, strain, generation, made, serial or label',
      ),
    ],
    result: value('part of the label'),
    sources: [CHECK_CHARACTER],
    examples: [
      { title: 'The day made', arguments: ['SHI-7-G2-260302-01-N', 'made'], gives: 46083 },
      {
        title: 'The strain, in whatever way the label was typed',
        arguments: [[['shi-7-g2-260302-01-n'], ['SHI 7 G2 260302 01 N'], ['']], 'strain'],
        gives: [['7'], ['7'], ['']],
      },
    ],
    faults: [
      {
        arguments: ['SHI-7-G2-26O302-01-N', 'made'],
        code: '#VALUE!',
        says: 'it fits if character 9, not counting hyphens, is the digit 0, not the letter O',
        remedy: 'Compare the label with the bag and type it again.',
      },
      {
        arguments: ['SHI-7-G2-260320-01-N', 'made'],
        code: '#VALUE!',
        says: 'code: the check character at the end does not fit, so a character is mistyped in "SHI-7-G2-260320-01-N"',
        remedy: 'Compare the label with the bag and type it again.',
      },
      {
        arguments: ['Block 12', 'made'],
        code: '#VALUE!',
        says: 'code: a label such as SHI-ALDER3-G2-260302-01-7 needed, got "Block 12"',
        remedy: 'Only labels made by LOTCODE can be taken apart.',
      },
    ],
    eachRow: (code, part, { dateSystem }) => {
      const parts = lotParts(code, dateSystem);
      return part === 'made' ? new Formatted(parts.madeSerial, 'date') : parts[part];
    },
  }),

  defineFunction({
    name: 'DESCENDANTS',
    family: 'lineage',
    summary: 'Every lot made from a lot, directly or through others: the recall list for a bad spawn bag.',
    notes: familyNotes,
    cautions: [
      'A recall list is only as good as its records. What must be recalled, and whom to tell, is for your local ' +
        'food-safety rules; when in doubt, hold the lots back.',
    ],
    arguments: familyArguments('the lot whose offspring is asked for'),
    result: familyResult,
    sources: ['Breadth-first search of the lots’ own records'],
    examples: [
      {
        title: 'What came of grain jar G-1: bag S-1, and two blocks',
        arguments: ['G-1', exampleLots, exampleParents],
        gives: [
          FAMILY_HEADER,
          ['S-1', 1, 'G-1 → S-1', ''],
          ['B-1', 2, 'G-1 → S-1 → B-1', ''],
          ['B-2', 2, 'G-1 → S-1 → B-2', ''],
        ],
      },
      {
        title: 'A bag nobody recorded, but named as a parent',
        arguments: ['x-9', exampleLots, exampleParents],
        gives: [FAMILY_HEADER, ['B-3', 1, 'X-9 → B-3', 'parent X-9 is not in lots']],
      },
    ],
    faults: familyFaults,
    whole: (lot, lots, parents) => descendants(lot, recordsOf(lots, parents)).map(shownRelative),
  }),

  defineFunction({
    name: 'ANCESTORS',
    family: 'lineage',
    summary: 'Every lot that a lot was made from, directly or through others: where a fault may come from.',
    notes: familyNotes,
    arguments: familyArguments('the lot whose origin is asked for'),
    result: familyResult,
    sources: ['Breadth-first search of the lots’ own records'],
    examples: [
      {
        title: 'Where block B-2 came from: two bags, two jars, one culture',
        arguments: ['B-2', exampleLots, exampleParents],
        gives: [
          FAMILY_HEADER,
          ['S-1', 1, 'B-2 → S-1', ''],
          ['S-2', 1, 'B-2 → S-2', ''],
          ['G-1', 2, 'B-2 → S-1 → G-1', ''],
          ['G-2', 2, 'B-2 → S-2 → G-2', ''],
          ['M-1', 3, 'B-2 → S-1 → G-1 → M-1', ''],
        ],
      },
      {
        title: 'An unknown parent is listed, not dropped',
        arguments: ['B-3', exampleLots, exampleParents],
        gives: [FAMILY_HEADER, ['X-9', 1, 'B-3 → X-9', 'not in lots']],
      },
    ],
    faults: familyFaults,
    whole: (lot, lots, parents) => ancestors(lot, recordsOf(lots, parents)).map(shownRelative),
  }),

  defineFunction({
    name: 'SPAWNCHAIN',
    family: 'lineage',
    summary: 'What to start when, from mother culture to block, for so many good units on a date.',
    notes:
      'Worked backwards: each step starts the fewest whole batches that leave, after its loss, enough whole units for the ' +
      'next. Each unit is started its days before the next step needs it. Losses are what you expect on average; plan ' +
      'over with the allowance where too few would hurt. Generation counts from the first row of the table as 0. About ten ' +
      'units of the next step from one is common for sawdust to sawdust (common practice, no source); vigour falls with ' +
      'generations, so give your own limit under max generation. The column makes of the last step is not used.',
    arguments: [
      setting('units', count(), 'good units wanted of the last step, such as blocks'),
      setting('needed', serial(), 'date they are needed'),
      table(
        'steps',
        {
          step: key(text('step')),
          makes: optional(number({ word: 'units', above: 0 })),
          days: number({ word: 'days', unit: 'days', from: 0 }),
          loss: optional(fractionBelowOne(), 0),
          mass: optional(mass()),
          batch: optional(count(), 1),
          'max generation': optional(count()),
        },
        'table from mother culture to block: step, makes, days; optional loss, mass, batch, max generation',
      ),
      optionalSetting(
        'allowance',
        number({ word: 'share', from: 0 }),
        0,
        'share planned over, such as 5%; none if left out',
      ),
    ],
    result: tableResult(
      resultColumn('step'),
      resultColumn('generation'),
      resultColumn('start'),
      resultColumn('good'),
      resultColumn('start on', 'date'),
      resultColumn('ready by', 'date'),
      resultColumn('mass'),
      resultColumn('note'),
    ),
    sources: ['Arithmetic on your own table of steps, in whole units'],
    examples: [
      {
        // 525/0.96 = 546.9, in dozens 552; 552/10 → 56, 56/0.98 → 58; 58/10 → 6, 6/0.95 → 7, in sixes 12; 12/8 → 2, 2/0.9 → 3
        title: '500 good blocks on 27 June 2026 with 5% over, worked out by hand',
        arguments: [500, 46200, exampleSteps, 0.05],
        gives: [
          CHAIN_HEADER,
          ['mother culture', 0, 3, 2, 46078, 46088, '', ''],
          ['grain jar', 1, 12, 11, 46088, 46102, 14.4, ''],
          ['sawdust bag', 2, 58, 56, 46102, 46123, 145, ''],
          ['block', 3, 552, 529, 46123, 46200, 1380, ''],
        ],
      },
      {
        title: 'A step past its max generation is told of',
        arguments: [
          10,
          46200,
          [
            ['step', 'makes', 'days', 'max generation'],
            ['culture', 10, 10, 1],
            ['first grain', 10, 14, 1],
            ['second grain', null, 14, 1],
          ],
        ],
        gives: [
          CHAIN_HEADER,
          ['culture', 0, 1, 1, 46162, 46172, '', ''],
          ['first grain', 1, 1, 1, 46172, 46186, '', ''],
          ['second grain', 2, 10, 10, 46186, 46200, '', 'generation 2 is past max generation'],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          500,
          46200,
          exampleSteps.map((cells, i) => (i === 2 ? ['grain jar', null, 14, 0.05, 1.2, 6, null] : cells)),
        ],
        code: '#VALUE!',
        says: 'steps, makes: a number above 0 needed, got a blank cell (row 3)',
        remedy: 'Fill in how many units of the next step one unit makes.',
      },
      {
        arguments: [
          500,
          46200,
          exampleSteps.map((cells, i) => (i === 2 ? ['grain jar', 10, 14, 5, 1.2, 6, null] : cells)),
        ],
        code: '#VALUE!',
        says: 'percentages are fractions: write 5% or 0.05',
        remedy: 'Give the loss as a percentage or as a fraction of 1.',
      },
      {
        arguments: [2_000_000, 46200, exampleSteps],
        code: '#VALUE!',
        says: 'units: so few that no step starts more than 1000000 needed, got 2000000',
        remedy: 'Plan in smaller portions.',
      },
    ],
    whole: (units, neededSerial, steps, allowance) =>
      spawnChain(
        units,
        neededSerial,
        steps.rows.map((each) => ({ ...each, maxGeneration: each['max generation'] })),
        allowance,
      ).map((each) => [
        each.step,
        each.generation,
        each.start,
        each.good,
        each.startSerial,
        each.readySerial,
        each.mass ?? '',
        each.isPastMaxGeneration ? `generation ${each.generation} is past max generation` : '',
      ]),
  }),
];
