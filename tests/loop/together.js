const { readdirSync } = require('node:fs');
const path = require('node:path');

const TESTS = path.resolve(__dirname, '..');

/**
 * Folders whose test files run as one when all tests run. Jest gives every file modules of its own: to read and compile them
 * two hundred times took a quarter of what those tests take.
 */
const TOGETHER = {
  maths: ['maths'],
  worksheet: ['worksheet'],
  engine: ['hosts/engine', 'hosts/xlsx'],
  excel: ['hosts/excel', 'hosts/pane'],
  fit: ['hosts/fit'],
  workbench: ['hosts/workbench'],
  headless: ['hosts/headless'],
};

/** Files that run by themselves: they take long, or set up what a module finds when it is first read. */
const ALONE =
  /(fuzz|zones|damagedFiles|loading[\\/]loadPlan|solverBreaks|worker[\\/]solver|pane[\\/]starters|clock|excel[\\/]dateSystem)\.test\.ts$/;

const testFiles = (folder) =>
  readdirSync(path.join(TESTS, folder), { recursive: true })
    .filter((file) => file.endsWith('.test.ts'))
    .map((file) => path.join(TESTS, folder, file))
    .sort();

/** The test files of a group. */
const filesOf = (group) => TOGETHER[group].flatMap(testFiles).filter((file) => !ALONE.test(file));

/** Defines all tests of a group, under the names of their files. */
function together(group) {
  for (const file of filesOf(group)) {
    const name = path.relative(TESTS, file).replaceAll('\\', '/');
    describe(name, () => void require(file));
  }
}

module.exports = { TESTS, filesOf, testFiles, together };
