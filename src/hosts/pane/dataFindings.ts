import type { Caller } from '../../worksheet/call';
import { checkData } from '../fit/check';
import { functionReader } from '../fit/functionReader';
import type { Book } from './book';
import { Corrections } from './corrections';
import { node, type PageNode } from './node';

/** What a check finds in the data, and what is done about it on the grower's click. */
export class DataFindings {
  private readonly corrections: Corrections;

  constructor(
    root: HTMLElement,
    private readonly book: Book,
    private readonly caller: Caller,
    say: (text: string) => void,
  ) {
    this.corrections = new Corrections('data', root, book, say);
  }

  /** Looks through the data; gives the findings as list items. */
  async look(): Promise<readonly PageNode[]> {
    await this.caller.ready(['TODATES', 'TONUMBERS', 'MATCHLABELS']);
    const held = await this.book.everything();
    const found = checkData(held, functionReader(this.caller, held.dateSystem));
    return this.corrections.show(
      held,
      found.map(({ cells, ways, words }) => ({ cells, ways, told: [node('p', {}, words)] })),
    );
  }

  act(what: string, reference: string): Promise<boolean> {
    return this.corrections.act(what, reference);
  }
}
