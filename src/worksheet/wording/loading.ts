import { inLine } from './phrases';
import type { Sentences } from './sentence';

const SETTING_NEEDS = {
  yesNo: 'yes or no',
  cost: 'a cost or none',
  share: 'a share below 100% or none',
  days: 'a whole number of days up to 366, or none',
  blocks: 'a whole number of blocks, or none',
  count: 'a whole number up to 64',
};

/** What can be wrong with loading, beyond what any number, date or label can be. */
export const loading: Sentences<
  | 'noLoads'
  | 'tooManyDays'
  | 'noFlushGap'
  | 'noFlushShare'
  | 'flushShares'
  | 'tooManyLoads'
  | 'planTooLarge'
  | 'noInoculation'
  | 'noLotOfLoad'
  | 'moreThanLot'
  | 'longWindow'
  | 'calendarDayTwice'
  | 'noSteps'
  | 'noMakes'
  | 'severalStrains'
  | 'noSuchSetting'
  | 'settingTwice'
  | 'settingValue'
  | 'notLoaded'
> = {
  notLoaded: ({ blocks, given }, { subject }) =>
    `${subject} must be a date, or a whole number of blocks up to the ${blocks} of the lot; it is ${given}`,
  noLoads: (_, { subject }) => `${subject} has no row with a date under loaded`,
  tooManyDays: ({ most, days }, { subject }) =>
    `${subject} must be at most ${most} days from the first day shown; it is ${days}`,
  noFlushGap: ({ strain, flushes }, { subject }) =>
    `${subject}: ${inLine(strain)} is kept for ${flushes} flushes, but its flush gap is blank`,
  noFlushShare: ({ strain, flushes, flush }, { subject }) =>
    `${subject}: ${inLine(strain)} is kept for ${flushes} ${flushes === 1 ? 'flush' : 'flushes'}, but its share under flush ${flush} is blank`,
  flushShares: ({ strain, total }, { subject, figure }) =>
    `${subject}: the flush shares of ${inLine(strain)} must add up to above 0% and at most 100%; they add up to ${figure(total)}`,
  tooManyLoads: ({ most, loads }, { subject }) =>
    `${subject} is too low: the blocks would need ${loads} loads, more than ${most}`,
  planTooLarge: ({ most, found }, { subject }) =>
    `${subject}: a plan can hold at most ${most} lot-days, and this one has about ${found}; ` +
    'plan fewer days, or join lots of one strain and age',
  noLotOfLoad: (_, { subject }) => `${subject} is blank, and so is lot: fill in one of the two`,
  moreThanLot: ({ lot, blocks, given }, { subject }) =>
    `${subject} must add up to no more than the lot ${inLine(lot)} has: they add up to ${given}, and it has ${blocks}`,
  noInoculation: ({ point }, { subject }) =>
    `${subject} is blank, and so is ${point}: fill in one of the two`,
  longWindow: ({ most, from, due }, { subject, figure }) =>
    `${subject} must be at most ${most} days before due (${figure(due)}); it is ${figure(from)}`,
  calendarDayTwice: ({ day, rows }, { subject, given, listed }) =>
    `${subject}: ${typeof day === 'string' ? day : given(day)} must be in one row; it is in rows ${listed(rows.map(String))}`,
  noSteps: ({ strain }, { subject }) =>
    `${subject} has no rows for ${inLine(strain)}, and none for all strains`,
  severalStrains: ({ product, strains }, { subject, quoted, listed }) =>
    `${subject}: ${quoted(product)} is the product of ${listed(strains.map(inLine))} in strains: order one of them`,
  noMakes: ({ step }, { subject }) =>
    `${subject} is blank for ${inLine(step)}: fill in how many units of the next step one unit makes`,
  noSuchSetting: ({ given, names }, { subject, quoted }) =>
    `${subject} must be ${names.length > 1 ? 'one of ' : ''}${names.join(', ')}; it is ${quoted(given)}`,
  settingTwice: ({ name }, { subject, quoted }) => `${subject} must hold ${quoted(name)} once`,
  settingValue: ({ name, kind, given }, { subject, ...say }) =>
    `${subject} must be ${SETTING_NEEDS[kind]} for ${name}; it is ${say.given(given)}`,
};
