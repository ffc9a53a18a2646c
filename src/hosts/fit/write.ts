import { addressOf } from '../xlsx/address';
import { formula, heading, remark, type PlainSheet } from '../xlsx/describe';
import {
  AnswerPage,
  LEFT_OUT,
  cell,
  firstSerial,
  word,
  type AnswerCall,
  type Given,
  type Surroundings,
} from './answerPage';
import { HEADLINES, UNANSWERED, leftOutWords, planHeadlines } from './answerTables';
import { placeColumn } from './auditPlaces';
import { READ_TITLE, sheetText } from './book';
import type { Fit } from './fitted';
import { notFollowed } from './goneWords';
import { jobUnit } from './jobUnit';
import type { JobName } from './jobs';
import { ReadSheet } from './readSheet';
import type { ColumnRead } from './referred';
import { USUAL_DAYS } from './whichRecords';

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

/** What a later remark on a lot does not do, where none says yet that a lot is gone. */
function laterRemarks({ tables }: Fit): string {
  const lots = tables.get('lots');
  const headers = lots ? notFollowed(lots.candidate) : [];
  if (headers.length === 0) return '';
  return ` “${headers.join('” and “')}” of your lots ${headers.length === 1 ? 'is' : 'are'} read only when you choose the job: choose it again once it says there that a lot is gone.`;
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
    return [
      `Lots that may be opened in these days, and those that are past their last day.${laterRemarks(page.fit)}`,
    ];
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
    const shelves = fit.hasShelves ? page.table('standing') : undefined;
    let left = 0;
    for (const [view, title] of PLAN_VIEWS) {
      page.add(heading(addressOf({ row: top, column: left }), title));
      const ofDays = limits ?? LEFT_OUT;
      const onShelves = shelves ?? LEFT_OUT;
      const ofPlan = shelves ? [ofDays, shelves] : limits ? [limits] : [];
      const asked = view === 'plan' ? ofPlan : [ofDays, onShelves, LEFT_OUT, LEFT_OUT, word(view)];
      const at = addressOf({ row: top + 1, column: left });
      left += page.call(at, 'LOADPLAN', [...given, ...asked], `LOADPLAN ${view}`) + 1;
    }
    const unit = jobUnit(fit.tables);
    return [
      `Masses are in ${unit ?? 'the unit of your own sheets'}. Lots already loaded are left out; the shelves they hold are ${shelves ? '' : 'not '}counted.${laterRemarks(fit)}`,
    ];
  },

  audit: (page) => {
    const [harvests, lots, strains] = [page.table('harvests'), page.table('lots'), page.table('strains')];
    page.add(heading('A3', 'what cannot be right'), ...placeColumn(page));
    const given = [harvests, lots, strains, ...unitSetting(page.fit)];
    const columns = page.call('B4', 'YIELDAUDIT', given, 'YIELDAUDIT');
    const lacking = OF_EACH_BLOCK.filter((column) => !page.reads('lots', column));
    if (lacking.length === 0) {
      const left = columns + 2;
      page.add(heading(addressOf({ row: 2, column: left }), 'what came off'));
      page.call(addressOf({ row: 3, column: left }), 'CROPTABLE', [harvests, lots], 'CROPTABLE');
    }
    const note = 'The surest findings first. “On your sheet” is the cell to look at; correct it there.';
    const without = `What came off each lot is left out: your lots have no ${lacking.join(' and no ')}.`;
    return [lacking.length === 0 ? note : `${note} ${without}`];
  },

  mix: (page) => {
    const blocks = page.figure('A3', 'blocks', null, 'count');
    const mass = page.figure('A4', 'block mass', null, 'number');
    const moisture = page.figure('A5', 'moisture', null, 'percent');
    page.call('A7', 'MIX', [page.table('recipe'), blocks, mass, moisture], 'MIX');
    return ['Change the three figures; the list follows.'];
  },
};

/** Columns of lots without which nothing is told of what each gave. */
const OF_EACH_BLOCK = ['strain', 'blocks', 'block mass', 'moisture'] as const;

/** The unit of the masses, where the grower's own header says it: which slips can be depends on it. */
function unitSetting(fit: Fit): Given[] {
  const unit = jobUnit(fit.tables);
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
