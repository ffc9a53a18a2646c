import type { Cell } from '../../worksheet/cells/cell';
import { shownCell } from '../../worksheet/cells/shown';
import type { DateSystem } from '../../worksheet/calendar';
import type { GrowersBook } from '../fit/book';
import { showsDate } from '../fit/book';
import type { CellPlace, Correction } from '../fit/dataFinding';
import { addressOf } from '../xlsx/address';
import type { Book, CellChange, Place } from './book';
import { node, toElement, type PageNode } from './node';

/** Something found in cells of the grower's, and what would correct it. */
export interface Correctable {
  readonly cells: readonly CellPlace[];
  /** Several ways where only the grower knows which. */
  readonly ways: readonly { readonly name: string; readonly corrections: readonly Correction[] }[];
  /** What is said of it, between its place and what can be done about it. */
  readonly told: readonly PageNode[];
}

export const placeOf = ({ sheet, row, column }: CellPlace): Place => ({
  sheet,
  address: addressOf({ row, column }),
});
export const placeWords = (cell: CellPlace): string => `${cell.sheet}!${placeOf(cell).address}`;

/** Corrections that a preview shows; beyond them it says how many more there are. */
const SHOWN = 5;

export function shownAs(cell: Cell, format: string | undefined, system: DateSystem): string {
  if (format?.includes('%')) return shownCell(cell, 'percent', system);
  return shownCell(cell, showsDate(format) ? 'date' : 'plain', system);
}

const TEXT_FORMAT = '@';
const plainOr = (format: string | undefined): string =>
  format === undefined || format === TEXT_FORMAT ? 'General' : format;

/** Findings that can be corrected on the grower's click, and put back on the next. */
export class Corrections {
  private held: GrowersBook | undefined;
  private findings: readonly Correctable[] = [];
  /** Which cell of a finding comes next. */
  private readonly next = new Map<number, number>();
  private readonly undo = new Map<number, readonly CellChange[]>();

  /** @param kind tells the findings of one list from those of another on the same page */
  constructor(
    private readonly kind: string,
    private readonly root: HTMLElement,
    private readonly book: Book,
    private readonly say: (text: string) => void,
  ) {}

  /** The findings as list items. */
  show(held: GrowersBook, findings: readonly Correctable[]): readonly PageNode[] {
    this.held = held;
    this.findings = findings;
    this.next.clear();
    this.undo.clear();
    return findings.map((_, at) => this.item(at));
  }

  /** Whether a button is one of these findings'. */
  async act(what: string, reference: string): Promise<boolean> {
    const [kind, verb] = what.split(':');
    if (kind !== this.kind) return false;
    const [at, way = 0] = reference.split(':').map(Number) as [number, number?];
    if (verb === 'go') await this.goToNext(at);
    if (verb === 'correct') await this.correct(at, way);
    if (verb === 'put-back') await this.putBack(at);
    return true;
  }

  private item(at: number): PageNode {
    const { cells, ways, told } = this.findings[at]!;
    const button = (verb: string, reference: string, words: string): PageNode =>
      node(
        'fluent-button',
        { size: 'small', 'data-act': `${this.kind}:${verb}`, 'data-for': reference },
        words,
      );
    const go = button(
      'go',
      String(at),
      cells.length === 1 ? 'Go to the cell' : `Go to the next of ${cells.length} cells`,
    );
    return node(
      'li',
      { class: this.kind, 'data-finding': `${this.kind}:${at}` },
      node('b', {}, placeWords(cells[0]!)),
      ...told,
      ...ways.flatMap(({ name, corrections }, way) => {
        const own = name === '' ? '' : `, ${name}`;
        const words =
          corrections.length === 1 ? `Correct this cell${own}` : `Correct these ${corrections.length}${own}`;
        const correct = button('correct', `${at}:${way}`, words);
        const isLast = way === ways.length - 1;
        return [
          this.preview(corrections),
          node('p', { class: 'actions' }, correct, isLast && ' ', isLast && go),
        ];
      }),
      ways.length === 0 && node('p', { class: 'actions' }, go),
    );
  }

  private preview(corrections: readonly Correction[]): PageNode {
    const more = corrections.length - SHOWN;
    const system = this.held!.dateSystem;
    return node(
      'table',
      { class: 'preview' },
      node('tr', {}, ...['cell', 'now', 'then'].map((word) => node('th', { scope: 'col' }, word))),
      ...corrections
        .slice(0, SHOWN)
        .map((one) =>
          node(
            'tr',
            {},
            node('td', {}, placeOf(one).address),
            node('td', {}, this.shownBefore(one)),
            node('td', {}, shownAs(one.after, one.format ?? this.formatOf(one), system)),
          ),
        ),
      more > 0 && node('tr', {}, node('td', { colspan: '3' }, `and ${more} more`)),
    );
  }

  /** A day in a cell without a format of days is shown as one all the same. */
  private shownBefore(one: Correction): string {
    const own = this.formatOf(one);
    return shownAs(one.before, showsDate(one.format) ? one.format : own, this.held!.dateSystem);
  }

  private async goToNext(at: number): Promise<void> {
    const { cells } = this.findings[at]!;
    const next = this.next.get(at) ?? 0;
    this.next.set(at, (next + 1) % cells.length);
    await this.book.goTo(placeOf(cells[next]!));
    this.say(`${placeWords(cells[next]!)}, ${next + 1} of ${cells.length}.`);
  }

  private async correct(at: number, way: number): Promise<void> {
    const { corrections } = this.findings[at]!.ways[way]!;
    this.undo.set(
      at,
      corrections.map((one) => ({
        place: placeOf(one),
        value: one.before,
        format: this.formatOf(one) ?? 'General',
      })),
    );
    await this.book.change(
      corrections.map((one) => ({
        place: placeOf(one),
        value: one.after,
        // A figure in a cell of the format Text would be text again.
        format: one.format ?? plainOr(this.formatOf(one)),
      })),
    );
    const words = `Corrected: ${corrections.length === 1 ? '1 cell' : `${corrections.length} cells`}.`;
    const item = this.itemOf(at);
    if (item) {
      const act = `${this.kind}:put-back`;
      const button = node(
        'fluent-button',
        { size: 'small', 'data-act': act, 'data-for': String(at) },
        'Put it back',
      );
      item.querySelectorAll('.preview, .actions').forEach((one) => one.remove());
      item.append(toElement(node('p', { class: 'actions' }, `${words} `, button)));
      item.querySelector<HTMLElement>(`[data-act="${act}"]`)?.focus();
    }
    this.say(words);
  }

  private async putBack(at: number): Promise<void> {
    await this.book.change(this.undo.get(at)!);
    this.undo.delete(at);
    const shownAgain = toElement(this.item(at));
    this.itemOf(at)?.replaceWith(shownAgain);
    shownAgain.querySelector<HTMLElement>(`[data-act="${this.kind}:correct"]`)?.focus();
    this.say('Put back as it was.');
  }

  private formatOf({ sheet, row, column }: CellPlace): string | undefined {
    return this.held!.sheets.find(({ name }) => name === sheet)?.formatAt(row, column);
  }

  private itemOf(at: number): HTMLElement | null {
    return this.root.querySelector<HTMLElement>(`[data-finding="${this.kind}:${at}"]`);
  }
}
