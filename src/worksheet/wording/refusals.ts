import type { DateSystem } from '../calendar';
import { isBlank, isBlankOrZero, isCellError, type Cell, type CellError, type Place } from '../cells/cell';
import type { Limits } from '../../maths/shared/fault';
import type { Kind, KindWord } from '../cells/kinds';
import { METRIC } from '../voice';
import { limitWords, placeWords, shownGiven, shownNumber, shownPercent, subjectOf } from './phrases';

/** Limits of a share as percentages; of other numbers as they are. */
function numberWords({ word, limits = {} }: Kind<unknown>): string {
  const telling = { dateSystem: 1900, voice: METRIC } as const;
  const isShare = word === 'share' || word === 'efficiency';
  const whole = limits.whole === true;
  const shown: Limits = isShare
    ? Object.fromEntries(
        Object.entries(limits).map(([limit, figure]) => [
          limit,
          typeof figure === 'number' ? { of: 'share', value: figure } : figure,
        ]),
      )
    : limits;
  const isDays = limits.unit === 'days';
  const { unit = '', ...bare } = shown;
  const words = limitWords({ ...bare, whole, unit: isDays ? '' : unit }, telling);
  const number = whole ? 'a whole number' : 'a number';
  const noun = isShare ? 'a percentage' : word === 'mass' ? 'a mass' : isDays ? `${number} of days` : number;
  if (words === '') return noun;
  return /^\d/.test(words) ? `${noun}, ${words}` : `${noun} ${words}`;
}

const needs = new WeakMap<Kind<unknown>, string>();

/** What a cell of a kind must be: `a number of days above 0`, `a date`, `one of earliest, best, latest`. */
export function needOf(kind: Kind<unknown>): string {
  // Kept: a long column may be refused in each of a million rows.
  const known = needs.get(kind);
  if (known !== undefined) return known;
  const need = needWords(kind);
  needs.set(kind, need);
  return need;
}

function needWords(kind: Kind<unknown>): string {
  const words: Partial<Record<KindWord, string>> = {
    date: 'a date',
    temperature: 'a temperature',
    label: 'a label',
    choice: `one of ${Object.keys(kind.choices ?? {}).join(', ')}`,
    anything: 'anything',
  };
  if (kind.needed !== undefined) return kind.needed + (kind.orBlank ? ' or blank' : '');
  const need = words[kind.word] ?? numberWords(kind);
  const orWord = kind.zeroWord === undefined ? '' : `, or the word ${kind.zeroWord}`;
  return need + orWord + (kind.orBlank ? ' or blank' : '');
}

const WRITES_ZERO = /^\s*[-+]?0+([.,]0+)?\s*%?\s*$/;
const LOOKS_LIKE_NUMBER = /^\s*[-+]?\d+([.,]\d+)?\s*%?\s*$/;
/** A date (2026-03-11, 11/03/2026, 11.3.26), a time of day (8:00, 08:00:30 pm), or a date with a time behind it. */
const LOOKS_LIKE_DATE =
  /^\s*(?:\d{1,4}([-/.])\d{1,2}\1\d{1,4}(?:[\sT]+\d{1,2}:\d{2}\S*)?|\d{1,2}:\d{2}(?::\d{2}\S*)?)(?:\s*[ap]\.?m\.?)?\s*$/i;

/** A way out for a cell that was refused; undefined where there is nothing to add. */
function hintFor(kind: Kind<unknown>, cell: Cell): string | undefined {
  if (kind.needed !== undefined && typeof cell !== 'string') return undefined;
  const isShare = kind.word === 'share' || kind.word === 'efficiency';
  if (isBlankOrZero(cell)) {
    if (kind.needed !== undefined) return undefined;
    if (kind.zeroWord !== undefined) return `for 0 write ${kind.zeroWord}`;
    return kind.word === 'temperature' ? 'for 0 degrees write 0.01' : undefined;
  }
  if (typeof cell === 'number') {
    const most = kind.word === 'efficiency' ? 500 : 100;
    // From 2 on a percentage was typed without its sign; 1.05 is as likely 105% as 1.05%.
    if (!isShare || cell < 2 || cell > most) return undefined;
    return `for ${shownPercent(cell / 100)} write ${shownNumber(cell)}% or ${shownNumber(cell / 100)}`;
  }
  if (typeof cell !== 'string' || isBlank(cell)) return undefined;
  if (kind.word === 'date' && kind.needed === undefined)
    return 'it is text: type it again so that the sheet takes it as a date';
  // A 0 that is text is no better as a number where a word says it.
  if (WRITES_ZERO.test(cell) && (kind.zeroWord !== undefined || kind.word === 'temperature'))
    return hintFor(kind, 0);
  if (kind.limits !== undefined && LOOKS_LIKE_NUMBER.test(cell))
    return 'it is text that looks like a number: type it again as a number';
  // Of the numbers only minutes may be times of day.
  if (kind.word === 'number' && LOOKS_LIKE_DATE.test(cell))
    return 'it is text that looks like a date or time: type it again so that the sheet takes it as one';
  return undefined;
}

const blanks = new WeakMap<Kind<unknown>, string>();

/** What a sentence says of a cell after its subject. Kept for a blank, of which a long range may hold a million. */
function complaintOf(kind: Kind<unknown>, cell: Exclude<Cell, CellError>, dateSystem: DateSystem): string {
  const isBlankCell = isBlankOrZero(cell);
  const known = isBlankCell ? blanks.get(kind) : undefined;
  if (known !== undefined) return known;
  const given = isBlankCell ? 'blank or 0' : shownGiven(cell, { dateSystem, voice: METRIC });
  const hint = hintFor(kind, cell);
  const complaint = `must be ${needOf(kind)}; it is ${given}${hint === undefined ? '' : ` – ${hint}`}`;
  if (isBlankCell) blanks.set(kind, complaint);
  return complaint;
}

/** Why a cell is not taken as a kind, its place included. */
export function refusalOf(kind: Kind<unknown>, cell: Cell, place: Place, dateSystem: DateSystem): string {
  const subject = subjectOf(place.argument);
  if (isCellError(cell)) return `${subject} holds the error ${cell.code}${placeWords(place)}`;
  return `${subject} ${complaintOf(kind, cell, dateSystem)}${placeWords(place)}`;
}
