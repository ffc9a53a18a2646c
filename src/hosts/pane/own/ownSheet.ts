import type { Caller } from '../../../worksheet/call';
import { catalogue } from '../../../worksheet/catalogue';
import type { Answers } from '../../fit/answers';
import { todayIn, type GrowersBook } from '../../fit/book';
import { fitJob } from '../../fit/fit';
import type { Fit } from '../../fit/fitted';
import type { Question } from '../../fit/question';
import { functionReader } from '../../fit/functionReader';
import { JOB, type JobName, type TableName } from '../../fit/jobs';
import { keptAnswers, withAnswers } from '../../fit/kept';
import { prepare, type Prepared } from '../../fit/prepare';
import { questionWords } from '../../fit/questionTold';
import { TABLE_WORDS } from '../../fit/told';
import type { Solve } from '../../worker/solver';
import { addressOf } from '../../xlsx/address';
import { AuditView } from '../auditView';
import type { Book, Place } from '../book';
import { keyboardFromHere } from '../keyboard';
import { toElement } from '../node';
import { answersIn, changesTheMatch } from './fields';
import { fitNode, unreadNodes, writtenNode } from './fitNode';
import { previewNode } from './previewNode';

// "Use my sheet": from a job to formulas over the grower's own cells.

export interface Setting {
  readonly root: HTMLElement;
  readonly book: Book;
  readonly caller: Caller;
  readonly solve: Solve;
  readonly say: (text: string) => void;
}

/** "Use my sheet" in a part of the pane. */
export class OwnSheet {
  private job: JobName | undefined;
  private held: GrowersBook | undefined;
  /** Names that a new table cannot have. */
  private taken: readonly string[] = [];
  private answers: Answers = {};
  private fit: Fit | undefined;
  private written: readonly string[] = [];
  /** Ends the preview that is being worked out, once an answer has changed. */
  private looking = new AbortController();

  private readonly auditView: AuditView;

  constructor(private readonly setting: Setting) {
    this.auditView = new AuditView(setting.root, setting.book, setting.say);
    setting.root.addEventListener('change', (event) => {
      const name = (event.target as HTMLElement).dataset['answer'];
      if (name === undefined) return;
      this.collect();
      // A new match is read anew; an answer to a question only changes what the formulas give.
      if (changesTheMatch(name)) this.refit(() => this.fieldOf(name));
      else this.look();
    });
  }

  private part<E extends HTMLElement>(selector: string): E | null {
    return this.setting.root.querySelector<E>(selector);
  }

  /** Whether this part of the pane does what a button asks. */
  async act(what: string, reference: string): Promise<boolean> {
    switch (what) {
      case 'job':
        await this.choose(reference as JobName);
        return true;
      case 'go-unread': {
        const { sheet, row, column } = this.fit!.unread[Number(reference)]!;
        await this.setting.book.goTo({ sheet, address: addressOf({ row, column }) });
        return true;
      }
      case 'more-rows':
        this.addRow(reference as TableName);
        return true;
      case 'write':
        await this.write();
        return true;
      case 'audit':
        await this.audit();
        return true;
      case 'take-back':
        await this.takeBack();
        return true;
      default:
        return this.auditView.act(what, reference);
    }
  }

  /** A job begins from the book as it is now and from what it keeps of earlier answers. */
  private async choose(job: JobName): Promise<void> {
    const { book, caller, say } = this.setting;
    const takeKeyboard = keyboardFromHere();
    await caller.ready(['TODATES', 'TONUMBERS', 'MATCHLABELS']);
    this.held = await book.everything();
    this.taken = await book.takenNames();
    this.job = job;
    this.answers = keptAnswers(this.held, job);
    this.refit(() => this.part('#fitted h3'), takeKeyboard);
    const there = answerSheet(this.held, job);
    if (there === undefined) return;
    await book.goTo(there);
    say(`The sheet ${there.sheet} answers it already, and follows your cells.`);
  }

  private fitted(): Fit {
    const held = this.held!;
    return fitJob(held, this.job!, this.answers, functionReader(this.setting.caller, held.dateSystem));
  }

  private refit(focused: () => HTMLElement | null, takeKeyboard = keyboardFromHere()): void {
    this.fit = this.fitted();
    this.part('#fitted')!.replaceChildren(toElement(fitNode(this.fit)));
    takeKeyboard(() => focused()?.focus());
    // Some fields come with a proposal: it counts as the grower sees it.
    this.collect();
    this.look();
  }

  private fieldOf(name: string): HTMLElement | null {
    return this.part(`[data-answer="${CSS.escape(name)}"]`);
  }

  private collect(): void {
    this.answers = withAnswers(this.answers, answersIn(this.setting.root, this.fit!));
  }

  /** Shows the formulas and what they give, as soon as nothing is open. */
  private look(): void {
    this.looking.abort();
    const { signal } = (this.looking = new AbortController());
    const fit = this.fitted();
    const gives = this.part('#gives')!;
    this.showUnread(fit);
    if (fit.questions.length > 0) {
      gives.replaceChildren('Once these are answered, the formulas and what they give are shown here.');
      return;
    }
    this.prepared(fit, signal).then(
      (prepared) => {
        if (!prepared || signal.aborted) return;
        gives.replaceChildren(toElement(previewNode(fit, prepared)));
      },
      (fault: unknown) => this.setting.say(`That did not work: ${String(fault)}`),
    );
  }

  /** What cannot be read follows the answers; fields that the keyboard is in are left alone. */
  private showUnread(fit: Fit): void {
    const shown = this.part('#unread')!;
    const now = unreadNodes(fit).map((one) => toElement(one));
    const isSame = shown.innerHTML === now.map((one) => one.outerHTML).join('');
    if (isSame || shown.contains(document.activeElement)) return;
    this.fit = { ...this.fit!, unread: fit.unread };
    shown.replaceChildren(...now);
  }

  /** What a fit would write and what it gives; undefined once nobody waits for it. */
  private prepared(fit: Fit, signal: AbortSignal): Promise<Prepared | undefined> {
    const { solve } = this.setting;
    const around = {
      sheets: this.held!.sheets.map(({ name }) => name),
      tables: this.taken,
      today: todayIn(this.held!.dateSystem),
    };
    return prepare(fit, around, (name, grids, dateSystem) =>
      solve(
        catalogue.find((one) => one.name === name)!,
        grids,
        dateSystem,
        signal,
      ),
    );
  }

  private addRow(table: TableName): void {
    const body = this.part<HTMLTableElement>(`[data-answer^="fill:${table}:"]`)?.closest('table');
    const last = body?.querySelector('tr:last-child');
    if (!last) return;
    const row = last.cloneNode(true) as HTMLElement;
    const at = body!.querySelectorAll('tr').length - 1;
    for (const input of row.querySelectorAll<HTMLInputElement>('input')) {
      const [, , , name] = input.dataset['answer']!.split(':');
      input.dataset['answer'] = `fill:${table}:${at}:${name!}`;
      input.setAttribute('aria-label', `${name!}, row ${at + 1} of ${TABLE_WORDS[table]}`);
      input.value = '';
      input.setAttribute('value', '');
    }
    last.after(row);
    row.querySelector('input')?.focus();
  }

  /** The job with the answers that the fields hold; undefined where one is still open, which is told. */
  private answered(): Fit | undefined {
    this.collect();
    const fit = this.fitted();
    const [open] = fit.questions;
    if (!open) return fit;
    this.setting.say(`Still open: ${questionWords(open)}`);
    this.showOpen(open);
    return undefined;
  }

  /** Findings in the grower's cells as they are now. */
  private async audit(): Promise<void> {
    this.held = await this.setting.book.everything();
    const fit = this.answered();
    if (fit) await this.auditView.show(fit, this.part('#audited')!);
  }

  private async write(): Promise<void> {
    const { book, say } = this.setting;
    const fit = this.answered();
    if (!fit) return;
    const before = JSON.stringify(this.answers);
    const prepared = await this.prepared(fit, new AbortController().signal);
    const { sheets, answer } = prepared!;
    const added: string[] = [];
    for (const sheet of sheets) added.push(await book.layDown(sheet));
    this.written = added;
    this.collect();
    // What was answered otherwise meanwhile is for the next time, and stays.
    if (JSON.stringify(this.answers) === before) {
      this.fit = fit;
      this.part('#fitted')!.replaceChildren(toElement(fitNode(fit)));
      this.part('#gives')!.replaceChildren(toElement(previewNode(fit, prepared!)));
    }
    this.part('#written')!.replaceChildren(toElement(writtenNode(added)));
    await book.goTo({ sheet: answer, address: 'A1' });
    say(`The answer is on the sheet ${answer}; your own sheets are as they were.`);
  }

  private showOpen(open: Question): void {
    const at = this.fit!.questions.findIndex(({ kind }) => kind === open.kind);
    const fields = this.part(`[data-question="${at}"]`)?.querySelectorAll<HTMLInputElement>('input, select');
    const first = [...(fields ?? [])].find(
      ({ type, value }) => type === 'radio' || type === 'checkbox' || value === '',
    );
    first?.focus();
  }

  private async takeBack(): Promise<void> {
    const { book, say } = this.setting;
    await book.takeBack(this.written);
    this.part('#written')!.replaceChildren();
    say(`Taken back: ${this.written.join(', ')}.`);
    this.written = [];
  }
}

/** The sheet on which an earlier fit put its answer. */
function answerSheet({ sheets }: GrowersBook, job: JobName): Place | undefined {
  const found = sheets.find(({ rows }) => rows[0]?.[0] === JOB[job].title);
  return found && { sheet: found.name, address: 'A1' };
}
