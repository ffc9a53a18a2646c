import { helpers, type CellPosition, type CoreCommand, type Getters, type Model } from '@odoo/o-spreadsheet';
import type { DateSystem } from '../../../worksheet/calendar';
import { written } from '../cells';
import { together } from '../history';
import { READERS_DAY, READERS_DAY_AND_TIME } from '../../xlsx/styles';
import { dayFormatOf, separatorOf, type DateOrder, type Habits } from './habits';
import { readTyped, type Day, type Typed } from './typedValue';

/** A text put into a cell. */
interface Put {
  readonly position: CellPosition;
  readonly text: string;
}

/** Which of two days a text means, and how many more texts the answer is for. */
export interface Question {
  readonly text: string;
  readonly address: string;
  readonly more: number;
  readonly days: readonly [Day, Day];
}

export interface Listener {
  /** Answers undefined where the cells are to stay as they are. */
  ask(question: Question): Promise<DateOrder | undefined>;
  tell(sentence: string): void;
  thisYear(): number;
}

const typings = new WeakMap<Getters, Typing>();

export const typingOf = (getters: Getters): Typing | undefined => typings.get(getters);

/** The grid's own way to write numbers, days apart: those it is never given to read. */
export const marksOf = (habits: Habits) => ({
  decimalSeparator: habits.decimal,
  thousandsSeparator: habits.decimal === ',' ? '.' : ',',
  formulaArgSeparator: separatorOf(habits),
});

/** Stands in the grid for the format of text, `@`: by that one it would take numbers that stand there for text at once. */
export const AS_TEXT = '#"text"';

/** A number format as the grid is to show it: a day that follows the reader in the order of the workbook's people. */
export function shownFormat(code: string | undefined, habits: Habits): string | undefined {
  if (code === READERS_DAY) return dayFormatOf(habits);
  if (code === AS_TEXT) return undefined;
  if (code === READERS_DAY_AND_TIME) return `${dayFormatOf(habits)} hh:mm`;
  return code;
}

/** Reads what a person types and pastes into the cells of a workbook. */
export class Typing {
  /** Orders that were chosen, by sheet and column. */
  private readonly chosen = new Map<string, DateOrder>();
  /** Pasted texts that may mean either of two days. */
  private open: (Put & { readonly days: readonly [Day, Day] })[] = [];
  listener: Listener | undefined;

  constructor(
    private readonly model: Model,
    readonly habits: () => Habits,
    readonly dateSystem: DateSystem,
    /** The formula of a cell in its author's words. */
    readonly formulaAt: (position: CellPosition) => string | undefined,
    /** Whether the file says that a cell holds text, whatever is typed. */
    readonly isText: (position: CellPosition) => boolean,
  ) {
    typings.set(model.getters, this);
  }

  /** What a text means in a cell. */
  read({ position, text }: Put, order = this.chosen.get(columnOf(position))): Typed {
    const { getters } = this.model;
    const own = getters.getCell(position)?.format;
    return readTyped(text, this.habits(), {
      format: this.isText(position) ? '@' : shownFormat(own, this.habits()),
      order: own === READERS_DAY || own === READERS_DAY_AND_TIME ? (order ?? this.habits().order) : order,
      dateSystem: this.dateSystem,
      thisYear: this.listener?.thisYear() ?? new Date().getFullYear(),
    });
  }

  /** Puts a text into a cell as a person who types it means it. */
  put(put: Put): void {
    const typed = this.read(put);
    if (typed.kind === 'either') void this.askFor([{ ...put, days: typed.days }]);
    else this.do([put]);
  }

  /** What the grid is told for a pasted text; undefined where a question comes first. */
  pasted(put: Put): CoreCommand | undefined {
    const typed = this.read(put);
    if (typed.kind !== 'either') return this.commandFor(put, typed);
    if (this.open.length === 0) {
      queueMicrotask(() => {
        const { open } = this;
        this.open = [];
        void this.askFor(open);
      });
    }
    this.open.push({ ...put, days: typed.days });
    return undefined;
  }

  private async askFor(puts: readonly (Put & { readonly days: readonly [Day, Day] })[]): Promise<void> {
    const [first] = puts;
    const order = await this.listener?.ask({
      text: first!.text.trim(),
      address: helpers.toXC(first!.position.col, first!.position.row),
      more: puts.length - 1,
      days: first!.days,
    });
    if (order === undefined) return;
    for (const { position } of puts) this.chosen.set(columnOf(position), order);
    this.do(puts);
  }

  private do(puts: readonly Put[]): void {
    const commands = puts.map((put) => this.commandFor(put, this.read(put)));
    together(this.model, [...commands, ...commands.flatMap((command) => this.roomFor(command))]);
  }

  /** A column of the usual width is made wider for a day that is typed into it, which it would show as `####`. */
  private roomFor(command: CoreCommand): CoreCommand[] {
    if (command.type !== 'UPDATE_CELL' || !command.content) return [];
    const { sheetId, col, format: code } = command;
    const format = shownFormat(code ?? undefined, this.habits());
    if (format === undefined || !helpers.isDateTimeFormat(format)) return [];
    const size = Math.ceil((format.length + 2) * WIDEST_DIGIT);
    const width = this.model.getters.getColSize(sheetId, col);
    if (Math.abs(width - USUAL_WIDTH) > 1 || size <= width) return [];
    return [{ type: 'RESIZE_COLUMNS_ROWS', sheetId, elements: [col], size, dimension: 'COL' }];
  }

  private commandFor({ position }: Put, typed: Typed): CoreCommand {
    const { getters } = this.model;
    const to = { type: 'UPDATE_CELL', ...position } as const;
    if (typed.kind === 'text' && typed.because !== undefined) {
      this.listener?.tell(`${helpers.toXC(position.col, position.row)} is kept as text: ${typed.because}.`);
    }
    if (typed.kind === 'blank') return { ...to, content: '' };
    if (typed.kind === 'text') return { ...to, content: written(typed.text) };
    if (typed.kind === 'truth') return { ...to, content: written(typed.value) };
    if (typed.kind === 'either') throw new Error('a question comes first');
    const format = getters.getCell(position)?.format ? undefined : this.formatFor(position, typed.format);
    return { ...to, content: written(typed.value), ...(format !== undefined && { format }) };
  }

  /** A day takes the format of the day above it, as in a column that a person goes on with. */
  private formatFor(position: CellPosition, format: string | undefined): string | undefined {
    if (format === undefined || !helpers.isDateTimeFormat(format)) return format;
    const above =
      position.row > 0 ? this.model.getters.getCell({ ...position, row: position.row - 1 }) : undefined;
    const isDay = (code: string): boolean => helpers.isDateTimeFormat(code) && /[dy]/i.test(code);
    if (above?.format !== undefined && isDay(above.format) && isDay(format)) return above.format;
    const plain = dayFormatOf(this.habits());
    if (format === plain) return READERS_DAY;
    return format === `${plain} hh:mm` ? READERS_DAY_AND_TIME : format;
  }
}

/** Pixels of the widest digit of the fonts that cells are shown in. */
const WIDEST_DIGIT = 8.3;
/** Pixels of a column that a file says nothing of: 8.43 characters, as the engine reads them. */
const USUAL_WIDTH = 8.43 / 0.143;

const columnOf = ({ sheetId, col }: CellPosition): string => `${sheetId} ${col}`;
