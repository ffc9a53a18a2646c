import type { BrokenRule } from '../../maths/loading/checkLoads';
import { formatted, type Formatted } from '../cells/cell';
import { counted, shownNumber, shownPercent } from '../wording/phrases';

interface BrokenRow {
  readonly rule: string;
  readonly date: number | '';
  readonly where: string;
  readonly found: number | '' | Formatted;
  readonly allowed: number | '' | Formatted;
  readonly 'in words': string;
}

/** Broken rules as rows of a table; one row that says so where none is broken. */
export function brokenRows(broken: readonly BrokenRule[], margin: number): BrokenRow[] {
  if (broken.length === 0) {
    const judged = margin > 0 ? `orders are filled with yields taken ${shownPercent(margin)} lower` : '';
    return [{ rule: 'none broken', date: '', where: '', found: '', allowed: '', 'in words': judged }];
  }
  return broken.map((one) => {
    const { rule, day, subject, found, allowed } = one;
    const dated = rule === 'opened too early' || rule === 'opened too late';
    return {
      rule,
      date: day ?? '',
      where: subject,
      found: dated ? formatted(found, 'date') : found,
      allowed: dated ? formatted(allowed, 'date') : allowed,
      'in words': sentenceOf(one, margin),
    };
  });
}

/** A mass as a sentence shows it, to two decimals. */
const mass = (exact: number): string => shownNumber(Math.round(exact * 100) / 100);

function sentenceOf(
  { rule, subject, found, allowed, strain = '', days = 0 }: BrokenRule,
  margin: number,
): string {
  switch (rule) {
    case 'lot not known':
      return `${subject} is not in lots`;
    case 'room not known':
      return `${subject} is not in rooms`;
    case 'more blocks than the lot has':
      return `${subject} has ${counted(allowed, 'block')}, ${found} are loaded`;
    case 'opened too early':
      return `${subject} is opened ${counted(allowed - found, 'day')} before it may be`;
    case 'opened too late':
      return `${subject} is opened ${counted(found - allowed, 'day')} after its last day`;
    case 'strain not allowed in the room':
      return `${subject} does not take ${strain}`;
    case 'room shut':
      return `${subject} is shut with up to ${counted(found, 'block')} inside for ${counted(days, 'day')}`;
    case 'room over-full':
      return `${subject} has ${allowed} places and holds up to ${counted(found, 'block')} for ${counted(days, 'day')}`;
    case 'too many blocks to load':
      return allowed === 0
        ? `no loading is done on this day, ${counted(found, 'block')} are planned`
        : `${counted(found, 'block')} are planned, ${allowed} can be loaded`;
    case 'too much to pick':
      return `${mass(found)} is to be picked, ${mass(found - allowed)} more than the limit`;
    case 'order short': {
      const judged = margin > 0 ? ` with yields taken ${shownPercent(margin)} lower` : '';
      return `${mass(found)} of ${shownNumber(allowed)} is filled, ${mass(allowed - found)} short${judged}`;
    }
  }
}
