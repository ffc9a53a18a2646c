const path = require('node:path');
const { projects, ...common } = require('../../jest.config');
const { TESTS, TOGETHER, filesOf, testFiles } = require('./together');

/** `npm test`: each test of each file, as jest.config.js has it, but many files read as one. */

const rootDir = path.resolve(TESTS, '..');
const [node, browser] = projects;
const inGroups = new Set(Object.keys(TOGETHER).flatMap(filesOf));
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
