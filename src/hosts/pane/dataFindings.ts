import type { Caller } from '../../worksheet/call';
import type { Cell } from '../../worksheet/cells/cell';
import { shownCell } from '../../worksheet/cells/shown';
import type { DateSystem } from '../../worksheet/calendar';
import type { GrowersBook } from '../fit/book';
import { showsDate } from '../fit/book';
import { checkData, type CellPlace, type Correction, type DataFinding } from '../fit/check';
import { functionReader } from '../fit/functionReader';
import { addressOf } from '../xlsx/address';
import type { Book, CellChange, Place } from './book';
import { node, toElement, type PageNode } from './node';

const placeOf = ({ sheet, row, column }: CellPlace): Place => ({
  sheet,
  address: addressOf({ row, column }),
});
const placeWords = (cell: CellPlace): string => `${cell.sheet}!${placeOf(cell).address}`;

/** Corrections that a preview shows; beyond them it says how many more there are. */
const SHOWN = 5;

function shown(cell: Cell, format: string | undefined, system: DateSystem): string {
  if (format?.includes('%')) return shownCell(cell, 'percent', system);
  return shownCell(cell, showsDate(format) ? 'date' : 'plain', system);
}

function previewNode(corrections: readonly Correction[], system: DateSystem): PageNode {
  const more = corrections.length - SHOWN;
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
          node('td', {}, shownCell(one.before)),
          node('td', {}, shown(one.after, one.format, system)),
        ),
      ),
    more > 0 && node('tr', {}, node('td', { colspan: '3' }, `and ${more} more`)),
  );
}

function findingNode({ words, cells, ways }: DataFinding, at: number, system: DateSystem): PageNode {
  return node(
    'li',
    { class: 'data', 'data-finding': String(at) },
    node('b', {}, placeWords(cells[0]!)),
    node('p', {}, words),
    ...ways.flatMap(({ name, corrections }, way) => {
      const own = name === '' ? '' : `, ${name}`;
      return [
        previewNode(corrections, system),
        node(
          'p',
          { class: 'actions' },
          node(
            'fluent-button',
            { size: 'small', 'data-act': 'correct', 'data-for': `${at}:${way}` },
            corrections.length === 1
              ? `Correct this cell${own}`
              : `Correct these ${corrections.length}${own}`,
          ),
        ),
      ];
    }),
    node(
      'p',
      { class: 'actions' },
      node(
        'fluent-button',
        { size: 'small', 'data-act': 'go-data', 'data-for': String(at) },
        cells.length === 1 ? 'Go to the cell' : `Go to the next of ${cells.length} cells`,
      ),
    ),
  );
}

/** What a check finds in the data, and what is done about it on the grower's click. */
export class DataFindings {
  private held: GrowersBook | undefined;
  private findings: readonly DataFinding[] = [];
  /** Which cell of a finding comes next. */
  private readonly next = new Map<number, number>();
  private readonly undo = new Map<number, readonly CellChange[]>();

  constructor(
    private readonly root: HTMLElement,
    private readonly book: Book,
    private readonly caller: Caller,
    private readonly say: (text: string) => void,
  ) {}

  /** Looks through the data; gives the findings as list items. */
  async look(): Promise<readonly PageNode[]> {
    await this.caller.ready(['TODATES', 'TONUMBERS', 'MATCHLABELS']);
    this.held = await this.book.everything();
    const { dateSystem } = this.held;
    this.findings = checkData(this.held, functionReader(this.caller, dateSystem));
    this.next.clear();
    this.undo.clear();
    return this.findings.map((finding, at) => findingNode(finding, at, dateSystem));
  }

  async act(what: string, reference: string): Promise<boolean> {
    const [at, way = 0] = reference.split(':').map(Number) as [number, number?];
    switch (what) {
      case 'go-data':
        await this.goToNext(at);
        return true;
      case 'correct':
        await this.correct(at, way);
        return true;
      case 'put-back':
        await this.putBack(at);
        return true;
      default:
        return false;
    }
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
    this.show(at, `Corrected: ${corrections.length === 1 ? '1 cell' : `${corrections.length} cells`}.`, {
      act: 'put-back',
      words: 'Put it back',
    });
  }

  private async putBack(at: number): Promise<void> {
    await this.book.change(this.undo.get(at)!);
    this.undo.delete(at);
    const shownAgain = toElement(findingNode(this.findings[at]!, at, this.held!.dateSystem));
    this.itemOf(at)?.replaceWith(shownAgain);
    shownAgain.querySelector<HTMLElement>('[data-act="correct"]')?.focus();
    this.say('Put back as it was.');
  }

  private formatOf({ sheet, row, column }: CellPlace): string | undefined {
    return this.held!.sheets.find(({ name }) => name === sheet)?.formatAt(row, column);
  }

  private itemOf = (at: number): HTMLElement | null =>
    this.root.querySelector<HTMLElement>(`[data-finding="${at}"]`);

  private show(at: number, words: string, { act, words: label }: { act: string; words: string }): void {
    const item = this.itemOf(at);
    if (!item) return;
    const done = node(
      'p',
      { class: 'actions' },
      `${words} `,
      node('fluent-button', { size: 'small', 'data-act': act, 'data-for': String(at) }, label),
    );
    item.querySelectorAll('.preview, .actions').forEach((one) => one.remove());
    item.append(toElement(done));
    item.querySelector<HTMLElement>(`[data-act="${act}"]`)?.focus();
    this.say(words);
  }
}

const TEXT_FORMAT = '@';
const plainOr = (format: string | undefined): string =>
  format === undefined || format === TEXT_FORMAT ? 'General' : format;
