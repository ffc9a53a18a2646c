import { PREFIX } from '../../worksheet/constants';
import {
  figures,
  formula,
  heading,
  inputs,
  remark,
  type PlainSheet,
  type Reads,
  type Thing,
} from '../xlsx/describe';
import { addressOf } from '../xlsx/address';
import type { Answers } from './answers';
import { READ_TITLE, sheetText } from './book';
import type { Fit, TableFit } from './fit';
import type { JobName } from './jobs';
import { figureOf, jobUnit, ReadSheet, type Referred } from './readSheet';

/** The sheets of a job: how the grower's own are read, where they cannot be read as they are, and the answer. */
export interface JobSheets {
  readonly sheets: readonly PlainSheet[];
  /** The sheet of the answer. */
  readonly answer: string;
  /** The calls of the answer, as the grower would type them. */
  readonly calls: readonly { readonly address: string; readonly formula: string }[];
}

const ANSWER_SHEET: Record<JobName, string> = {
  ready: 'Ready lots',
  plan: 'Loading plan',
  audit: 'Audit',
  mix: 'Weighing list',
};

/** Names that a workbook has already. */
export interface Taken {
  readonly sheets: readonly string[];
  readonly tables: readonly string[];
}

/** The name, or the name and the first number that makes it new; case does not count. */
function free(name: string, taken: readonly string[]): string {
  const others = new Set(taken.map((one) => one.toLowerCase()));
  let found = name;
  for (let n = 2; others.has(found.toLowerCase()); n++) found = `${name}${n}`;
  return found;
}

/** What a fit writes, once nothing is open that it cannot do without. */
export function sheetsOf(fit: Fit, taken: Taken): JobSheets {
  const { name, title } = fit.job;
  const answer = free(ANSWER_SHEET[name], taken.sheets);
  const readName = free(`${answer} read`, taken.sheets);
  const tables = [...taken.tables];
  const read = new ReadSheet(readName, fit, (wanted) => {
    const own = free(wanted, tables);
    tables.push(own);
    return own;
  });
  const { notes, things } = ANSWERS[name](fit, (table) => read.referred.get(table)!, read.leftOut);
  const answerSheet: PlainSheet = { name: answer, title, notes, things, gridLines: true };
  const readSheet: PlainSheet = {
    name: readName,
    title: `${READ_TITLE}${title}`,
    notes: [
      'Read live from your own cells: correct them there. Keep this sheet, and the next time begins from it.',
    ],
    things: read.things,
    gridLines: true,
  };
  return {
    sheets: [...(read.things.length > 0 ? [readSheet] : []), answerSheet],
    answer,
    calls: things.flatMap((thing) =>
      thing.kind === 'formula' && thing.formula.includes(PREFIX)
        ? [{ address: thing.at, formula: thing.formula }]
        : [],
    ),
  };
}

type Refer = (table: keyof typeof NAMES) => Referred;
const NAMES = { lots: 0, strains: 0, rooms: 0, orders: 0, harvests: 0, recipe: 0 };

interface AnswerPage {
  readonly notes: readonly string[];
  readonly things: readonly Thing[];
}

const VIEW_READS: Readonly<Record<string, readonly Reads[]>> = {
  plan: ['date', 'text', 'text', 'text', 'count', 'count', 'date', 'number', 'percent', 'text'],
  orders: ['text', 'date', 'date', 'mass', 'mass', 'mass', 'mass', 'text', 'text'],
  lots: ['text', 'text', 'count', 'count', 'count', 'count', 'date'],
  picks: ['date', 'mass'],
};
const GROWTH = 300;

const WRITTEN_DAY = /^\d{4}-\d\d-\d\d$/;

/** The day from which a job counts: today's, in a cell of its own, or the one that was said. */
function dayCell({ figures: said }: Answers, label: string): Thing {
  const day = said?.['today'];
  return typeof day === 'string' && WRITTEN_DAY.test(day)
    ? inputs('A3', { label, value: day, reads: 'date' })
    : figures('A3', { label, formula: '=TODAY()', reads: 'date', remark: 'or type any day' });
}

const ANSWERS: Record<JobName, (fit: Fit, refer: Refer, leftOut: ReadSheet['leftOut']) => AnswerPage> = {
  ready: ({ answers }, refer) => ({
    notes: ['Lots that may be opened in the days ahead, and those that are past their last day.'],
    things: [
      dayCell(answers, 'today'),
      inputs('A4', {
        label: 'days ahead',
        value: figureOf(answers.figures?.['days'] ?? 7, false),
        reads: 'count',
      }),
      formula(
        'A6',
        `=PINSET.READYLOTS(${refer('lots').whole},${refer('strains').whole},B3,B3+B4)`,
        ['text', 'text', 'count', 'date', 'date', 'date', 'date', 'count', 'text'],
        { headed: true, growth: GROWTH },
      ),
    ],
  }),

  plan: (fit, refer, leftOut) => {
    const { answers } = fit;
    const given = `${refer('lots').whole},${refer('strains').whole},${refer('rooms').whole},${refer('orders').whole},B3,B4`;
    const unit = jobUnit(fit);
    const views = [
      { view: 'plan', title: 'what to load when' },
      { view: 'orders', title: 'orders' },
      { view: 'lots', title: 'what is left of each lot' },
      { view: 'picks', title: 'what is picked each day' },
    ] as const;
    let left = 0;
    const things = views.flatMap(({ view, title }): Thing[] => {
      const reads = VIEW_READS[view]!;
      const at = addressOf({ row: 6, column: left });
      const above = addressOf({ row: 5, column: left });
      left += reads.length + 1;
      const text =
        view === 'plan' ? `=PINSET.LOADPLAN(${given})` : `=PINSET.LOADPLAN(${given},,,,,"${view}")`;
      return [heading(above, title), formula(at, text, reads, { headed: true, growth: GROWTH })];
    });
    return {
      notes: [
        `Masses are in ${unit ?? 'the unit of your own sheets'}. Lots already loaded are left out; the shelves they hold are not counted.`,
      ],
      things: [
        dayCell(answers, 'first day'),
        inputs('A4', {
          label: 'days',
          value: figureOf(answers.figures?.['days'] ?? 28, false),
          reads: 'count',
        }),
        ...leftOut.flatMap(({ table, formula: text }, i) => {
          const at = (column: number): string => addressOf({ row: 2 + i, column });
          return [
            remark(at(5), `${table} left out, as they cannot be read`),
            formula(at(4), text, 'count', { spills: true }),
          ];
        }),
        ...things,
      ],
    };
  },

  audit: (fit, refer) => {
    const [harvests, lots, strains] = [refer('harvests'), refer('lots'), refer('strains')];
    return {
      notes: ['The surest findings first. “On your sheet” is the cell to look at; correct it there.'],
      things: [
        heading('A3', 'what cannot be right'),
        formula(
          'A4',
          `=PINSET.YIELDAUDIT(${harvests.whole},${lots.whole},${strains.whole})`,
          ['text', 'count', 'text', 'text', 'text', 'number', 'number', 'number', 'text', 'text'],
          { headed: true, growth: GROWTH },
        ),
        ...placeColumn(fit, harvests, lots),
        heading('M3', 'what came off'),
        formula(
          'M4',
          `=PINSET.CROPTABLE(${harvests.whole},${lots.whole})`,
          ['text', 'text', 'count', 'mass'],
          { headed: true, growth: GROWTH },
        ),
      ],
    };
  },

  mix: ({ answers }, refer) => {
    const figure = (name: string, asShare = false) => figureOf(answers.figures?.[name] ?? null, asShare);
    return {
      notes: ['Change the three figures; the list follows.'],
      things: [
        inputs(
          'A3',
          { label: 'blocks', value: figure('blocks'), reads: 'count' },
          { label: 'block mass', value: figure('block mass'), reads: 'number' },
          { label: 'moisture', value: figure('moisture', true), reads: 'percent' },
        ),
        formula(
          'A7',
          `=PINSET.MIX(${refer('recipe').whole},B3,B4,B5)`,
          ['text', 'number', 'number', 'number'],
          { headed: true },
        ),
      ],
    };
  },
};

/** Rows of findings beside which a cell of the grower's sheet is named. */
const NAMED_ROWS = 500;

/** Words of a finding and the column to look at, the first that fits. */
const ABOUT_PICKS: readonly (readonly [says: string, column: string])[] = [
  ['similar name', 'lot'],
  ['this lot', 'lot'],
  ['no lot', 'lot'],
  ['spelled', 'lot'],
  ['the flush', 'flush'],
  ['blocks', 'blocks'],
  ['date', 'date'],
];
const ABOUT_LOTS: readonly (readonly [says: string, column: string])[] = [
  ['load date', 'loaded'],
  ['loaded', 'loaded'],
  ['block mass', 'block mass'],
  ['moisture', 'moisture'],
  ['number of blocks', 'blocks'],
  ['inoculation', 'inoculated'],
  ['strain', 'strain'],
];

/** The cell of the grower's sheet beside each finding: Pinset counts rows in the table that it was given. */
function placeColumn({ tables }: Fit, harvests: Referred, lots: Referred): Thing[] {
  const [picks, batches] = [tables.get('harvests'), tables.get('lots')];
  if (!picks || !batches || harvests.rowsDown === undefined || lots.rowsDown === undefined) return [];
  const column = (letter: string): string => `${letter}5:${letter}${4 + NAMED_ROWS}`;
  const [table, row, wrong] = [column('A'), column('B'), column('D')];
  const letterOf = ({ readings }: TableFit, name: string): string => {
    const at = readings.find((one) => one.name === name)?.match.column ?? readings[0]!.match.column;
    return addressOf({ row: 0, column: at }).replace(/\d+/, '');
  };
  const sheetOf = ({ candidate }: TableFit): string =>
    `${sheetText(candidate.sheet.name)}!`.replaceAll('"', '""');
  /** The letter of the column that a finding is about, by what it says. */
  const letter = (
    of: TableFit,
    about: readonly (readonly [says: string, column: string])[],
    otherwise: string,
  ) =>
    about.reduceRight(
      (rest, [says, name]) => `IF(ISNUMBER(SEARCH("${says}",${wrong})),"${letterOf(of, name)}",${rest})`,
      `"${letterOf(of, otherwise)}"`,
    );
  const ofPick = `"${sheetOf(picks)}"&${letter(picks, ABOUT_PICKS, 'mass')}&(${row}+${harvests.rowsDown})`;
  const ofLot = `"${sheetOf(batches)}"&${letter(batches, ABOUT_LOTS, 'lot')}&(${row}+${lots.rowsDown})`;
  const text = `=IF(ISNUMBER(${row}),IF(${table}="harvests",${ofPick},${ofLot}),"")`;
  return [formula('K5', text, 'text', { headers: ['on your sheet'], spills: true })];
}
