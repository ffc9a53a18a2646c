import { individualsChart, movingRangeChart, proportionsChart } from '../maths/audit/controlChart';
import {
  classicalTest,
  groupComparison,
  type EqualMeansTest,
  type Group,
} from '../maths/audit/groupComparison';
import { lossRate } from '../maths/audit/lossRate';
import { modifiedZScores } from '../maths/audit/modifiedZScores';
import { USUAL_LIMITS, yieldAudit } from '../maths/audit/yieldAudit';
import {
  RULES,
  type Entry,
  type LotRecord,
  type PickRecord,
  type StrainFacts,
} from '../maths/audit/yieldRecords';
import { CalcError } from '../maths/shared/calcError';
import { loadDistributions } from '../maths/shared/distributions';
import { labelKey } from '../maths/shared/labels';
import { column, keyColumn, optionalColumn, optionalSetting, optionalTable, table } from './cells/arguments';
import { CellError, Formatted, isBlankOrZero, type Cell } from './cells/cell';
import { choice, confidence, count, number, text } from './cells/kinds';
import { shownCell } from './cells/shown';
import { key } from './cells/table';
import { defineFunction, resultColumn, row, tableResult, type Answer } from './define';
import { auditedHarvestColumns, auditedLotColumns, only, strainColumns } from './tables';

/** Runs a calculation over some of the entries of a call, so that its faults name the entry of the whole call. */
function overEntries<T>(entries: readonly number[], calculate: () => T): T {
  try {
    return calculate();
  } catch (thrown) {
    if (thrown instanceof CalcError && thrown.place.index !== undefined) {
      throw new CalcError(thrown.kind, thrown.message, {
        ...thrown.place,
        index: entries[thrown.place.index]!,
      });
    }
    throw thrown;
  }
}

/** Values by group, groups and values in an order that does not depend on the rows'. */
function groupsOf(labels: readonly string[], values: readonly number[]): Group[] {
  const groups = new Map<string, { name: string; values: number[] }>();
  labels.forEach((name, i) => {
    const same = labelKey(name);
    const group = groups.get(same);
    if (group) group.values.push(values[i]!);
    else groups.set(same, { name, values: [values[i]!] });
  });
  return [...groups.entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, { name, values: own }]) => ({ name, values: own.sort((a, b) => a - b) }));
}

const nothing: Answer = '';

const testRow = (name: string, n: number, test: EqualMeansTest, level: number): Answer[] => [
  name,
  n,
  nothing,
  nothing,
  nothing,
  test.f,
  test.freedomWithin,
  test.p,
  test.p < 1 - level ? 'means differ' : 'no difference shown',
];

const FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
const copies = (times: number, cells: (number | string)[]): (number | string)[][] =>
  Array.from({ length: times }, () => cells);

const auditStrains = [
  ['strain', 'first pick', 'pick days', 'flush gap', 'flushes', 'efficiency'],
  ['Alder-3', 7, 6, 18, 3, 0.8],
];

export const audit = [
  defineFunction({
    name: 'OUTLIERS',
    family: 'audit',
    summary:
      'How far each value lies from the rest: modified z-score from the median, and which are outliers.',
    notes:
      '0.6745 × (value − median) ÷ median absolute deviation. Beyond the limit, 3.5 unless given, a value is called an ' +
      'outlier: look at how it came about before dropping it. A blank or 0 is left out. Values of strains that differ ' +
      'belong in separate calls.',
    arguments: [
      keyColumn('values', number(), 'masses, efficiencies or other readings of one kind'),
      optionalSetting(
        'limit',
        number({ above: 0 }),
        3.5,
        'score from which a value is an outlier; 3.5 if left out',
      ),
    ],
    result: row(resultColumn('modified z-score'), resultColumn('finding')),
    sources: [
      'Iglewicz, B., Hoaglin, D. C. (1993) How to Detect and Handle Outliers, ASQC Quality Press',
      'NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17',
    ],
    examples: [
      {
        title: 'Median 5, median absolute deviation 1: 12 scores 0.6745 × 7',
        arguments: [[[4], [5], [6], [5], [12]]],
        gives: [
          [-0.6745, ''],
          [0, ''],
          [0.6745, ''],
          [0, ''],
          [4.7215, 'outlier'],
        ],
      },
    ],
    faults: [
      {
        arguments: [[[4], [5]]],
        code: '#N/A',
        says: 'values: three or more needed to judge by, got 2',
        remedy: 'Give at least three values.',
      },
      {
        arguments: [[[4], ['5'], [6], [7]]],
        code: '#VALUE!',
        says: 'it is text that looks like a number: retype it as a number (row 2)',
        remedy: 'Retype the value, or convert the column to numbers.',
      },
    ],
    beside: (values, limit) =>
      modifiedZScores(values).map((score) => [score, Math.abs(score) > limit ? 'outlier' : nothing]),
  }),

  defineFunction({
    name: 'CONTROLCHART',
    family: 'audit',
    summary: 'Control chart beside each value: centre, limits, and the run rules that a point breaks.',
    notes:
      'individuals: centre is the mean, limits 3 × mean moving range ÷ 1.128 either side. moving range: distances ' +
      'between neighbours, upper limit 3.267 × their mean. proportions: values are counts lost, sizes the counts they ' +
      'came from; limits follow each size. Run rules are those of Western Electric, named at the point that completes ' +
      'them. All four together call about 1 point in 92 though nothing is wrong (1 in 370 for the 3-sigma rule alone). ' +
      'Rows must stand in order of time. A blank or 0 value is left out, except in proportions, where 0 lost of a size ' +
      'counts. Draw a line chart of the first four columns.',
    arguments: [
      column('values', number(), 'readings in order of time; for proportions the counts lost'),
      optionalSetting(
        'kind',
        choice(['individuals', 'moving range', 'proportions']),
        'individuals',
        'individuals, moving range or proportions; individuals if left out',
      ),
      optionalColumn('sizes', count(), undefined, 'for proportions: how many were counted at each point'),
    ],
    result: row(
      resultColumn('plotted'),
      resultColumn('centre'),
      resultColumn('lower limit'),
      resultColumn('upper limit'),
      resultColumn('rules broken'),
    ),
    sources: [
      'NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2, 6.3.2.2 and 6.3.3.2',
      'Western Electric (1956) Statistical Quality Control Handbook',
    ],
    examples: [
      {
        title: 'Flow rates of the e-Handbook: mean moving range 16.9/9, limits 50.81 ± 3 × 1.8778/1.128',
        arguments: [FLOW.map((value) => [value])],
        gives: FLOW.map((value) => [
          value,
          50.81,
          50.81 - (3 * 16.9) / 9 / 1.128,
          50.81 + (3 * 16.9) / 9 / 1.128,
          '',
        ]),
      },
      {
        title:
          'Four batches of 100 blocks lost 10, 10, 10 and 30: centre 15%, limits 15% ± 3 × √(0.15 × 0.85/100)',
        arguments: [[[10], [10], [10], [30]], 'proportions', 100],
        gives: [
          ...copies(3, [0.1, 0.15, 0.15 - 3 * Math.sqrt(0.001275), 0.15 + 3 * Math.sqrt(0.001275), '']),
          [0.3, 0.15, 0.15 - 3 * Math.sqrt(0.001275), 0.15 + 3 * Math.sqrt(0.001275), 'above +3 sigma'],
        ],
      },
    ],
    faults: [
      {
        arguments: [[[10], [12]], 'proportions'],
        code: '#VALUE!',
        says: 'sizes: needed for proportions',
        remedy: 'Give the counts that the losses came from.',
      },
      {
        arguments: [[[10], [12]], 'proportions', [[100], [11]]],
        code: '#VALUE!',
        says: 'values: at most the size of 11 needed, got 12 (row 2)',
        remedy: 'Mend the count lost or the count it came from.',
      },
      {
        arguments: [12],
        code: '#N/A',
        says: 'values: two or more needed for a moving range, got 1',
        remedy: 'Give at least two readings, better twenty.',
      },
    ],
    beside: (values, kind, sizes) => {
      const blank: Answer[] = ['', '', '', '', ''];
      const proportions = kind === 'proportions';
      if (proportions && sizes.every((size) => size === undefined)) {
        throw new CalcError('invalid', 'sizes: needed for proportions, the counts that the losses came from');
      }
      const counted = values.flatMap((value, i) =>
        value !== 0 || (proportions && sizes[i] !== undefined) ? [i] : [],
      );
      const own = counted.map((i) => values[i]!);
      const points = overEntries(counted, () => {
        if (proportions) {
          return proportionsChart(
            own,
            counted.map((i) => sizes[i] ?? 0),
          );
        }
        return kind === 'individuals' ? individualsChart(own) : movingRangeChart(own);
      });
      const answers = values.map(() => blank);
      points.forEach(({ plotted, centre, low, high, broken }, n) => {
        answers[counted[n]!] = [plotted ?? nothing, centre, low, high, broken.join('; ')];
      });
      return answers;
    },
  }),

  defineFunction({
    name: 'LOSSRATE',
    family: 'audit',
    summary: 'Share of blocks lost with the interval that holds the true rate (Wilson).',
    notes:
      'Gives the rate, and the lower and upper end of its interval. 0 lost of 20 does not show that nothing is ever lost: ' +
      'the true rate may be as high as 16%. Supposes that blocks are lost independently of each other.',
    arguments: [
      column('lost', count(0), 'blocks (bags, jars) lost'),
      keyColumn('total', count(), 'blocks counted, lost ones included'),
      optionalSetting('confidence', confidence(), 0.95, 'how sure the interval is to hold; 95% if left out'),
    ],
    result: row(
      resultColumn('rate', 'percent'),
      resultColumn('from', 'percent'),
      resultColumn('to', 'percent'),
    ),
    sources: ['Newcombe, R. G. (1998) Statistics in Medicine 17:857–872, method 3'],
    examples: [
      {
        title: '4 of 20, and 0 of 20; interval as scipy 1.17.1 gives it',
        arguments: [
          [[4], [0]],
          [[20], [20]],
        ],
        gives: [
          [0.2, 0.08065766257979806, 0.4160174322518936],
          [0, 0, 0.16112515805281935],
        ],
      },
    ],
    faults: [
      {
        arguments: [21, 20],
        code: '#VALUE!',
        says: 'lost: at most the total of 20 needed, got 21',
        remedy: 'Mend one of the two counts.',
      },
      {
        arguments: [1, 20, 95],
        code: '#VALUE!',
        says: 'write 95% or 0.95',
        remedy: 'Give the confidence as a percentage or as a fraction of 1.',
      },
    ],
    prepare: loadDistributions,
    eachRow: (lost, total, level) => {
      const { rate, low, high } = lossRate(lost, total, level);
      return [rate, low, high];
    },
  }),

  defineFunction({
    name: 'COMPARE',
    family: 'audit',
    summary: 'Compares groups (strains, rooms, recipes): means with intervals, and which pairs truly differ.',
    notes:
      'One line per group: count, mean and its interval. Then tests that all means are equal: Welch’s, which lets spreads ' +
      'differ, is the one to read; the classical one-way analysis is there for comparison with papers. Then one line per ' +
      'pair by Games and Howell: the difference, an interval that holds for all pairs together, t, and whether they ' +
      'differ. “No difference shown” is not “equal”: few lots show little. Use one value per lot, not one per pick: picks ' +
      'of one lot are not independent. A row whose group or value is blank or 0 is left out.',
    arguments: [
      keyColumn('groups', text('group'), 'group of each value: strain, room, recipe'),
      keyColumn('values', number(), 'the values compared, one per lot: efficiencies'),
      optionalSetting(
        'confidence',
        confidence(),
        0.95,
        'how sure intervals and verdicts are; 95% if left out',
      ),
    ],
    result: tableResult(
      resultColumn('compared'),
      resultColumn('n'),
      resultColumn('mean'),
      resultColumn('from'),
      resultColumn('to'),
      resultColumn('t or F'),
      resultColumn('degrees of freedom'),
      resultColumn('p'),
      resultColumn('finding'),
    ),
    sources: [
      'Welch, B. L. (1951) Biometrika 38:330–336',
      'Games, P. A., Howell, J. F. (1976) Journal of Educational Statistics 1:113–125',
      'NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.3 (classical analysis)',
    ],
    examples: [
      {
        title: 'Efficiencies of four lots of one strain and three of another; figures of scipy 1.17.1',
        arguments: [
          [['Alder-3'], ['Alder-3'], ['Alder-3'], ['Alder-3'], ['Birch-1'], ['Birch-1'], ['Birch-1']],
          [[0.82], [0.76], [0.91], [0.85], [0.64], [0.71], [0.58]],
        ],
        gives: [
          ['compared', 'n', 'mean', 'from', 'to', 't or F', 'degrees of freedom', 'p', 'finding'],
          ['Alder-3', 4, 0.835, 0.7356281459674644, 0.9343718540325358, '', '', '', ''],
          ['Birch-1', 3, 0.6433333333333333, 0.4817052209158251, 0.8049614457508417, '', '', '', ''],
          [
            'all equal? (Welch)',
            7,
            '',
            '',
            '',
            3.9237493651259068 ** 2,
            4.337950252500014,
            0.014703221170347504,
            'means differ',
          ],
          [
            'all equal? (classical)',
            7,
            '',
            '',
            '',
            15.613931523022437,
            5,
            0.010835056270871809,
            'means differ',
          ],
          [
            'Alder-3 − Birch-1',
            7,
            0.835 - 1.93 / 3,
            0.06011035529054509,
            0.3232229780427882,
            3.9237493651259068,
            4.337950252500014,
            0.014703221170347504,
            'differ',
          ],
        ],
        digits: 8,
      },
    ],
    faults: [
      {
        arguments: [
          [['Alder-3'], ['Birch-1']],
          [[null], [null]],
        ],
        code: '#N/A',
        says: 'values: no group with a value in it',
        remedy: 'Fill in groups and values in the same rows.',
      },
      {
        arguments: [
          [['Alder-3'], ['Birch-1']],
          [[0.8], ['0.7']],
        ],
        code: '#VALUE!',
        says: 'it is text that looks like a number: retype it as a number (row 2)',
        remedy: 'Retype the value as a number.',
      },
    ],
    prepare: loadDistributions,
    whole: (labels, values, level) => {
      const groups = groupsOf(labels, values);
      const { groups: known, test, pairs } = groupComparison(groups, level);
      const classical = classicalTest(groups);
      const sizes = new Map(known.map(({ name, n }) => [name, n]));
      return [
        ...known.map(({ name, n, mean, interval }): Answer[] => [
          name,
          n,
          mean,
          interval?.[0] ?? nothing,
          interval?.[1] ?? nothing,
          nothing,
          nothing,
          nothing,
          interval ? nothing : 'one value: no interval',
        ]),
        ...(test ? [testRow('all equal? (Welch)', values.length, test, level)] : []),
        ...(classical ? [testRow('all equal? (classical)', values.length, classical, level)] : []),
        ...pairs.map(({ first, second, difference, interval, t, freedom, p, differ }): Answer[] => [
          `${first} − ${second}`,
          sizes.get(first)! + sizes.get(second)!,
          difference,
          interval?.[0] ?? nothing,
          interval?.[1] ?? nothing,
          t ?? nothing,
          freedom ?? nothing,
          p ?? nothing,
          differ === undefined ? 'no spread to judge by' : differ ? 'differ' : 'no difference shown',
        ]),
      ];
    },
  }),

  defineFunction({
    name: 'YIELDAUDIT',
    family: 'audit',
    summary:
      'Finds what cannot be right in picks and lots: slips of unit, decimal, date, lot, flush, and says why.',
    notes:
      'One line per finding, the surest first: cannot be, unlikely, look again. Each has a short code, what stands there, ' +
      'what was expected, and what it would be if the suspected slip were mended. Nothing is changed: look at the ' +
      'scales’ sheet before you correct. The row is counted from the header row of the table. Masses are judged against ' +
      'the lot’s other picks and the strain’s other lots in standard deviations of your own book, so a book that spreads ' +
      'widely is not flooded; a slip of pounds for kilograms (2.2 times) is found where picks of a lot are alike, ' +
      'about 6 in 10 at a spread of 15–20%, and mostly missed at 35%. On synthetic books of 500 to 50,000 picks with planted ' +
      'slips and spreads of 15 to 35% it found every slip that cannot be, 85% or more of slips of unit and decimal, and ' +
      'called 1 clean row in 350 or fewer. Settings: deviations (3), lowest efficiency (10%), highest efficiency (200%).',
    arguments: [
      table(
        'harvests',
        auditedHarvestColumns,
        'table with lot, date, mass, and flush and blocks (picked) where recorded',
      ),
      table(
        'lots',
        auditedLotColumns,
        'table with lot, strain, blocks, block mass, moisture, inoculated, loaded, total where recorded',
      ),
      table(
        'strains',
        only(
          strainColumns,
          'strain',
          'earliest',
          'first pick',
          'pick days',
          'flush gap',
          'flushes',
          'efficiency',
        ),
        'table with strain, first pick, pick days, flush gap, flushes, efficiency, earliest',
      ),
      optionalTable(
        'settings',
        {
          setting: key(choice(['deviations', 'lowest efficiency', 'highest efficiency'])),
          value: number({ above: 0 }),
        },
        'table with setting and value: deviations, lowest efficiency, highest efficiency',
      ),
    ],
    result: tableResult(
      resultColumn('table'),
      resultColumn('row'),
      resultColumn('lot'),
      resultColumn('code'),
      resultColumn('finding'),
      resultColumn('value'),
      resultColumn('expected'),
      resultColumn('if mended'),
      resultColumn('suspected slip'),
      resultColumn('how sure'),
    ),
    sources: [
      'Own rules; masses by medians and median absolute deviations: Iglewicz, B., Hoaglin, D. C. (1993) How to Detect and ' +
        'Handle Outliers',
      'Units: international avoirdupois pound of 0.45359237 kg exactly',
    ],
    examples: [
      {
        title: 'A mass as text, a pick before the load, and 4.2 kg typed as 4200 g',
        arguments: [
          [
            ['lot', 'date', 'mass', 'flush'],
            ['A-101', 46007, 4.1, 1],
            ['A-101', 46008, '4,3', 1],
            ['A-101', 46009, 4200, 1],
            ['A-101', 46010, 4.2, 1],
            ['A-101', 45645, 4.2, 1],
            ['A-101', 46012, 4, 1],
          ],
          [
            ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'loaded'],
            ['A-101', 'Alder-3', 30, 2.5, 0.6, 46000],
          ],
          auditStrains,
        ],
        gives: [
          [
            'table',
            'row',
            'lot',
            'code',
            'finding',
            'value',
            'expected',
            'if mended',
            'suspected slip',
            'how sure',
          ],
          [
            'harvests',
            3,
            'A-101',
            'figure-text',
            'text or an error where a number should be',
            '4,3',
            'mass as a number',
            4.3,
            'typed or pasted as text',
            'cannot be',
          ],
          [
            'harvests',
            6,
            'A-101',
            'date-before-load',
            'picked on or before the day of load',
            '2024-12-19',
            '2025-12-16',
            '2025-12-19',
            'another year',
            'cannot be',
          ],
          [
            'harvests',
            4,
            'A-101',
            'mass-unit',
            'off by a change of unit',
            4200,
            4.2,
            4.2,
            'grams typed for kilograms',
            'unlikely',
          ],
        ],
      },
      {
        title: 'Nothing to find',
        arguments: [
          [
            ['lot', 'date', 'mass'],
            ['A-101', 46007, 4.1],
          ],
          [
            ['lot', 'strain', 'loaded'],
            ['A-101', 'Alder-3', 46000],
          ],
          auditStrains,
        ],
        gives: [
          [
            'table',
            'row',
            'lot',
            'code',
            'finding',
            'value',
            'expected',
            'if mended',
            'suspected slip',
            'how sure',
          ],
          ['', '', '', '', 'nothing found in 1 picks and 1 lots', '', '', '', '', ''],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['lot', 'day', 'mass'],
            ['A-101', 46007, 4.1],
          ],
          [
            ['lot', 'strain'],
            ['A-101', 'Alder-3'],
          ],
          auditStrains,
        ],
        code: '#VALUE!',
        says: 'harvests: a column headed date needed, found lot, day, mass',
        remedy: 'Head the column of pick dates “date”.',
      },
    ],
    needsDateSystem: true,
    whole: (harvests, lots, strains, settings, { dateSystem }) => {
      const limit = (name: string): number | undefined =>
        settings?.rows.find(({ setting }) => setting === name)?.value;
      const picks = harvests.rows.map((pick, i): PickRecord => ({
        row: harvests.rowNumbers[i]!,
        lot: labelOf(pick.lot),
        date: entryOf(pick.date),
        mass: entryOf(pick.mass),
        flush: entryOf(pick.flush),
        blocks: entryOf(pick.blocks),
      }));
      const records = lots.rows.map((lot, i): LotRecord => ({
        row: lots.rowNumbers[i]!,
        lot: labelOf(lot.lot),
        strain: labelOf(lot.strain),
        blocks: entryOf(lot.blocks),
        blockMass: entryOf(lot['block mass']),
        moisture: entryOf(lot.moisture),
        inoculated: entryOf(lot.inoculated),
        loaded: entryOf(lot.loaded),
        total: entryOf(lot.total),
      }));
      const facts = new Map(
        strains.rows.map((strain): [string, StrainFacts] => [
          labelKey(strain.strain),
          {
            earliest: strain.earliest,
            firstPick: strain['first pick'],
            pickDays: strain['pick days'],
            flushGap: strain['flush gap'],
            flushes: strain.flushes,
            efficiency: strain.efficiency,
          },
        ]),
      );
      const findings = yieldAudit(picks, records, facts, {
        deviations: limit('deviations') ?? USUAL_LIMITS.deviations,
        lowestEfficiency: limit('lowest efficiency') ?? USUAL_LIMITS.lowestEfficiency,
        highestEfficiency: limit('highest efficiency') ?? USUAL_LIMITS.highestEfficiency,
      });
      if (findings.length === 0) {
        const words = `nothing found in ${picks.length} picks and ${records.length} lots`;
        return [['', '', '', '', words, '', '', '', '', '']];
      }
      return findings.map(
        ({ table: name, row: at, lot, code, measure, value, expected, corrected, slip }): Answer[] => {
          // Written dates: the column holds masses and dates, and not every host can format cell by cell.
          const shownAs = (figure: number | string): Answer =>
            typeof figure === 'number' && measure === 'date'
              ? shownCell(figure, 'date', dateSystem)
              : typeof figure === 'number' && measure === 'percent'
                ? new Formatted(figure, 'percent')
                : figure;
          const { severity, says } = RULES[code];
          return [
            name,
            at,
            lot,
            code,
            says,
            shownAs(value),
            shownAs(expected),
            shownAs(corrected),
            slip,
            severity,
          ];
        },
      );
    },
  }),
];

function entryOf(cell: Cell | undefined): Entry {
  if (cell === undefined || cell === null || isBlankOrZero(cell)) return undefined;
  if (typeof cell === 'number' || typeof cell === 'string') return cell;
  return cell instanceof CellError ? cell.code : String(cell).toUpperCase();
}

function labelOf(cell: Cell | undefined): string {
  return String(entryOf(cell) ?? '').trim();
}
