const { default: Sequencer } = require('@jest/test-sequencer');

/**
 * Files that take long whatever their size, by which Jest goes on a fresh clone. The order is all that follows from this:
 * a long file begun last would leave one worker alone at the end.
 */
const LONG = [
  /[\\/]tests[\\/]browser[\\/]/,
  /(fuzz|zones|calc|damagedFiles|loading[\\/]loadPlan|starters)\.test\.ts$/,
  /[\\/]together[\\/](worksheet|headless|maths)\.test\.js$/,
  /([\\/]together[\\/]\w+\.test\.js|(workbooks|stored)\.test\.ts)$/,
];
const rank = ({ path }) => {
  const place = LONG.findIndex((kind) => kind.test(path));
  return place === -1 ? LONG.length : place;
};

module.exports = class LongestFirst extends Sequencer {
  sort(tests) {
    return [...super.sort(tests)].sort((one, other) => rank(one) - rank(other));
  }
};
