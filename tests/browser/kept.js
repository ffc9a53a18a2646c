const { TestEnvironment } = require('jest-environment-node');
const { chromium } = require('playwright-core');

/**
 * What a worker of Jest keeps from one file of browser tests to the next: one browser, the port its pages come from, the
 * two pages that tests visit one after another. A browser begun for each file, and its pages compiled anew, cost more than
 * many of the tests.
 */
const kept = {
  /** The browser, begun with the first call. It holds up nobody's end, and ends with the process. */
  browser(options) {
    const before = new Set(process._getActiveHandles());
    kept.begun ??= chromium.launch(options).then((browser) => {
      for (const handle of process._getActiveHandles()) if (!before.has(handle)) handle.unref?.();
      return browser;
    });
    return kept.begun;
  },
  port: 0,
  pages: new Map(),
};

module.exports = class extends TestEnvironment {
  constructor(...given) {
    super(...given);
    this.global.kept = kept;
  }
};
