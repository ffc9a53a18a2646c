import { writtenDate } from '../../../worksheet/calendar';
import type { Caller } from '../../../worksheet/call';
import { isCellError } from '../../../worksheet/cells/cell';
import type { Solve } from '../../worker/solver';
import { column, formula, table } from '../../xlsx/describe';
import { freeName, type Book, type BookContents } from '../book';
import { keyboardFromHere } from '../keyboard';
import { node, toElement } from '../node';
import { boardNode, wholeDrawing } from './drawing';
import { DrawnPlan, isSame, type PlannedLoad, type Planning } from './drawnPlan';
import { answerActions, answerNodes, frameNode, paperPages, placeWords, tableNode } from './parts';
import { asPng, handOver, printPages, standAlone } from './pictures';
import type { PlanInBook, PlansInBook } from './plans';
import { wordsAt, type Load } from './shapes';
import { boardWords, counted, loadWords, pasteable, titleWords } from './words';

/** A load that is being moved: which, and where it was taken up. */
interface Held {
  readonly at: number;
  readonly from: PlannedLoad;
  /** Set where it is dragged: its bar, and where on the whole board the pointer took it. */
  readonly drag?: { readonly bar: SVGElement; readonly x: number; readonly y: number; readonly id: number };
}

/** How near to the edge a load is dragged before the days move on, and how far they move each time. */
const NEAR_EDGE = 28;
const EDGE_STEP = 12;

const STEPS: Readonly<Record<string, readonly [across: number, down: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** What the board is drawn for, and in which part of the page. */
export interface Setting {
  readonly root: HTMLElement;
  readonly book: Book;
  readonly caller: Caller;
  readonly solve: Solve;
  readonly say: (text: string) => void;
  readonly planning: Planning;
  readonly plansIn: (contents: BookContents) => Promise<PlansInBook>;
}

/** The part of the pane that draws a plan of the workbook. */
export class BoardView {
  private contents: BookContents | undefined;
  private plans: readonly PlanInBook[] = [];
  private asked: PlanInBook | undefined;
  private shown: DrawnPlan | undefined;
  private held: Held | undefined;
  /** The bar that the keyboard is on. */
  private current = 0;
  /** Where the loads have been written. */
  private sheet: string | undefined;

  private readonly actions: Readonly<Record<string, () => void | Promise<void>>> = {
    draw: () => this.look(),
    back: () => this.putBack(this.drawn.moved.at(-1)!),
    'all-back': () => this.putAllBack(),
    write: () => this.write(),
    undo: () => this.takeBack(),
    copy: () => this.copy(),
    large: () => this.enlarge(),
    png: () => this.picture('png'),
    svg: () => this.picture('svg'),
    print: () => printPages(paperPages(this.drawn)),
  };

  constructor(private readonly setting: Setting) {
    const { root } = setting;
    root.addEventListener('keydown', (event) => this.onKey(event));
    root.addEventListener('pointerdown', (event) => this.onPress(event));
    root.addEventListener('pointermove', (event) => this.onMove(event));
    root.addEventListener('pointerup', ({ pointerId }) => this.isDragging(pointerId) && this.putDown(true));
    root.addEventListener(
      'pointercancel',
      ({ pointerId }) => this.isDragging(pointerId) && this.putDown(false),
    );
    root.addEventListener('scroll', () => this.placeWords(), { capture: true, passive: true });
    root.addEventListener('toggle', () => this.fillTable(), { capture: true });
    root.addEventListener('change', (event) => {
      const { name, value } = event.target as HTMLSelectElement;
      if (name !== 'board-plan') return;
      this.show(this.plans[Number(value)]!).catch((fault: unknown) =>
        this.say(`That did not work: ${String(fault)}`),
      );
    });
  }

  /** Does what a button of the board asks. */
  async act(what: string): Promise<void> {
    await this.actions[what.replace(/^board-/, '')]!();
  }

  private get drawn(): DrawnPlan {
    return this.shown!;
  }

  private part<E extends Element = HTMLElement>(selector: string): E | null {
    return this.setting.root.querySelector<E>(selector);
  }

  /** Tells in the page's own place for it, which is out of reach while the board is over the whole window. */
  private say(words: string): void {
    const told = this.part('#board dialog .told');
    if (told) told.textContent = words;
    else this.setting.say(words);
  }

  /** Finds the plans of the workbook and draws the first. */
  private async look(): Promise<void> {
    const { book, plansIn } = this.setting;
    this.contents = await book.contents();
    const { plans, unreadable } = await plansIn(this.contents);
    this.plans = plans;
    if (plans.length > 0) return this.show(plans[0]!);
    this.tell(
      unreadable.length > 0
        ? `The plan in ${placeWords(unreadable[0]!)} calculates its tables inside the formula. Put them in cells and refer to those: then it can be drawn.`
        : 'No cell of this workbook calls LOADPLAN. A starter sheet or “Use my sheet” makes a plan.',
    );
  }

  /** Words in place of a board. */
  private tell(words: string): void {
    this.shown = undefined;
    this.part('#board')!.replaceChildren(toElement(node('p', {}, words)));
    this.say(words);
  }

  private async show(plan: PlanInBook): Promise<void> {
    const { caller, solve, planning } = this.setting;
    this.say('Working the plan out…');
    const takeKeyboard = keyboardFromHere();
    this.asked = plan;
    const drawn = await DrawnPlan.of(plan, this.contents!.dateSystem, caller, solve, planning);
    // Another plan was asked for meanwhile.
    if (this.asked !== plan) return;
    if (isCellError(drawn))
      return this.tell(`The plan in ${placeWords(plan.cell)} shows ${drawn.code}: ${drawn.reason}`);
    this.shown = drawn;
    this.held = this.sheet = undefined;
    this.current = 0;
    this.part('#board')!.replaceChildren(toElement(frameNode(drawn, this.plans)));
    this.redraw();
    // Where today is inside the plan, the board begins a little before it.
    const { today, board, layout } = drawn;
    if (today < board.start + board.limits.length)
      this.part('.scroll')!.scrollLeft = (today - board.start - 2) * layout.dayWidth;
    this.answer();
    this.say('');
    takeKeyboard(() => this.part('#board h3')!.focus());
  }

  /** Draws the board anew; the keyboard stays on its bar, or goes along with a load. */
  private redraw(follow = this.held?.at): void {
    const { layout, board, dateSystem } = this.drawn;
    const scroll = this.part('.scroll')!;
    const hadFocus = scroll.contains(document.activeElement);
    const { scrollLeft, scrollTop } = scroll;
    scroll.replaceChildren(toElement(boardNode(layout, (load) => loadWords(load, dateSystem))));
    scroll.scrollTo(scrollLeft, scrollTop);
    this.placeWords();
    const { bars } = layout.rooms;
    if (follow !== undefined) this.current = bars.findIndex(({ load }) => load.planned === follow);
    this.current = Math.max(0, Math.min(this.current, bars.length - 1));
    const bar = this.barAt(this.current);
    bar?.setAttribute('tabindex', '0');
    if (bar && this.held) {
      bar.setAttribute('aria-selected', 'true');
      // Over all others.
      const whole = bar.parentElement!;
      whole.parentElement!.append(whole);
    }
    if (hadFocus) bar?.focus();
    this.part('.sentence')!.textContent = boardWords(board, dateSystem);
    this.fillTable();
  }

  private barAt(at: number): SVGElement | null {
    return this.part<SVGElement>(`[data-bar="${at}"] > [role="option"]`);
  }

  /** The words of bars that begin to the left of what is shown go along. */
  private placeWords(): void {
    const scroll = this.part('.scroll');
    if (!scroll || !this.shown) return;
    const { bars } = this.drawn.layout.rooms;
    for (const label of scroll.querySelectorAll<SVGTextElement>('[data-bar] .label')) {
      const bar = bars[Number(label.closest<SVGElement>('[data-bar]')!.dataset['bar'])]!;
      label.setAttribute('x', String(wordsAt(bar, scroll.scrollLeft)));
    }
  }

  /** The board in figures, worked out once somebody looks. */
  private fillTable(): void {
    const details = this.part<HTMLDetailsElement>('#board-table');
    if (!details?.open || !this.shown) return;
    details.querySelector('.table')?.remove();
    details.append(toElement(tableNode(this.drawn)));
  }

  /** The checker's answer to the loads as they are, in a region that stays, so that it is read out. */
  private answer(at = this.held?.at): void {
    const { drawn } = this;
    const told = answerNodes(drawn, drawn.change(), at);
    this.part('.answer [role="status"]')!.replaceChildren(...told.map((one) => toElement(one)));
    const actions = answerActions(drawn, this.sheet).map((one) =>
      typeof one === 'string' ? one : toElement(one),
    );
    this.part('.answer .actions')!.replaceChildren(...actions);
    this.part('.answer textarea')?.remove();
  }

  private drawMoved(follow = this.held?.at): void {
    this.drawn.draw();
    this.redraw(follow);
    this.answer();
  }

  // Moving loads.

  private onKey(event: KeyboardEvent): void {
    const bar = (event.target as Element).closest<SVGElement>('[data-bar]');
    if (!bar || !this.shown || event.ctrlKey || event.metaKey || event.altKey) return;
    const at = Number(bar.dataset['bar']);
    const { load } = this.drawn.layout.rooms.bars[at]!;
    const step = STEPS[event.key];
    if (step && this.held) this.step(this.held.at, step);
    else if (step) this.goFrom(at, step);
    else if (event.key === 'Enter' || event.key === ' ') this.takeUpOrDown(load);
    else if (event.key === 'Escape' && this.held) this.putDown(false);
    else if (event.key === 'Escape' && this.drawn.moved.includes(load.planned ?? -1))
      this.putBack(load.planned!);
    else return;
    event.preventDefault();
    event.stopPropagation();
    this.intoView();
  }

  private step(at: number, [across, down]: readonly [number, number]): void {
    const { rows } = this.drawn.layout.rooms;
    const { day, room } = this.drawn.loads[at]!;
    const row = rows.findIndex((one) => one.room.toLowerCase() === room.toLowerCase());
    this.drawn.move(at, day + across, rows[Math.max(0, Math.min(rows.length - 1, row + down))]!.room);
    this.drawMoved();
  }

  /** The keyboard goes to the next load along the days, or to the nearest above or below. */
  private goFrom(at: number, [across, down]: readonly [number, number]): void {
    const { bars } = this.drawn.layout.rooms;
    const here = bars[at]!;
    const nearest = [...bars]
      .filter(({ y }) => (y - here.y) * down > 0)
      .sort(
        (a, b) =>
          Math.abs(a.y - here.y) - Math.abs(b.y - here.y) || Math.abs(a.x - here.x) - Math.abs(b.x - here.x),
      )[0];
    const next = down === 0 ? bars[at + across] : nearest;
    if (!next) return;
    this.barAt(at)!.setAttribute('tabindex', '-1');
    this.current = bars.indexOf(next);
    const bar = this.barAt(this.current)!;
    bar.setAttribute('tabindex', '0');
    bar.focus();
  }

  private intoView(): void {
    const scroll = this.part('.scroll');
    const bar = this.shown?.layout.rooms.bars[this.current];
    if (!scroll || !bar) return;
    const { side, head, picks, dayWidth } = this.drawn.layout;
    const right = scroll.scrollLeft + scroll.clientWidth - side;
    if (bar.x < scroll.scrollLeft || bar.x > right - 4 * dayWidth) scroll.scrollLeft = bar.x - 3 * dayWidth;
    const floor = scroll.scrollTop + scroll.clientHeight - head.height - picks.height;
    if (bar.y < scroll.scrollTop || bar.y + bar.height > floor) scroll.scrollTop = bar.y - 2 * bar.height;
  }

  private takeUpOrDown({ planned: at, lot }: Load): void {
    if (this.held) return this.putDown(true);
    if (at === undefined)
      return this.say('These blocks are on the shelves already: only loads of the plan can be moved.');
    this.held = { at, from: this.drawn.loads[at]! };
    this.say(
      `${lot} is taken up: arrow keys move it by a day or a room, Enter sets it down, Escape puts it back.`,
    );
    this.redraw();
  }

  /** The load that is held stays where it is, or goes back to where it was taken up. */
  private putDown(stays: boolean): void {
    const { at, from, drag } = this.held!;
    this.held = undefined;
    if (!stays) this.drawn.put(at, from);
    if (!drag) this.say(stays ? 'Set down.' : 'Put back to where it was.');
    this.drawMoved(at);
  }

  private putBack(at: number): void {
    this.held = undefined;
    this.drawn.put(at, this.drawn.planned[at]!);
    this.drawMoved(at);
    this.say(`${this.drawn.planned[at]!.lot} is back where the plan has it.`);
  }

  private putAllBack(): void {
    this.held = undefined;
    this.drawn.putAllBack();
    this.drawMoved();
    this.say('Every load is where the plan has it.');
  }

  private isDragging = (pointer: number): boolean => this.held?.drag?.id === pointer;

  private onPress(event: PointerEvent): void {
    const bar = (event.target as Element).closest<SVGElement>('[data-bar]');
    if (!bar || !this.shown || event.button !== 0) return;
    const hadFocus = bar.contains(document.activeElement);
    this.barAt(this.current)?.setAttribute('tabindex', '-1');
    this.current = Number(bar.dataset['bar']);
    const option = this.barAt(this.current)!;
    option.setAttribute('tabindex', '0');
    option.focus();
    const { planned: at } = this.drawn.layout.rooms.bars[this.current]!.load;
    // A finger moves the page, but for the load that it has chosen before.
    if (at === undefined || (event.pointerType === 'touch' && !hadFocus)) return;
    const scroll = this.part('.scroll')!;
    const [x, y] = [event.clientX + scroll.scrollLeft, event.clientY + scroll.scrollTop];
    this.held = { at, from: this.drawn.loads[at]!, drag: { bar, x, y, id: event.pointerId } };
    scroll.setPointerCapture(event.pointerId);
    event.preventDefault();
  }

  /** The bar goes with the pointer and the answer with the bar; all else is drawn anew when it is let go. */
  private onMove(event: PointerEvent): void {
    if (!this.isDragging(event.pointerId)) return;
    const { at, from, drag } = this.held!;
    const { layout, loads } = this.drawn;
    const scroll = this.part('.scroll')!;
    const { left, right } = scroll.getBoundingClientRect();
    if (event.clientX > right - NEAR_EDGE) scroll.scrollLeft += EDGE_STEP;
    if (event.clientX < left + layout.side + NEAR_EDGE) scroll.scrollLeft -= EDGE_STEP;
    const dx = event.clientX + scroll.scrollLeft - drag!.x;
    const dy = event.clientY + scroll.scrollTop - drag!.y;
    drag!.bar.classList.add('dragged');
    drag!.bar.setAttribute('transform', `translate(${dx} ${dy})`);
    const { bars, rows } = layout.rooms;
    const bar = bars.find(({ load }) => load.planned === at)!;
    const middle = bar.y + bar.height / 2 + dy;
    const row = rows.find(({ y, height }) => middle < y + height) ?? rows.at(-1)!;
    this.drawn.move(at, from.day + Math.round(dx / layout.dayWidth), row.room);
    if (!isSame(this.drawn.loads[at]!, loads[at]!)) this.answer(at);
  }

  // What is taken over, and what is taken away.

  private async write(): Promise<void> {
    const { book } = this.setting;
    const { loads, dateSystem } = this.drawn;
    const name = freeName('ChangedLoads', await book.takenNames());
    const inOrder = [...loads].sort((a, b) => a.day - b.day);
    this.sheet = await book.layDown({
      name: 'Changed loads',
      title: 'Loads as they were moved on the board',
      notes: [
        `The list on the right checks them as they are now. Give the table ${name} to LOADPLAN as previous to plan again close to it.`,
      ],
      things: [
        table(
          'A4',
          name,
          [column('Loaded', 'date'), column('Lot'), column('Room'), column('Blocks', 'count')],
          inOrder.map(({ day, lot, room, blocks }) => [writtenDate(day, dateSystem), lot, room, blocks]),
        ),
        formula(
          'F4',
          this.drawn.checkOf(`${name}[#All]`),
          ['text', 'date', 'text', 'number', 'number', 'text'],
          { headed: true, growth: 20 },
        ),
      ],
    });
    this.answer();
    this.say(`The loads are on the new sheet ${this.sheet}. Nothing else was changed.`);
  }

  private async takeBack(): Promise<void> {
    const { book } = this.setting;
    const sheet = this.sheet!;
    await book.takeBack([sheet]);
    this.sheet = undefined;
    this.answer();
    this.say(`The sheet ${sheet} is gone again.`);
  }

  private async copy(): Promise<void> {
    const { loads, dateSystem } = this.drawn;
    const text = pasteable(loads, dateSystem);
    try {
      await navigator.clipboard.writeText(text);
      this.say(`${counted(loads.length, 'load')} copied: paste them into a sheet.`);
    } catch {
      // Where the host forbids it the text is there to be copied by hand.
      this.part('.answer textarea')?.remove();
      const field = toElement(
        node('textarea', { readonly: '', rows: '6', 'aria-label': 'Loads to copy' }, text),
      );
      this.part('.answer')!.append(field);
      (field as HTMLTextAreaElement).select();
      this.say('Copy the marked text and paste it into a sheet.');
    }
  }

  private async picture(kind: 'png' | 'svg'): Promise<void> {
    const { board, layout, plan, dateSystem, today } = this.drawn;
    const last = board.start + board.limits.length - 1;
    const title = titleWords(placeWords(plan.cell), board.start, last, dateSystem);
    const drawing = wholeDrawing(layout, title, boardWords(board, dateSystem), board, today);
    const svg = standAlone(drawing);
    const { width, height } = drawing.attributes;
    const file =
      kind === 'svg'
        ? new Blob([svg], { type: 'image/svg+xml' })
        : await asPng(svg, Number(width), Number(height));
    handOver(`board.${kind}`, file);
    this.say('The picture is handed over as a file.');
  }

  /** The board over the whole window, or back in the pane. */
  private enlarge(): void {
    const [place, board] = [this.part('#board')!, this.part('.board')!];
    const before = this.part<HTMLDialogElement>('#board dialog');
    if (before) return before.close();
    const dialog = toElement(node('dialog', { class: 'large', 'aria-label': 'Board' })) as HTMLDialogElement;
    const name = (words: string): void => {
      const button = this.part('[data-act="board-large"]')!;
      button.textContent = words;
      button.focus();
    };
    dialog.addEventListener('close', () => {
      place.append(board);
      dialog.remove();
      name('Larger');
    });
    place.append(dialog);
    dialog.append(board);
    dialog.showModal();
    name('Back to the pane');
  }
}
