/** For hosts with pages. Apart from its users, so that one script serves them all and tests in Node can go without. */
export const startWorker = (): Worker => new Worker(new URL('./worker.ts', import.meta.url));
