import { groupComparison } from '../maths/audit/groupComparison';
import { biologicalEfficiency } from '../maths/harvest/biologicalEfficiency';
import { expectedYield } from '../maths/harvest/expectedYield';
import { flushNumbers } from '../maths/harvest/flushNumbers';
import { flushTimes } from '../maths/harvest/flushTimes';
import { lotCrop, type Crop, type Pick } from '../maths/harvest/lotCrop';
import { shelfDayYield } from '../maths/harvest/shelfDayYield';
import { shelfLifeUsed } from '../maths/harvest/shelfLifeUsed';
import { strainRecord, type CroppedLot } from '../maths/harvest/strainRecord';
import { yieldRange } from '../maths/harvest/yieldRange';
import { invalid, missing } from '../maths/shared/calcError';
import { loadDistributions } from '../maths/shared/distributions';
import { labelKey } from '../maths/shared/labels';
import { celsiusWithin } from '../maths/shared/temperature';
import { column, keyColumn, optionalColumn, optionalSetting, range, setting, table } from './cells/arguments';
import { CellError } from './cells/cell';
import { cellErrorOf, SheetFault } from './cells/fault';
import {
  confidence,
  count,
  days,
  efficiency,
  fraction,
  fractionBelowOne,
  mass,
  number,
  serial,
  temperature,
} from './cells/kinds';
import type { RowOf, Table } from './cells/table';
import { defineFunction, freeTable, resultColumn, row, value, type Answer, type FreeTable } from './define';
import { temperatureUnit } from './settings';
import { croppedLotColumns, harvestColumns, only, strainColumns } from './tables';

/** What one block is and what is expected of it: shared by functions that go from blocks to mass and back. */
export const cropArguments = [
  column('block mass', mass(), 'wet mass of one block'),
  column('moisture', fractionBelowOne(), 'water share of the wet block: 62% or 0.62'),
  column('efficiency', efficiency(), 'biological efficiency expected over all flushes: 80%'),
  optionalColumn('loss', fractionBelowOne(), 0, 'share of blocks lost before picking; 0 if left out'),
  optionalColumn(
    'share',
    fraction(),
    1,
    'share of the yield counted, 70% for the first flush; 100% if left out',
  ),
] as const;

const harvestsTable = table(
  'harvests',
  harvestColumns,
  'table with lot, date and mass, and flush where recorded',
);

const examplePicks = [
  ['lot', 'date', 'mass', 'flush'],
  ['A-101', 46007, 4, 1],
  ['A-101', 46009, 3, 1],
  ['A-101', 46027, 2, 2],
  ['A-101', 46031, 1, 2],
  ['A-102', 46018, 12, 1],
  ['A-102', 46035, 4, 2],
];
const exampleLots = [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'loaded'],
  ['A-101', 'Alder-3', 10, 2.5, 0.6, 46000],
  ['A-102', 'Alder-3', 20, 2.5, 0.6, 46010],
  ['B-201', 'Birch-1', 10, 2.5, 0.6, 46020],
];
const exampleStrains = [
  ['strain', 'first pick', 'pick days', 'flush gap'],
  ['Alder-3', 7, 6, 18],
];

export const harvest = [
  defineFunction({
    name: 'BIOEFFICIENCY',
    family: 'harvest',
    summary: 'Biological efficiency: fresh mushrooms picked over the dry mass of the blocks they came from.',
    notes:
      'Fresh mass divided by blocks × block mass × (1 − moisture). 100% means a kilogram of mushrooms from a kilogram ' +
      'of dry substrate. Use one unit of mass for both masses. A blank or 0 fresh mass gives a blank.',
    arguments: [
      keyColumn('fresh', mass(), 'mass of fresh mushrooms picked, all flushes counted'),
      column('block mass', mass(), 'wet mass of one block, in the unit of fresh'),
      column('moisture', fractionBelowOne(), 'water share of the wet block: 62% or 0.62'),
      optionalColumn('blocks', count(), 1, 'number of blocks the mushrooms came from; 1 if left out'),
    ],
    result: value('biological efficiency', 'percent'),
    sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762, doi 10.1080/00275514.1985.12025163'],
    examples: [
      {
        title: 'One block of 4.5 kg at 60% moisture gave 1.2 kg',
        arguments: [1.2, 4.5, 0.6],
        gives: 1.2 / 1.8,
      },
      {
        title: 'Two lots at once, the second not picked yet',
        arguments: [[[24], [null]], [[2.5], [2.5]], 0.6, [[30], [40]]],
        gives: [[0.8], ['']],
      },
    ],
    faults: [
      {
        arguments: [1.2, 4.5, 60],
        code: '#VALUE!',
        says: 'write 60% or 0.6',
        remedy: 'Give the moisture as a percentage or as a fraction of 1.',
      },
    ],
    eachRow: biologicalEfficiency,
  }),

  defineFunction({
    name: 'EXPECTEDYIELD',
    family: 'harvest',
    summary: 'Fresh mass to expect from a number of blocks at an expected biological efficiency.',
    notes:
      'Blocks × block mass × (1 − moisture) × efficiency × (1 − loss) × share. An expectation, not a promise: lots ' +
      'spread around it.',
    arguments: [keyColumn('blocks', count(), 'number of blocks loaded'), ...cropArguments],
    result: value('fresh mass'),
    sources: [
      'Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency, solved for the fresh mass',
    ],
    examples: [
      {
        title: '50 blocks of 2.5 kg at 60% moisture and 80% efficiency',
        arguments: [50, 2.5, 0.6, 0.8],
        gives: 40,
      },
      {
        title: 'The first flush of two lots, 10% of the blocks lost',
        arguments: [[[50], [100]], 2.5, 0.6, 0.8, 0.1, 0.7],
        gives: [[25.2], [50.4]],
      },
    ],
    faults: [
      {
        arguments: [50, 2.5, 0.6, 80],
        code: '#VALUE!',
        says: 'efficiency: more than 0, at most 5 needed, got 80 – percentages are fractions: write 80% or 0.8',
        remedy: 'Give the efficiency as a percentage or as a fraction of 1.',
      },
      {
        arguments: [50.5, 2.5, 0.6, 0.8],
        code: '#VALUE!',
        says: 'blocks: a whole number of 1 or more needed, got 50.5',
        remedy: 'Count whole blocks.',
      },
    ],
    eachRow: (blocks, blockMass, moisture, expected, loss, share) =>
      expectedYield(blocks, { blockMass, moisture, efficiency: expected, loss, share }),
  }),

  defineFunction({
    name: 'YIELDRANGE',
    family: 'harvest',
    summary:
      'Range the next lot’s efficiency falls in, from past lots of the same kind (prediction interval).',
    notes:
      'Mean ± Student’s t × standard deviation × √(1 + 1/n): where one more lot will lie, not where the mean lies. Gives ' +
      'the lower end, the mean, the upper end and the number of lots. Past lots must be of one strain and recipe, and ' +
      'in no trend. Blank or 0 cells are left out. Masses work as well as efficiencies.',
    arguments: [
      range('past', number({ from: 0 }), 'efficiencies (or masses) of past lots, two or more'),
      optionalSetting(
        'coverage',
        confidence(),
        0.9,
        'how often the next lot shall fall inside; 90% if left out',
      ),
    ],
    result: row(
      resultColumn('from', 'percent'),
      resultColumn('mean', 'percent'),
      resultColumn('to', 'percent'),
      resultColumn('lots'),
    ),
    sources: ['Hahn, G. J., Meeker, W. Q. (1991) Statistical Intervals, Wiley, section 4.7'],
    examples: [
      {
        title: 'Four lots of 76% to 91%; t from scipy 1.17.1',
        arguments: [[[0.82], [0.76], [0.91], [0.85]]],
        gives: [[0.6706853404309937, 0.835, 0.9993146595690064, 4]],
        digits: 8,
      },
    ],
    faults: [
      {
        arguments: [[[0.82], [null]]],
        code: '#N/A',
        says: 'past: two lots or more needed to tell their spread, got 1',
        remedy: 'Give the efficiencies of at least two past lots, better ten.',
      },
      {
        arguments: [[[0.82], [0.76]], 90],
        code: '#VALUE!',
        says: 'write 90% or 0.9',
        remedy: 'Give the coverage as a percentage or as a fraction of 1.',
      },
    ],
    prepare: loadDistributions,
    whole: (past, coverage) => {
      const { low, mean, high, lots } = yieldRange(past, coverage);
      return [low, mean, high, lots];
    },
  }),

  defineFunction({
    name: 'SHELFDAYYIELD',
    family: 'harvest',
    summary: 'Fresh mass per shelf and day: what a shelf brings in when shelves are what you are short of.',
    notes:
      'Fresh mass ÷ (blocks ÷ blocks per shelf) ÷ days. Count the days the shelf was really taken, from loading until it ' +
      'was cleared and clean. A blank or 0 fresh mass gives a blank.',
    arguments: [
      keyColumn('fresh', mass(), 'mass of fresh mushrooms picked from the lot'),
      column('blocks', count(), 'blocks in the lot'),
      column('blocks per shelf', count(), 'blocks that one shelf holds'),
      column('days', days(), 'days the shelf was taken, from loading until cleared'),
    ],
    result: value('fresh mass per shelf and day'),
    sources: ['Definition: mass over shelves and days'],
    examples: [
      {
        title: '96 kg from 120 blocks, 20 to a shelf, over 40 days: 96 / 6 / 40',
        arguments: [96, 120, 20, 40],
        gives: 0.4,
      },
    ],
    faults: [
      {
        arguments: [96, 120, 20, null],
        code: '#VALUE!',
        says: 'days: a number above 0 days needed, got a blank cell or 0',
        remedy: 'Fill in how many days the shelf was taken.',
      },
    ],
    eachRow: shelfDayYield,
  }),

  defineFunction({
    name: 'CROPTABLE',
    family: 'harvest',
    summary:
      'What each lot gave: mass by flush, total, per block, biological efficiency, days, efficiency per day.',
    notes:
      'One line per lot, in the order of lots; lots not picked yet show blanks. Days run from load to the last pick. A lot ' +
      'of harvests that is not in lots comes last, with an error that says so; a row that cannot be read spoils the ' +
      'line of its own lot only. Without flush numbers there are no flush columns: FLUSHSPLIT finds them.',
    arguments: [
      harvestsTable,
      table('lots', croppedLotColumns, 'table with lot, strain, blocks, block mass, moisture and loaded'),
    ],
    result: freeTable(),
    sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency, production rate'],
    examples: [
      {
        title: 'Ten blocks of 2.5 kg at 60% moisture are 10 kg dry: 10 kg picked in 31 days',
        arguments: [examplePicks, exampleLots],
        gives: [
          [
            'lot',
            'strain',
            'blocks',
            'flush 1',
            'flush 2',
            'total',
            'per block',
            'efficiency',
            'days',
            'efficiency per day',
          ],
          ['A-101', 'Alder-3', 10, 7, 3, 10, 1, 1, 31, 1 / 31],
          ['A-102', 'Alder-3', 20, 12, 4, 16, 0.8, 0.8, 25, 0.8 / 25],
          ['B-201', 'Birch-1', 10, '', '', '', '', '', '', ''],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['A-999', 46007, 4],
          ],
          exampleLots,
        ],
        code: '#N/A',
        says: 'lot: "A-999" is not in lots',
        remedy: 'Mend the lot’s label in the harvests, or add it to the lots.',
      },
      {
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['A-101', 46007, '4,5'],
          ],
          exampleLots,
        ],
        code: '#VALUE!',
        says: 'harvests, mass: a mass above 0 needed, got "4,5"',
        remedy: 'Retype the mass as a number.',
      },
      {
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['A-101', 45990, 4],
          ],
          exampleLots,
        ],
        code: '#VALUE!',
        says: 'date: a last pick after the day of loading needed',
        remedy: 'Mend the date of the pick or of the load.',
      },
    ],
    whole: (harvests, lots) => {
      const crops = cropsOf(harvests, lots);
      const own = crops.flatMap(({ crop }) => (crop instanceof CellError || !crop ? [] : [crop]));
      const flushes = Math.max(0, ...own.map(({ byFlush }) => byFlush.length));
      const mixed = flushes > 0 && own.some(({ unassigned }) => unassigned > 0);
      const columns = [
        resultColumn('lot'),
        resultColumn('strain'),
        resultColumn('blocks'),
        ...Array.from({ length: flushes }, (_, i) => resultColumn(`flush ${i + 1}`)),
        ...(mixed ? [resultColumn('no flush')] : []),
        resultColumn('total'),
        resultColumn('per block'),
        resultColumn('efficiency', 'percent'),
        resultColumn('days'),
        resultColumn('efficiency per day', 'percent'),
      ];
      const rows = crops.map(({ label, lot, crop }): Answer[] => {
        if (crop instanceof CellError || !lot) return filled([label], columns.length, crop as CellError);
        const known = [lot.lot, lot.strain, lot.blocks];
        if (!crop) return filled(known, columns.length, '');
        return [
          ...known,
          ...Array.from({ length: flushes }, (_, i) => crop.byFlush[i] ?? 0),
          ...(mixed ? [crop.unassigned] : []),
          crop.total,
          crop.perBlock,
          crop.efficiency,
          crop.days ?? '',
          crop.efficiencyPerDay ?? '',
        ];
      });
      return { columns, rows };
    },
  }),

  defineFunction({
    name: 'STRAINTABLE',
    family: 'harvest',
    summary:
      'What your records say of each strain: efficiency with its interval, flush shares, days to first pick.',
    notes:
      'In the shape of the strains table, to be copied back as values. Each lot counts once; efficiency is the mean over ' +
      'lots with its confidence interval, which needs two lots. First pick, pick days and flush gap are medians; flush ' +
      'shares are by mass, over lots whose every pick has its flush. “differs from” names the strains whose mean differs ' +
      'by Games and Howell at the same confidence: none named is not proof of equality. Lots not picked are counted ' +
      'beside, not averaged in: if they were lost, the efficiency is that of the survivors; lots still cropping pull ' +
      'it down.',
    arguments: [
      harvestsTable,
      table('lots', croppedLotColumns, 'table with lot, strain, blocks, block mass, moisture and loaded'),
      optionalSetting(
        'confidence',
        confidence(),
        0.95,
        'how sure intervals and verdicts are; 95% if left out',
      ),
    ],
    result: freeTable(),
    sources: [
      'NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2: confidence limits for the mean',
      'Games, P. A., Howell, J. F. (1976) Journal of Educational Statistics 1:113–125',
    ],
    examples: [
      {
        title:
          'Efficiencies 100% and 80%: t with one degree of freedom is 12.7062, ± 127%; flushes 19 and 7 of 26 kg',
        arguments: [examplePicks, exampleLots],
        gives: [
          [
            'strain',
            'lots',
            'not picked',
            'efficiency',
            'from',
            'to',
            'first pick',
            'pick days',
            'flush gap',
            'flushes',
            'flush 1',
            'flush 2',
            'differs from',
          ],
          [
            'Alder-3',
            2,
            0,
            0.9,
            0.9 - 0.1 * Math.tan(0.475 * Math.PI),
            0.9 + 0.1 * Math.tan(0.475 * Math.PI),
            7.5,
            2,
            18.5,
            2,
            19 / 26,
            7 / 26,
            'none shown',
          ],
          ['Birch-1', 0, 1, '', '', '', '', '', '', '', '', '', ''],
        ],
      },
    ],
    faults: [
      {
        arguments: [examplePicks.slice(0, 3), exampleLots],
        code: '#N/A',
        says: 'efficiency: two lots or more needed for an interval, got 1',
        remedy: 'Wait for a second lot of the strain.',
      },
      {
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['A-999', 46007, 4],
          ],
          exampleLots,
        ],
        code: '#N/A',
        says: 'harvests, lot: "A-999" is not in lots (row 2)',
        remedy: 'Mend the lot’s label in the harvests, or add it to the lots.',
      },
    ],
    prepare: loadDistributions,
    whole: (harvests, lots, level) => {
      const crops = cropsOf(harvests, lots);
      for (const { crop, firstEntry, lot } of crops) {
        if (!(crop instanceof CellError)) continue;
        if (lot || firstEntry === undefined) throw new SheetFault(crop);
        const label = harvests.labels[firstEntry]!;
        throw missing('harvests, lot', `"${label}" is not in lots`, firstEntry);
      }
      const strains = new Map<string, { name: string; picked: CroppedLot[]; waiting: number }>();
      for (const { lot, crop, picks } of crops as readonly LotCrop[]) {
        const same = labelKey(lot!.strain);
        const strain = strains.get(same) ?? { name: lot!.strain, picked: [], waiting: 0 };
        if (crop) strain.picked.push({ crop: crop as Crop, times: flushTimes(picks, lot!.loaded) });
        else strain.waiting++;
        strains.set(same, strain);
      }
      return strainRows([...strains.values()], level);
    },
  }),

  defineFunction({
    name: 'FLUSHSPLIT',
    family: 'harvest',
    summary: 'Flush of each pick, found from the dates and the strain’s usual times where none was recorded.',
    notes:
      'Comes with a header, one line per row of harvests: put it right beside the table, and a range over both has the ' +
      'flush column that CROPTABLE and STRAINTABLE read. A flush on record stays as it is. Each lot’s days of picking ' +
      'are cut where that agrees best with the strain’s first pick, pick days and flush gap; a lost flush is ' +
      'recognised by its date. Where flushes of a lot overlap no date can tell them apart.',
    arguments: [
      harvestsTable,
      table('lots', only(croppedLotColumns, 'lot', 'strain', 'loaded'), 'table with lot, strain and loaded'),
      table(
        'strains',
        only(strainColumns, 'strain', 'first pick', 'pick days', 'flush gap'),
        'table with strain, first pick, pick days and flush gap',
      ),
    ],
    result: freeTable(),
    sources: [
      'Own method: least squared deviation from the strain’s times by dynamic programming; tested on synthetic lots',
    ],
    examples: [
      {
        title: 'First flush around day 7, second around day 25; a blank row stays blank',
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['A-101', 46007, 4],
            ['A-101', 46009, 3],
            [null, null, null],
            ['A-101', 46026, 2],
            ['A-101', 46031, 1],
          ],
          exampleLots,
          exampleStrains,
        ],
        gives: [['flush'], [1], [1], [''], [2], [2]],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['A-999', 46007, 4],
          ],
          exampleLots,
          exampleStrains,
        ],
        code: '#N/A',
        says: 'lot: "A-999" is not in lots',
        remedy: 'Mend the lot’s label in the harvests, or add it to the lots.',
      },
      {
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['B-201', 46007, 4],
          ],
          exampleLots,
          exampleStrains,
        ],
        code: '#N/A',
        says: 'strain: "Birch-1" is not in strains',
        remedy: 'Add the strain to the strains table.',
      },
    ],
    whole: (harvests, lots, strains) => {
      const rows = Array.from({ length: Math.max(0, ...harvests.rowNumbers.slice(-1)) - 1 }, (): Answer[] => [
        '',
      ]);
      for (const { label, entries, picks, faults } of lotsPicked(harvests)) {
        for (const [entry, fault] of faults) rows[harvests.rowNumbers[entry]! - 2] = [fault];
        let flushes: Answer[];
        try {
          const { strain, loaded } = lots.find(label, 'lot');
          const times = strains.find(strain, 'strain');
          flushes = flushNumbers(picks, loaded, {
            firstPick: times['first pick'],
            pickDays: times['pick days'],
            flushGap: times['flush gap'],
          });
        } catch (thrown) {
          flushes = picks.map(() => cellErrorOf(thrown));
        }
        entries.forEach((entry, i) => (rows[harvests.rowNumbers[entry]! - 2] = [flushes[i]!]));
      }
      return { columns: [resultColumn('flush')], rows };
    },
  }),

  defineFunction({
    name: 'SHELFLIFE',
    family: 'harvest',
    summary: 'Share of the shelf life a cold-chain log has used, and days left at its last temperature.',
    notes:
      'The integral of Q10^((T − reference)/10) over the days, exact for straight lines between readings, over the days ' +
      'of life at the reference. Use your own life and Q10. Published figures: shiitake 10–12 days at 4 °C and 2–3 at ' +
      '25–30 °C (Q10 1.9); oyster by its heat Q10 2.8 (3.5 to 15 °C); button by its breathing Q10 2.2 (0 to 20 °C), by ' +
      'its keeping 1.5. A blank or 0 reading is bridged from its neighbours, since the two cannot be told apart.',
    cautions: [
      'Quality only. Food safety is another matter: a log that looks fresh enough says nothing of Listeria or of toxins ' +
        'in airtight packs. Keep to your food safety plan and local rules.',
    ],
    arguments: [
      keyColumn('times', serial(), 'date and time of each reading, rising'),
      column('temperatures', temperature(), 'temperature of each reading'),
      setting('life', days(), 'days the mushrooms keep at the reference temperature'),
      optionalSetting(
        'reference',
        temperature(),
        undefined,
        'temperature of that life; 0 °C (32 °F) if left out',
      ),
      optionalSetting(
        'q10',
        number({ from: 1, to: 10 }),
        2,
        'how many times faster they age 10 °C warmer; 2 if left out',
      ),
      temperatureUnit,
    ],
    result: row(resultColumn('life used', 'percent'), resultColumn('days left')),
    sources: [
      'Labuza, T. P. (1982) Shelf-Life Dating of Foods (from memory, unverified): Q10 and the fraction of life consumed',
      'Bohling, H., Hansen, H. (1989) Acta Horticulturae 258:573 (oyster); Iqbal, T. et al. (2009) (button): rates',
    ],
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
        says: 'times: a time later than the one before needed, got 46000 (row 2)',
        remedy: 'Sort the log by time, or mend the reading.',
      },
      {
        arguments: [[[46000], [46001]], [[null], [null]], 10],
        code: '#N/A',
        says: 'temperatures: a reading other than 0 needed',
        remedy: 'Give the readings; write 0.01 for exactly 0.',
      },
    ],
    whole: (times, temperatures, lifeDays, reference, q10, unit) => {
      const read = temperatures.flatMap((reading, i) => (reading === 0 ? [] : [i]));
      if (read.length === 0)
        throw missing('temperatures', 'a reading other than 0 needed (write 0.01 for 0)');
      const celsius = read.map((i) => celsiusWithin('temperatures', temperatures[i]!, unit, -5, 50, i));
      times.forEach((time, i) => {
        if (i > 0 && !(time > times[i - 1]!))
          throw invalid('times', 'a time later than the one before', time, i);
      });
      // Before the first reading and after the last the nearest one holds.
      const [first, last] = [read[0]!, read.at(-1)!];
      const ends = (i: number, temperatureC: number): [number, number][] => [[times[i]!, temperatureC]];
      const log = [
        ...(first > 0 ? ends(0, celsius[0]!) : []),
        ...read.map((i, n): [number, number] => [times[i]!, celsius[n]!]),
        ...(last < times.length - 1 ? ends(times.length - 1, celsius.at(-1)!) : []),
      ];
      const { used, daysLeft } = shelfLifeUsed(
        log.map(([time]) => time),
        log.map(([, temperatureC]) => temperatureC),
        {
          lifeDays,
          referenceC: reference === undefined ? 0 : celsiusWithin('reference', reference, unit, -5, 50),
          q10,
        },
      );
      return [used, daysLeft];
    },
  }),
];

interface LotCrop {
  /** As the lots, or else the harvests, write it. */
  readonly label: Answer;
  readonly lot: RowOf<typeof croppedLotColumns> | undefined;
  readonly picks: readonly Pick[];
  /** Undefined where nothing was picked yet. */
  readonly crop: Crop | CellError | undefined;
  readonly firstEntry: number | undefined;
}

interface PickedLot {
  readonly label: string;
  readonly entries: number[];
  readonly picks: Pick[];
  readonly faults: Map<number, CellError>;
}

/** The rows of the harvests lot by lot, those that cannot be read set apart. */
function lotsPicked(harvests: Table<RowOf<typeof harvestColumns>>): PickedLot[] {
  const lots = new Map<string, PickedLot>();
  const keys = new Map<string, string>();
  harvests.entries.forEach((entry, i) => {
    const label = harvests.labels[i]!;
    let same = keys.get(label);
    if (same === undefined) keys.set(label, (same = labelKey(label)));
    let lot = lots.get(same);
    if (!lot) lots.set(same, (lot = { label, entries: [], picks: [], faults: new Map() }));
    if (entry instanceof CellError) {
      lot.faults.set(i, entry);
    } else {
      lot.entries.push(i);
      lot.picks.push({ dateSerial: entry.date, mass: entry.mass, flush: entry.flush });
    }
  });
  return [...lots.values()];
}

/** The crop of each lot in the order of lots, then of each lot that only the harvests know. */
function cropsOf(
  harvests: Table<RowOf<typeof harvestColumns>>,
  lots: Table<RowOf<typeof croppedLotColumns>>,
): LotCrop[] {
  const picked = new Map(lotsPicked(harvests).map((lot) => [labelKey(lot.label), lot]));
  const known = lots.labels.map((label): LotCrop => {
    const own = picked.get(labelKey(label));
    picked.delete(labelKey(label));
    const picks = own?.picks ?? [];
    const common = { label, picks, firstEntry: own?.entries[0] };
    let lot: RowOf<typeof croppedLotColumns> | undefined;
    try {
      lot = lots.find(label, 'lot');
      const [fault] = own?.faults.values() ?? [];
      if (fault) throw new SheetFault(fault);
      const loadedSerial = lot.loaded;
      const blocks = {
        blocks: lot.blocks,
        blockMass: lot['block mass'],
        moisture: lot.moisture,
        loadedSerial,
      };
      return { ...common, lot, crop: picks.length > 0 ? lotCrop(picks, blocks) : undefined };
    } catch (thrown) {
      return { ...common, lot, crop: cellErrorOf(thrown) };
    }
  });
  const unknown = [...picked.values()].map(({ label, entries, picks, faults }): LotCrop => {
    const [fault] = label === '' ? faults.values() : [];
    const crop = fault ?? cellErrorOf(missing('lot', `"${label}" is not in lots`));
    return {
      label: fault ?? label,
      lot: undefined,
      picks,
      crop,
      firstEntry: entries[0] ?? [...faults.keys()][0],
    };
  });
  return [...known, ...unknown];
}

/** A line of a table: what is known, and the same in every cell after it. */
function filled(known: readonly Answer[], width: number, rest: Answer): Answer[] {
  return [...known, ...new Array<Answer>(width - known.length).fill(rest)];
}

function strainRows(
  strains: readonly { name: string; picked: readonly CroppedLot[]; waiting: number }[],
  level: number,
): FreeTable {
  const picked = strains.filter((strain) => strain.picked.length > 0);
  const records = new Map(picked.map((strain) => [strain.name, strainRecord(strain.picked, level)]));
  const pairs = picked.length
    ? groupComparison(
        picked.map(({ name, picked: lots }) => ({ name, values: lots.map(({ crop }) => crop.efficiency) })),
        level,
      ).pairs
    : [];
  const differing = (name: string): string => {
    const others = pairs.flatMap(({ first, second, differ }) =>
      differ && (first === name || second === name) ? [first === name ? second : first] : [],
    );
    return others.length > 0 ? others.join(', ') : 'none shown';
  };
  const flushes = Math.max(0, ...[...records.values()].map(({ shares }) => shares.length));
  const columns = [
    resultColumn('strain'),
    resultColumn('lots'),
    resultColumn('not picked'),
    resultColumn('efficiency', 'percent'),
    resultColumn('from', 'percent'),
    resultColumn('to', 'percent'),
    resultColumn('first pick'),
    resultColumn('pick days'),
    resultColumn('flush gap'),
    resultColumn('flushes'),
    ...Array.from({ length: flushes }, (_, i) => resultColumn(`flush ${i + 1}`, 'percent')),
    resultColumn('differs from'),
  ];
  const rows = strains.map(({ name, waiting }): Answer[] => {
    const record = records.get(name);
    if (!record) return filled([name, 0, waiting], columns.length, '');
    const noInterval = missing('efficiency', `two lots or more needed for an interval, got ${record.lots}`);
    return [
      name,
      record.lots,
      waiting,
      record.efficiency,
      record.interval?.[0] ?? noInterval,
      record.interval?.[1] ?? noInterval,
      record.firstPick ?? '',
      record.pickDays ?? '',
      record.flushGap ?? '',
      record.shares.length || '',
      ...Array.from({ length: flushes }, (_, i) => record.shares[i] ?? ''),
      differing(name),
    ];
  });
  return { columns, rows };
}
