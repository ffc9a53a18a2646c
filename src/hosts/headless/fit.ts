import { newCaller, type Caller } from '../../worksheet/call';
import { isCellError, type Cell } from '../../worksheet/cells/cell';
import { openProven, openWorkbook } from '../engine/openWorkbook';
import type { CalculatingWorkbook } from '../engine/workbook';
import type { Answers } from '../fit/answers';
import { AnswersFault, readAnswers } from '../fit/readAnswers';
import { todayIn } from '../fit/book';
import { bookOf } from '../fit/content';
import { inOwnDigits } from '../fit/digits';
import { fitJob } from '../fit/fit';
import type { Fit } from '../fit/fitted';
import { JOBS, type JobName } from '../fit/jobs';
import { keptAnswers, withAnswers } from '../fit/kept';
import { functionReader, READ_WITH } from '../fit/functionReader';
import { answersTemplate } from '../fit/answersTemplate';
import { colourWords, ignoredWords, inOwnCells, readingWords, sourceWords, TABLE_WORDS } from '../fit/told';
import { placeOfCells, placeOfUnread, unreadTogether, unreadWords } from '../fit/unreadTold';
import { questionWords } from '../fit/questionTold';
import { prepare } from '../fit/prepare';
import { mayBeLeftOut } from '../fit/leaveOut';
import type { JobSheets } from '../fit/write';
import type { Surroundings } from '../fit/answerPage';
import { addressOf } from '../xlsx/address';
import { withSheets } from '../xlsx/newSheets';
import { Package } from '../xlsx/package';
import { partsOf } from '../xlsx/parts';
import { readTables, readWorkbook } from '../xlsx/read';
import { CommandFault, type Output, type Status } from './command';
import { aboutFile, bytesOf, targetOf, writeWhole } from './files';
import { placeText } from './kept';
import { causesOf, faultsIn, jsonValue, namesText, rowText, shownResult, type Shown } from './shown';
import { jsonText, oneLine } from './terminal';

export interface FitOptions {
  readonly job: string | undefined;
  readonly answers: string | undefined;
  readonly out: string | undefined;
  readonly template: boolean;
  readonly json: boolean;
}

const isJob = (word: string): word is JobName => (JOBS as readonly string[]).includes(word);

/** Fits a job to a grower's own workbook: prints the match and what is open, and writes the formulas where asked. */
export async function fit(path: string, options: FitOptions, output: Output): Promise<Status> {
  const { job } = options;
  if (job !== undefined && !isJob(job)) {
    throw new CommandFault(`there is no job ${job}, only ${JOBS.join(', ')}`);
  }
  if (job === undefined && (options.out !== undefined || options.template)) {
    throw new CommandFault(`--job needed: one of ${JOBS.join(', ')}`);
  }
  const target = options.out === undefined ? undefined : await targetOf(options.out);
  const answers = options.answers === undefined ? undefined : await answersOf(options.answers);
  const bytes = await bytesOf(path);
  const content = aboutFile(path, () => readWorkbook(bytes));
  const { workbook } = await openProven(content);
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const tables = readTables(file, parts);
  const book = bookOf(content, tables, (sheet, address) => workbook.result(sheet, address).value);
  const caller = newCaller();
  await caller.ready(READ_WITH);
  const reader = functionReader(caller, book.dateSystem);
  if (job === undefined) {
    for (const name of JOBS)
      tellJob(fitJob(book, name, keptAnswers(book, name), reader), options.json, output);
    return 0;
  }
  const known = withAnswers(keptAnswers(book, job), answers ?? {});
  const fitted = fitJob(book, job, known, reader);
  if (options.template) {
    output.out(jsonText(answersTemplate(fitted), 2));
    return 0;
  }
  const isOpen = fitted.questions.length > 0;
  if (isOpen && target !== undefined) {
    tell(fitted, undefined, options.json, output);
    const open = fitted.questions.length;
    throw new CommandFault(
      `${open === 1 ? '1 question is' : `${open} questions are`} open, so nothing was written`,
    );
  }
  const written = isOpen
    ? undefined
    : await calculated(
        bytes,
        await prepared(fitted, caller, {
          sheets: parts.allSheets,
          tables: tables.map(({ name }) => name),
          today: todayIn(book.dateSystem),
        }),
      );
  if (written && target !== undefined) await writeWhole(target, written.bytes);
  tell(fitted, written, options.json, output);
  const faults = written?.given.some(({ shown, address }) => faultsIn(shown, address).length > 0);
  return isOpen || faults || fitted.unread.length + fitted.unused.length > 0 ? 1 : 0;
}

async function prepared(fitted: Fit, caller: Caller, around: Surroundings): Promise<JobSheets> {
  const sheets = await prepare(fitted, around, async (name, grids, dateSystem) => {
    await caller.ready([name]);
    return caller.call(name, grids, { dateSystem });
  });
  return sheets!;
}

async function answersOf(path: string): Promise<Answers> {
  const text = new TextDecoder().decode(await bytesOf(path, 'a .json file'));
  try {
    return readAnswers(text);
  } catch (fault) {
    throw fault instanceof AnswersFault ? new CommandFault(`${path}: ${fault.message}`) : fault;
  }
}

interface Written {
  readonly bytes: Uint8Array;
  readonly sheets: JobSheets;
  readonly given: readonly { readonly address: string; readonly formula: string; readonly shown: Shown }[];
  /** The grower's own cell of each finding of an audit, under a header; none for other jobs. */
  readonly places: readonly (readonly Cell[])[];
}

const isAudit = ({ formula }: { readonly formula: string }): boolean => formula.includes('YIELDAUDIT(');

/** The header stands over the first finding. */
const placesIn = (workbook: CalculatingWorkbook, sheet: string): (readonly Cell[])[] => [
  [workbook.result(sheet, 'A4').value],
  ...(workbook.result(sheet, 'A5').block ?? []),
];

/** The file with the sheets of a job, their results beside their formulas. */
async function calculated(bytes: Uint8Array, sheets: JobSheets): Promise<Written> {
  const workbook: CalculatingWorkbook = await openWorkbook(readWorkbook(withSheets(bytes, sheets.sheets)));
  const shownAt = (address: string): Shown =>
    shownResult(workbook, sheets.answer, address, workbook.result(sheets.answer, address));
  return {
    bytes: withSheets(bytes, sheets.sheets, (sheet, address) => {
      const { value, block } = workbook.result(sheet, address);
      return block ?? [[value]];
    }),
    sheets,
    given: sheets.calls.map(({ address, formula }) => ({ address, formula, shown: shownAt(address) })),
    places: sheets.calls.some(isAudit) ? placesIn(workbook, sheets.answer) : [],
  };
}

/** One line for each job: what of it the book has, and what is asked. */
function tellJob({ job, tables, questions }: Fit, json: boolean, { out }: Output): void {
  const found = [...tables].map(([name, table]) => ({ table: name, from: sourceWords(table) }));
  if (json) {
    out(
      jsonText({ job: job.name, title: job.title, tables: found, questions: questions.map(questionWords) }),
    );
    return;
  }
  out(`${job.title} (--job ${job.name})`);
  for (const { table, from } of found) out(oneLine(`  ${TABLE_WORDS[table]}: ${from}`).replace(/^/, '  '));
  for (const question of questions) out(`  asks: ${oneLine(questionWords(question))}`);
}

const EVIDENCE = 5;
const MOST_ROWS = 12;

function tell(fitted: Fit, written: Written | undefined, json: boolean, output: Output): void {
  if (json) tellJson(fitted, written, output);
  else tellText(fitted, written, output);
}

function tellText(fitted: Fit, written: Written | undefined, { out }: Output): void {
  const { job, book, answers, tables, filled, questions, unread, joined, colourKeys, unused } = fitted;
  out(job.title);
  for (const [name, table] of tables) {
    out('');
    out(`${TABLE_WORDS[name]}: ${oneLine(sourceWords(table))}`);
    for (const { name: column, match } of table.readings) {
      const evidence = table.evidence.map((row) => row[column] ?? '').slice(0, EVIDENCE);
      const how = `${readingWords(table, column)}; matched by ${match.by}`;
      out(
        `  ${column} ← ${oneLine(match.header)}: ${oneLine(evidence.map((one) => one || '–').join(' | '))} (${how})`,
      );
    }
    const ignored = ignoredWords(table);
    if (ignored !== '') out(`  ${oneLine(ignored)}`);
  }
  for (const [name, rows] of filled) out(`\n${TABLE_WORDS[name]}: ${rows.length} as you gave them`);
  if (joined.length > 0) {
    out('\nread as one label:');
    for (const { label, as, cells } of joined)
      out(`  ${oneLine(label)} as ${oneLine(as)} in ${cells === 1 ? '1 cell' : `${cells} cells`}`);
  }
  out(
    unread.length === 0
      ? '\nevery cell that is needed can be read'
      : `\n${unread.length === 1 ? '1 cell cannot' : `${unread.length} cells cannot`} be read:`,
  );
  for (const together of unreadTogether(unread)) {
    const [cell] = together.cells;
    out(`  ${oneLine(placeOfCells(together))} (${cell!.about}): ${oneLine(unreadWords(cell!))}`);
  }
  for (const words of [...colourKeys.map(colourWords), ...unused]) out(oneLine(words));
  const spoiling = mayBeLeftOut(fitted).filter((table) => answers.leaveOut?.[table] !== true);
  if (spoiling.length > 0) {
    const part = JSON.stringify({ leaveOut: Object.fromEntries(spoiling.map((table) => [table, true])) });
    out(`  correct them there, or plan without their rows for now: put ${part} into the answers`);
  }
  if (questions.length > 0) {
    out('\nasked (print a file to fill in with --template, give it back with --answers):');
    for (const question of questions) {
      out(`  ${oneLine(questionWords(question))}`);
      if (question.kind === 'table') {
        for (const choice of question.choices) out(`    ${oneLine(choice)}`);
        const { columns } = job.tables.find(({ name }) => name === question.table)!;
        const needed = columns.filter(({ isNeeded }) => isNeeded).map(({ name }) => name);
        if (question.isGuess)
          out(`    it needs ${needed.join(', ')}: name the headers that hold them under columns`);
      } else if (question.kind === 'column' && question.choices.length > 0) {
        out(`    one of ${oneLine(question.choices.join(', '))}`);
      }
    }
  }
  if (!written) return;
  const shorten = inOwnDigits(fitted);
  for (const { address, formula, shown } of written.given) {
    out(`\n${placeText(written.sheets.answer, address)}\t${oneLine(formula)}`);
    const { rows, formats } = shown;
    const first = rows[0]![0]!;
    if (rows.length === 1 && rows[0]!.length === 1 && isCellError(first)) {
      out(`  ${first.code} ${oneLine(inOwnCells(fitted, first.reason))}`);
      continue;
    }
    for (const [at, row] of rows.slice(0, MOST_ROWS).entries()) {
      const own = formats[at]!;
      const texts = rowText(
        row.map((cell, column) => shorten(cell, own[column]!)),
        own,
        book.dateSystem,
      );
      const [place] = isAudit({ formula }) ? (written.places[at] ?? []) : [];
      // Beside the grower's own cell the row of what was read says nothing.
      const told = typeof place === 'string' && place !== '' ? [place, ...texts.slice(2)] : texts;
      out(`  ${told.map((text) => oneLine(inOwnCells(fitted, text))).join('\t')}`);
    }
    if (rows.length > MOST_ROWS) out(`  and ${rows.length - MOST_ROWS} more rows`);
    for (const { cells, text } of causesOf(faultsIn(shown, address), address))
      out(`  ${namesText(cells)}: ${oneLine(inOwnCells(fitted, text))}`);
  }
}

function tellJson(fitted: Fit, written: Written | undefined, { out }: Output): void {
  const { job, tables, questions, unread, joined, colourKeys, unused } = fitted;
  for (const [name, table] of tables) {
    out(
      jsonText({
        table: name,
        from: sourceWords(table),
        columns: table.readings.map(({ name: column, match }) => ({
          column,
          header: match.header,
          matchedBy: match.by,
          read: readingWords(table, column),
          evidence: table.evidence.map((row) => row[column] ?? ''),
        })),
      }),
    );
  }
  for (const one of joined) out(jsonText({ readAs: one }));
  for (const cell of unread)
    out(jsonText({ unread: placeOfUnread(cell), about: cell.about, why: unreadWords(cell) }));
  for (const key of colourKeys)
    out(jsonText({ notRead: placeText(key.sheet, addressOf(key)), why: colourWords(key) }));
  for (const words of unused) out(jsonText({ unused: words }));
  for (const question of questions) out(jsonText({ asked: questionWords(question), kind: question.kind }));
  for (const { address, formula, shown } of written?.given ?? []) {
    const faults = faultsIn(shown, address).map(({ cell, error }) => ({
      cell,
      error: error.code,
      reason: inOwnCells(fitted, error.reason),
    }));
    out(
      jsonText({
        sheet: written!.sheets.answer,
        cell: address,
        formula,
        values: shown.rows.map((row) => row.map(jsonValue)),
        ...(faults.length > 0 && { faults }),
      }),
    );
  }
  out(
    jsonText({
      summary: {
        job: job.name,
        questions: questions.length,
        unread: unread.length,
        written: written !== undefined,
      },
    }),
  );
}
