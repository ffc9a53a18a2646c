import type { Progress } from '../../worksheet/definition';

/** The call that is being worked out. */
export interface Work {
  readonly name: string;
  /** When it began, in milliseconds. */
  readonly since: number;
  readonly progress: Progress | undefined;
  /** Calls that wait for it to end. */
  readonly waiting: number;
}

/** What is being worked out beside the page, for those who show it and may stop it. */
export class Works {
  private readonly watchers: ((work: Work | undefined) => void)[] = [];
  private work: Work | undefined;

  /** Ends what is worked out and all that waits, each with an answer that says so. */
  stop: () => void = () => undefined;

  watch(watcher: (work: Work | undefined) => void): void {
    this.watchers.push(watcher);
    watcher(this.work);
  }

  tell(work: Work | undefined): void {
    this.work = work;
    for (const watcher of this.watchers) watcher(work);
  }
}
