import { count, mass, serial, type Kind } from '../cells/kinds';

// What only tables of this family hold.

/** Numbers of a farm: larger ones are a slip, and would spoil the programme's arithmetic. */
export const MOST = 1e9;
export const blockCount = (): Kind<number> => count(1, 1_000_000);
export const planMass = (): Kind<number> => mass(MOST);

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
/** Several days of the week in a word, and how it may be written. */
const DAYS_TOGETHER: Readonly<Record<string, readonly string[]>> = {
  weekend: ['weekend', 'weekends'],
  'work days': ['work days', 'workdays', 'weekdays', 'work day', 'workday', 'weekday'],
  'every day': ['every day', 'everyday', 'daily', 'all days'],
};

/** A date as its serial; a weekday as its English name, of which three letters will do; or several days in a word. */
export function weekdayOrDate(): Kind<number | string> {
  return {
    word: 'date',
    needed: 'a date, a weekday (Monday), weekend, work days or every day',
    accept: (cell) => {
      if (typeof cell !== 'string') return serial().accept(cell);
      const word = cell.trim().toLowerCase().replace(/\s+/g, ' ');
      const together = Object.keys(DAYS_TOGETHER).find((days) => DAYS_TOGETHER[days]!.includes(word));
      if (together !== undefined || word.length < 3) return together;
      return WEEKDAYS.find((weekday) => weekday.toLowerCase().startsWith(word));
    },
    samples: ['Monday', 'sun', 'weekend', 'every day', 46146],
  };
}

/**
 * A day's limit. A blank must not be taken for no limit where a host hands it over as 0, nor 0 for no work: both
 * are asked to be said in a word.
 */
export function dayLimit(word: 'mass' | 'count'): Kind<number> {
  return {
    word,
    zeroWord: 'off',
    needed: 'a number above 0, or off for no work that day, or none for no limit',
    accept: (cell) => {
      if (typeof cell === 'number') return cell > 0 && cell <= MOST ? cell : undefined;
      const said = typeof cell === 'string' ? cell.trim().toLowerCase() : '';
      return said === 'off' ? 0 : said === 'none' ? Infinity : undefined;
    },
    samples: [40, 'off', 'none'],
  };
}

/** A number, or one of the words that say what a 0 would: `none`, `yes`, `no`. */
export function settingValue(): Kind<number | string> {
  return {
    word: 'number',
    zeroWord: 'none',
    needed: 'a number, none, yes or no',
    accept: (cell) => {
      if (typeof cell === 'number') return cell > 0 && cell <= MOST ? cell : undefined;
      if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
      const word = typeof cell === 'string' ? cell.trim().toLowerCase() : '';
      return ['none', 'yes', 'no'].includes(word) ? word : undefined;
    },
    samples: [1, 0.05, 'none', 'yes', 'no'],
  };
}
