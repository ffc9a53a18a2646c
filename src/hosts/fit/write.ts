import type { Cell, Grid } from '../../worksheet/cells/cell';
import { typedCell } from '../../worksheet/cells/shown';
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
import type { Answer } from './answers';
import {
  HEADLINES,
  leftOutWords,
  looksOf,
  planHeadlines,
  UNANSWERED,
  type AnswerTable,
} from './answerTables';
import { READ_TITLE, sheetText } from './book';
import { USUAL_DAYS, type Fit, type TableFit } from './fit';
import type { JobName, TableName } from './jobs';
import { figureOf, jobUnit, ReadSheet, type ColumnRead, type Referred } from './readSheet';

/** A call of an answer: the formula, and what it is given now. */
export interface AnswerCall {
  readonly address: string;
  /** As the grower would type it. */
  readonly formula: string;
  readonly name: string;
  readonly grids: readonly (Grid | null)[];
}

/** The sheets of a job: how the grower's own are read, where they cannot be read as they are, and the answer. */
export interface JobSheets {
  readonly sheets: readonly PlainSheet[];
  /** The sheet of the answer. */
  readonly answer: string;
  readonly calls: readonly AnswerCall[];
  /** The formulas that read the grower's columns, with what they give now. */
  readonly columns: readonly ColumnRead[];
}

const ANSWER_SHEET: Record<JobName, string> = {
  ready: 'Ready lots',
  plan: 'Loading plan',
  audit: 'Audit',
  mix: 'Weighing list',
};

/** What the sheets are written into. */
export interface Surroundings {
  /** Names that the workbook has already. */
  readonly sheets: readonly string[];
  readonly tables: readonly string[];
  /** Today's serial. */
  readonly today: number;
  /** The headers that each call's answer has now, where they are known: columns depend on the data. */
  readonly headers?: readonly (readonly string[] | undefined)[];
}

/** The name, or the name and the first number that makes it new; case does not count. */
function free(name: string, taken: readonly string[]): string {
  const others = new Set(taken.map((one) => one.toLowerCase()));
  let found = name;
  for (let n = 2; others.has(found.toLowerCase()); n++) found = `${name}${n}`;
  return found;
}

/** What a fit writes, once nothing is open that it cannot do without. */
export function sheetsOf(fit: Fit, around: Surroundings): JobSheets {
  const { name, title } = fit.job;
  const answer = free(ANSWER_SHEET[name], around.sheets);
  const readName = free(`${answer} read`, around.sheets);
  const tables = [...around.tables];
  const read = new ReadSheet(
    readName,
    fit,
    (wanted) => {
      const own = free(wanted, tables);
      tables.push(own);
      return own;
    },
    { text: `${sheetText(answer)}!$B$3`, serial: firstSerial(fit, around) },
  );
  const page = new AnswerPage(fit, read, around);
  const notes = PAGES[name](page);
  const answerSheet: PlainSheet = { name: answer, title, notes, things: page.things, gridLines: true };
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
    calls: page.calls,
    columns: read.columns,
  };
}

/** What a call is given: as its formula says it, and the cells that it then reads. */
interface Given {
  readonly text: string;
  readonly grid: Grid | null;
}

const LEFT_OUT: Given = { text: '', grid: null };
const cell = (text: string, value: Cell): Given => ({ text, grid: [[value]] });
const word = (value: string): Given => ({ text: `"${value}"`, grid: [[value]] });

/** Rows below an answer kept in its format. */
const GROWTH = 300;

const WRITTEN_DAY = /^\d{4}-\d\d-\d\d$/;

/** The day that the grower said to count from. */
function saidDay({ answers }: Fit): string | undefined {
  const said = answers.figures?.['today'];
  return typeof said === 'string' && WRITTEN_DAY.test(said) ? said : undefined;
}

function firstSerial(fit: Fit, { today }: Surroundings): number {
  const said = saidDay(fit);
  const typed = said === undefined ? today : typedCell(said, fit.book.dateSystem);
  return typeof typed === 'number' ? typed : today;
}

/** The sheet of an answer as it is laid out. */
class AnswerPage {
  readonly things: Thing[] = [];
  readonly calls: AnswerCall[] = [];

  constructor(
    readonly fit: Fit,
    readonly read: ReadSheet,
    private readonly around: Surroundings,
  ) {}

  add(...things: readonly Thing[]): void {
    this.things.push(...things);
  }

  /** A table of the job as a call is given it. */
  table(name: TableName): Given {
    const { whole, grid } = this.referred(name);
    return { text: whole, grid };
  }

  referred(name: TableName): Referred {
    return this.read.referred.get(name)!;
  }

  /** Whether a column of the grower's is read for a table. */
  reads(name: TableName, column: string): boolean {
    return this.fit.tables.get(name)?.readings.some((one) => one.name === column) ?? true;
  }

  /** A call of Pinset whose answer is a table with headers of its own; gives the number of its columns. */
  call(at: string, name: string, given: readonly Given[], table: AnswerTable): number {
    const formulaText = `=${PREFIX}${name}(${given.map(({ text }) => text).join(',')})`;
    const { reads, widths } = looksOf(table, this.around.headers?.[this.calls.length]);
    this.calls.push({ address: at, formula: formulaText, name, grids: given.map(({ grid }) => grid) });
    this.add(formula(at, formulaText, reads, { headed: true, growth: GROWTH, widths }));
    return reads.length;
  }

  /** The day from which the job counts, in B3: today's, or the one that was said. */
  firstDay(label: string): Given {
    const said = saidDay(this.fit);
    if (said !== undefined) {
      this.add(inputs('A3', { label, value: said, reads: 'date' }));
      return cell('B3', typedCell(said, this.fit.book.dateSystem));
    }
    this.add(figures('A3', { label, formula: '=TODAY()', reads: 'date', remark: 'or type any day' }));
    return cell('B3', this.around.today);
  }

  /** A figure of the job in a cell of its own: the one that was said, or the usual one. */
  figure(at: string, label: string, usual: Answer, reads: Reads, name = label): Given {
    const value = figureOf(this.fit.answers.figures?.[name] ?? usual, reads === 'percent');
    this.add(inputs(at, { label, value, reads }));
    return cell(at.replace(/^A/, 'B'), value);
  }
}

/** Lays the answer of a job out; gives the notes under its title. */
const PAGES: Record<JobName, (page: AnswerPage) => readonly string[]> = {
  ready: (page) => {
    const from = page.firstDay('today');
    const days = page.figure('A4', 'days, from that day on', 7, 'count', 'days');
    const [first, more] = [from.grid![0]![0]!, days.grid![0]![0]!];
    const last = typeof first === 'number' && typeof more === 'number' ? first + more - 1 : null;
    const to = cell('B3+B4-1', last);
    // Lines below the lots say what is left out, in a column too narrow for them: here they are seen whole.
    page.add(formula('A5', `=IF(ISERROR(A6),${UNANSWERED},${leftOutWords('A6')})`, 'text', { spills: true }));
    page.call('A6', 'READYLOTS', [page.table('lots'), page.table('strains'), from, to], 'READYLOTS');
    return ['Lots that may be opened in these days, and those that are past their last day.'];
  },

  plan: (page) => {
    const { fit, read } = page;
    const first = page.firstDay('first day');
    const days = page.figure('A4', 'days', USUAL_DAYS, 'count');
    read.leftOut.forEach(({ table, formula: text }, i) => {
      const at = (column: number): string => addressOf({ row: 2 + i, column });
      page.add(
        remark(at(5), `${table} left out, as they cannot be read`),
        formula(at(4), text, 'count', { spills: true }),
      );
    });
    // What is wrong with the plan as a whole is in its last column: here it is seen at once, a line in each row.
    const told = Math.max(4, 2 + read.leftOut.length);
    const top = told + HEADLINES;
    const planAt = addressOf({ row: top + 1, column: 0 });
    const lines = `=IF(ISERROR(${planAt}),${UNANSWERED},${planHeadlines(planAt)})`;
    page.add(formula(addressOf({ row: told, column: 0 }), lines, 'text', { spills: true }));
    const tables = (['lots', 'strains', 'rooms', 'orders'] as const).map((name) => page.table(name));
    const given = [...tables, first, days];
    const limits = fit.filled.has('calendar') ? page.table('calendar') : undefined;
    let left = 0;
    for (const [view, title] of PLAN_VIEWS) {
      page.add(heading(addressOf({ row: top, column: left }), title));
      const ofDays = limits ?? LEFT_OUT;
      const asked =
        view === 'plan' ? (limits ? [limits] : []) : [ofDays, LEFT_OUT, LEFT_OUT, LEFT_OUT, word(view)];
      const at = addressOf({ row: top + 1, column: left });
      left += page.call(at, 'LOADPLAN', [...given, ...asked], `LOADPLAN ${view}`) + 1;
    }
    const unit = jobUnit(fit);
    return [
      `Masses are in ${unit ?? 'the unit of your own sheets'}. Lots already loaded are left out; the shelves they hold are not counted.`,
    ];
  },

  audit: (page) => {
    const [harvests, lots, strains] = [page.table('harvests'), page.table('lots'), page.table('strains')];
    page.add(heading('A3', 'what cannot be right'), ...placeColumn(page));
    const given = [harvests, lots, strains, ...unitSetting(page.fit)];
    const columns = page.call('B4', 'YIELDAUDIT', given, 'YIELDAUDIT');
    // What came off is told of each block: without a column of blocks there is only the audit.
    if (page.reads('lots', 'blocks')) {
      const left = columns + 2;
      page.add(heading(addressOf({ row: 2, column: left }), 'what came off'));
      page.call(addressOf({ row: 3, column: left }), 'CROPTABLE', [harvests, lots], 'CROPTABLE');
    }
    return ['The surest findings first. “On your sheet” is the cell to look at; correct it there.'];
  },

  mix: (page) => {
    const blocks = page.figure('A3', 'blocks', null, 'count');
    const mass = page.figure('A4', 'block mass', null, 'number');
    const moisture = page.figure('A5', 'moisture', null, 'percent');
    page.call('A7', 'MIX', [page.table('recipe'), blocks, mass, moisture], 'MIX');
    return ['Change the three figures; the list follows.'];
  },
};

/** The unit of the masses, where the grower's own header says it: which slips can be depends on it. */
function unitSetting(fit: Fit): Given[] {
  const unit = jobUnit(fit);
  if (unit === undefined) return [];
  const text = `{"setting","value";"unit","${unit}"}`;
  return [
    {
      text,
      grid: [
        ['setting', 'value'],
        ['unit', unit],
      ],
    },
  ];
}

const PLAN_VIEWS = [
  ['plan', 'what to load when'],
  ['orders', 'orders'],
  ['lots', 'what is left of each lot'],
  ['picks', 'what is picked each day'],
] as const;

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
function placeColumn(page: AnswerPage): Thing[] {
  const { tables } = page.fit;
  const [picks, batches] = [tables.get('harvests'), tables.get('lots')];
  const [harvests, lots] = [page.referred('harvests'), page.referred('lots')];
  if (!picks || !batches || !harvests.place || !lots.place) return [];
  const column = (letter: string): string => `${letter}5:${letter}${4 + NAMED_ROWS}`;
  const [table, row, says] = [column('B'), column('C'), `${column('E')}&" "&${column('G')}`];
  /** The letter of a column as a formula says it: parts may have it in different columns. */
  const letterOf = ({ candidate, readings }: TableFit, { lastRows }: Referred, name: string): string => {
    const at = readings.find((one) => one.name === name)?.match.column ?? readings[0]!.match.column;
    const letters = (candidate.parts ?? [candidate]).map((part) => {
      const { column } = part.origin(part.dataRows[0]!, at);
      return `"${addressOf({ row: 0, column }).replace(/\d+/, '')}"`;
    });
    if (new Set(letters).size === 1) return letters[0]!;
    return letters.reduceRight((rest, own, part) => `IF(${row}<=${lastRows![part]!},${own},${rest})`);
  };
  /** The letter of the column that a finding is about, by what it says. */
  const letter = (
    of: TableFit,
    referred: Referred,
    about: readonly (readonly [says: string, column: string])[],
    otherwise: string,
  ) =>
    about.reduceRight(
      (rest, [said, name]) =>
        `IF(ISNUMBER(SEARCH("${said}",${says})),${letterOf(of, referred, name)},${rest})`,
      letterOf(of, referred, otherwise),
    );
  const placeIn = ({ place }: Referred, column: string): string => {
    const at = place!(row);
    return `${at.sheet}&"!"&${at.column ?? column}&${at.row}`;
  };
  const ofPick = placeIn(harvests, letter(picks, harvests, ABOUT_PICKS, 'mass'));
  const ofLot = placeIn(lots, letter(batches, lots, ABOUT_LOTS, 'lot'));
  const text = `=IF(ISNUMBER(${row}),IF(${table}="harvests",${ofPick},${ofLot}),"")`;
  return [formula('A5', text, 'text', { headers: ['on your sheet'], spills: true, widths: [20] })];
}
