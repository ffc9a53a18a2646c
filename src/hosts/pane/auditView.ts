import { loadTools } from '../../worksheet/tools';
import { auditedFindings, type AuditedFinding } from '../fit/audited';
import type { Fit } from '../fit/fitted';
import type { Book } from './book';
import { Corrections } from './corrections';
import { node, toElement, type PageNode } from './node';

type Picture = NonNullable<AuditedFinding['told']['picture']>;

const WIDTH = 300;
const HEIGHT = 44;
const LINE = HEIGHT - 8;
const EDGE = 6;
/** The lightest pick still stands off the line. */
const LEAST_HEIGHT = 4;

const at = (day: number, days: number): number =>
  Math.round(10 * (EDGE + ((WIDTH - 2 * EDGE) * day) / Math.max(1, days))) / 10;

/** A lot's picks on a line of days, taller where they weigh more; the odd ones marked by a point of their own. */
export function pictureNode({ days, loaded, picks, sentence }: Picture): PageNode {
  const most = Math.max(...picks.filter(({ isOdd }) => !isOdd).map(({ mass }) => mass), 1e-9);
  const heightOf = (mass: number): number =>
    Math.round(LEAST_HEIGHT + (LINE - 14) * Math.min(1.2, mass / most));
  const stem = ({ day, mass, isOdd }: Picture['picks'][number]): PageNode[] => {
    const [x, top] = [at(day, days), LINE - heightOf(mass)];
    const line = node('path', { d: `M${x} ${LINE}V${top}`, class: isOdd ? 'odd' : 'pick' });
    return isOdd ? [line, node('path', { d: `M${x} ${top - 6}l5 5-5 5-5-5z`, class: 'odd mark' })] : [line];
  };
  return node(
    'svg',
    {
      class: 'lot-days',
      role: 'img',
      'aria-label': sentence,
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      width: String(WIDTH),
      height: String(HEIGHT),
    },
    node('path', { d: `M${EDGE} ${LINE}H${WIDTH - EDGE}`, class: 'days' }),
    loaded !== undefined &&
      node('path', {
        d: `M${at(loaded, days)} ${LINE - 5}v10M${at(loaded, days) - 4} ${LINE + 5}h8`,
        class: 'load',
      }),
    // Odd ones last, so that no other lies over them.
    ...picks.filter(({ isOdd }) => !isOdd).flatMap(stem),
    ...picks.filter(({ isOdd }) => isOdd).flatMap(stem),
  );
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

function toldNodes({ told, corrections }: AuditedFinding): PageNode[] {
  const { says, evidence, slipWords, sureWords, picture } = told;
  const slip = slipWords === '' ? '' : `: ${slipWords}`;
  return [
    node('p', {}, `${capital(says)}.`),
    ...(evidence === '' ? [] : [node('p', { class: 'quiet' }, evidence)]),
    ...(picture ? [pictureNode(picture)] : []),
    node(
      'p',
      { class: 'quiet' },
      told.cause === 'not judged'
        ? 'Nothing is said of what could not be judged.'
        : `${capital(sureWords)}${slip}.${corrections.length === 0 ? ' What is right, only you can find out.' : ''}`,
    ),
  ];
}

const headingOf = ({ told }: AuditedFinding): string =>
  told.cause === 'group' || told.cause === 'book' || told.cause === 'not judged'
    ? 'Several lots'
    : told.lot === ''
      ? 'No lot'
      : `Lot ${told.lot}`;

/** What an audit finds in the grower's own tables, lot by lot, and what is done about it on the grower's click. */
export class AuditView {
  private readonly corrections: Corrections;

  constructor(
    root: HTMLElement,
    book: Book,
    private readonly say: (text: string) => void,
  ) {
    this.corrections = new Corrections('audit', root, book, say);
  }

  async show(fit: Fit, into: HTMLElement): Promise<void> {
    const { auditing } = await loadTools(['auditing']);
    const found = auditedFindings(fit, auditing!);
    const items = this.corrections.show(
      fit.book,
      found.map((one) => ({
        cells: one.cells,
        ways: one.corrections.length === 0 ? [] : [{ name: '', corrections: one.corrections }],
        told: toldNodes(one),
      })),
    );
    const lots = new Map<string, PageNode[]>();
    items.forEach((item, i) => {
      const heading = headingOf(found[i]!);
      const own = lots.get(heading);
      if (own) own.push(item);
      else lots.set(heading, [item]);
    });
    const words =
      found.length === 0
        ? 'Nothing was found that cannot be right.'
        : `${found.length} to look at. Look at the scale’s sheet before you correct.`;
    const shown = node(
      'section',
      { class: 'audit' },
      node('h4', { tabindex: '-1' }, words),
      ...[...lots].flatMap(([heading, own]) => [
        node('h5', {}, heading),
        node('ul', { class: 'findings' }, own),
      ]),
    );
    into.replaceChildren(toElement(shown));
    into.querySelector('h4')?.focus();
    this.say(words);
  }

  act(what: string, reference: string): Promise<boolean> {
    return this.corrections.act(what, reference);
  }
}
