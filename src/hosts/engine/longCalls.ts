import { type Block, type Cell, type CellError, cellError, isCellError } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { WorksheetFunction } from '../../worksheet/definition';
import type { Given } from '../worker/messages';
import { STOPPED_BY_HAND, type Solve } from '../worker/solver';
import type { Seat } from './evaluator/references';

const faultOf = (error: CellError): Block => ({ rows: [[error]], formats: ['plain'] });
const BUSY = faultOf(cellError('#BUSY!', 'being worked out'));
const isBusy = (cell: Cell): boolean => isCellError(cell) && cell.code === '#BUSY!';

/** A formula with NOW or RAND in it asks something else each time its answer comes, and would do so for ever. */
const MOST_CHANGES = 5;
const RESTLESS = faultOf(
  cellError(
    '#VALUE!',
    'what it is given changes with every calculation: put NOW or RAND in cells of their own',
  ),
);

interface LongCall {
  answer?: Block;
  readonly cancelling: AbortController;
}

interface Asking {
  readonly seat: Seat;
  /** What the cell asked when it was last calculated. */
  readonly questions: Set<string>;
  /** How often it asked something new because answers came. */
  changes: number;
}

const keyOf = ({ sheet, row, column }: Seat): string => `${sheet}!${row},${column}`;

/**
 * Calls that may take long, for an engine that has to have each answer at once: a cell shows #BUSY! until its answer is
 * there, and is then calculated again. What no cell asks for any longer is cancelled.
 */
export class LongCalls {
  private readonly calls = new Map<string, LongCall>();
  private readonly asking = new Map<string, Asking>();
  /** Cells calculated since the last `settle`. */
  private asked = new Map<string, Asking>();
  private readonly busy = new Map<string, Seat>();
  private isDelivering = false;
  private readonly waiting: (() => void)[] = [];

  /** `recalculate` these cells: their answers are there. */
  constructor(
    private readonly solve: Solve,
    private recalculate: (cells: readonly Seat[]) => void,
  ) {}

  answer(seat: Seat | undefined, definition: WorksheetFunction, given: Given, dateSystem: DateSystem): Block {
    const question = JSON.stringify([definition.name, dateSystem, given]);
    const known = this.calls.get(question);
    // A formula calculated for no cell, such as one that is being typed, is not worth the work.
    if (!seat) return known?.answer ?? BUSY;
    const asking = this.askingOf(seat);
    if (given.some((grid) => grid?.some((row) => row.some(isBusy)))) return BUSY;
    if (!known && this.isDelivering && ++asking.changes > MOST_CHANGES) return RESTLESS;
    const call = known ?? this.begin(definition, given, dateSystem);
    this.calls.set(question, call);
    asking.questions.add(question);
    if (!call.answer) this.busy.set(keyOf(seat), seat);
    return call.answer ?? BUSY;
  }

  private askingOf(seat: Seat): Asking {
    const cell = keyOf(seat);
    let asking = this.asked.get(cell);
    if (!asking) {
      const changes = this.isDelivering ? (this.asking.get(cell)?.changes ?? 0) : 0;
      this.asked.set(cell, (asking = { seat, questions: new Set(), changes }));
    }
    return asking;
  }

  private begin(definition: WorksheetFunction, given: Given, dateSystem: DateSystem): LongCall {
    const call: LongCall = { cancelling: new AbortController() };
    const { signal } = call.cancelling;
    const explained = ({ message }: Error): Block =>
      faultOf(cellError('#VALUE!', `${definition.name} could not be calculated: ${message}`));
    void this.solve(definition, given, dateSystem, signal)
      .catch(explained)
      .then((answer) => {
        if (signal.aborted || !answer) return;
        call.answer = answer;
        this.deliver();
      });
    return call;
  }

  /** All at once: the views of one plan come right after each other. */
  private deliver(): void {
    if (this.isBusy) return;
    const cells = [...this.busy.values()];
    this.busy.clear();
    this.isDelivering = true;
    this.recalculate(cells);
    this.isDelivering = false;
    if (this.isBusy) return;
    for (const then of this.waiting.splice(0)) then();
  }

  private get isBusy(): boolean {
    return [...this.calls.values()].some(({ answer }) => !answer);
  }

  /** Resolves once no cell waits for its answer: at once to false where none does. */
  async answered(): Promise<boolean> {
    if (this.busy.size === 0) return false;
    await new Promise<void>((resolve) => this.waiting.push(resolve));
    return true;
  }

  /** Asks once more for what somebody stopped. */
  again(): void {
    const stopped = [...this.calls].filter(([, { answer }]) => answer === STOPPED_BY_HAND);
    for (const [question] of stopped) this.calls.delete(question);
    const questions = new Set(stopped.map(([question]) => question));
    const asks = ({ questions: all }: Asking): boolean =>
      [...all].some((question) => questions.has(question));
    this.recalculate([...this.asking.values()].filter(asks).map(({ seat }) => seat));
  }

  /** After cells were calculated: cancels what none asks for any longer, neither one that `stands` nor a new one. */
  settle(stands: (cell: Seat) => boolean): void {
    for (const [cell, asking] of this.asked) this.asking.set(cell, asking);
    this.asked = new Map();
    for (const [cell, { seat }] of this.asking) if (!stands(seat)) this.asking.delete(cell);
    const wanted = new Set([...this.asking.values()].flatMap(({ questions }) => [...questions]));
    for (const [question, { cancelling }] of this.calls) {
      if (wanted.has(question)) continue;
      this.calls.delete(question);
      cancelling.abort();
    }
    // Answers, and who waits for them, may have waited for a call that was cancelled just now.
    if (this.busy.size + this.waiting.length > 0 && !this.isDelivering) setTimeout(() => this.deliver());
  }

  /** Cancels everything: the workbook is closed. */
  close(): void {
    this.recalculate = () => undefined;
    this.settle(() => false);
  }
}
