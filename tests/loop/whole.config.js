const { readdirSync } = require('node:fs');
const path = require('node:path');
const { projects, ...common } = require('../../jest.config');
const { TESTS, filesOf, testFiles } = require('./together');

/** `npm test`: each test of each file, as jest.config.js has it, but many files read as one. */

const rootDir = path.resolve(TESTS, '..');
const [node, browser] = projects;
// Of the groups that have a file: what is in no such group runs by itself, so that nothing is left out.
const groups = readdirSync(path.join(TESTS, 'together')).map((file) => path.basename(file, '.test.js'));
const inGroups = new Set(groups.flatMap(filesOf));
const alone = testFiles('.').filter(
  (file) => !inGroups.has(file) && !file.startsWith(path.join(TESTS, 'browser')),
);

module.exports = {
  ...common,
  rootDir,
  projects: [
    { ...node, rootDir, testMatch: ['<rootDir>/tests/together/*.test.js', ...alone] },
    { ...browser, rootDir },
  ],
};
