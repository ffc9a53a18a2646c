import { expect, test } from '@jest/globals';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { BUILT, builtFile } from './site';

/**
 * For the whole catalogue, so that the first cell does not wait. What few functions calculate with comes in files of its
 * own when first called: where this is passed, look for such a part before raising it.
 */
const FUNCTIONS_BUDGET_KB = 66;

const gzippedKb = (...files: string[]): number =>
  files.reduce((sum, file) => sum + gzipSync(readFileSync(path.join(BUILT, file))).length / 1024, 0);

test(`what Excel loads for the functions is at most ${FUNCTIONS_BUDGET_KB} KB gzipped, office.js aside`, () => {
  expect(gzippedKb('functions.js')).toBeLessThanOrEqual(FUNCTIONS_BUDGET_KB);
});

const PANE_BUDGET_KB = 250;

test(`what the task pane loads at first is at most ${PANE_BUDGET_KB} KB gzipped, office.js aside`, () => {
  const ofPane = [builtFile('taskpane', 'js'), builtFile('taskpane', 'css'), builtFile('pane', 'js')];
  expect(gzippedKb('taskpane.html', 'functions.js', ...ofPane)).toBeLessThanOrEqual(PANE_BUDGET_KB);
});
