import library from 'jstat';

/** The statistics library; its module wraps it twice. */
export const { jStat } = library;
