import type { Fault, FaultCode } from '../../maths/shared/fault';
import type { Telling } from '../voice';
import { audit } from './audit';
import { boundary } from './boundary';
import { climate } from './climate';
import { cost } from './cost';
import { harvest } from './harvest';
import { lineage } from './lineage';
import { loading } from './loading';
import { limitWords, listed, quoted, shownFigure, shownGiven, shownPercent, subjectOf } from './phrases';
import { records } from './records';
import { ripening } from './ripening';
import type { Say, Sentence, Sentences } from './sentence';
import { sterilising } from './sterilising';
import { substrate } from './substrate';

const general: Sentences<
  | 'outside'
  | 'notBefore'
  | 'after'
  | 'notLater'
  | 'pastCalendar'
  | 'beforeCalendar'
  | 'tooFew'
  | 'notAsLong'
  | 'notIn'
  | 'blank'
> = {
  outside: ({ given, what, ...limits }, { subject, ...say }) => {
    const whole = limits.whole ? 'a whole number' : '';
    const words = say.limits(limits) || (whole ? '' : 'a number');
    const needed = [whole, words].filter((part) => part !== '').join(', ');
    return `${subject} must be ${needed}${what === undefined ? '' : `, ${what}`}; it is ${say.given(given)}`;
  },
  notBefore: ({ other, date, given }, { subject, figure }) =>
    `${subject} must not be before ${other} (${figure(date)}); it is ${figure(given)}`,
  after: ({ other, date, given }, { subject, figure }) =>
    `${subject} must be after ${other} (${figure(date)}); it is ${figure(given)}`,
  notLater: ({ before, given }, { subject, figure }) =>
    `${subject} must rise from row to row; ${figure(given)} comes after ${figure(before)}`,
  pastCalendar: ({ given }, { subject, figure }) =>
    `${subject} leads to a date after the year 9999; it is ${figure(given)}`,
  beforeCalendar: ({ given }, { subject, figure }) =>
    `${subject} leads back to a date before the first that a sheet can show; it is ${figure(given)}`,
  tooFew: ({ least, things, found }, { subject }) =>
    `${subject} must hold at least ${least} ${things}; there ${found === 1 ? 'is' : 'are'} ${found}`,
  notAsLong: ({ other, length, found }, { subject }) =>
    `${subject} must have as many values as ${other}, ${length}; it has ${found}`,
  notIn: ({ label, table, nearest }, { subject, ...say }) =>
    `${subject}: ${say.quoted(label)} is not in ${table}` +
    (nearest === undefined ? '' : `; did you mean ${say.quoted(nearest)}?`),
  blank: ({ header, table, of }, { subject, ...say }) =>
    `${subject}: "${header}" in ${table} is blank${of === undefined ? '' : ` for ${say.quoted(of)}`}`,
};

/** Every code has its sentence: one that lacks does not compile. */
const SENTENCES: Sentences<FaultCode> = {
  ...general,
  ...boundary,
  ...records,
  ...ripening,
  ...lineage,
  ...substrate,
  ...sterilising,
  ...climate,
  ...loading,
  ...harvest,
  ...audit,
  ...cost,
};

/** A fault in one sentence for the person at the sheet, without its place. */
export function sentenceOf({ code, argument, details }: Fault, telling: Telling): string {
  const say: Say = {
    subject: subjectOf(argument),
    argument,
    named: subjectOf,
    figure: (figure) => shownFigure(figure, telling),
    given: (given) => shownGiven(given, telling),
    limits: (limits) => limitWords(limits, telling),
    quoted,
    percent: shownPercent,
    listed,
    degrees: telling.voice.degrees,
  };
  return (SENTENCES[code] as Sentence<FaultCode>)(details, say);
}
