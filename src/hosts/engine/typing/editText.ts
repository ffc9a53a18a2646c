import { utcDay, type DateSystem } from '../../../worksheet/calendar';
import { orderOfFormat, type Habits } from './habits';

/** What a number's cell is edited as: `4/5/2026`, `7%`, `12,5`, so that it reads back as the same number. */
export function editText(
  value: number,
  format: string | undefined,
  habits: Habits,
  dateSystem: DateSystem,
): string {
  const code = format?.replace(/"[^"]*"|\\.|\[\$[^\]]*\]|_.|\*./g, '').split(';')[0] ?? '';
  if (/[dy]/i.test(code) && value >= 1)
    return dayText(value, orderOfFormat(code) ?? habits.order, dateSystem);
  if (/[hs]/i.test(code) && value >= 0 && value < 1) return timeText(value);
  const digits = code.includes('%') ? `${hundredfold(value)}%` : String(value);
  return digits.replace('.', habits.decimal);
}

/** A hundred times a number, digit by digit: 0.07 is 7 %. */
function hundredfold(value: number): string {
  const [digits, power] = String(value).split('e');
  if (power !== undefined) return `${digits}e${Number(power) + 2}`;
  const [whole, part = ''] = digits!.split('.');
  const moved = `${whole}${part.padEnd(2, '0').slice(0, 2)}`.replace(/^(-?)0+(?=\d)/, '$1');
  return part.length > 2 ? `${moved}.${part.slice(2)}` : moved;
}

function dayText(serial: number, order: Habits['order'], dateSystem: DateSystem): string {
  const day = utcDay(serial, dateSystem);
  const [d, m, y] = [day.getUTCDate(), day.getUTCMonth() + 1, String(day.getUTCFullYear()).padStart(4, '0')];
  const two = (part: number): string => String(part).padStart(2, '0');
  const date = { mdy: `${m}/${d}/${y}`, dmy: `${d}/${m}/${y}`, ymd: `${y}-${two(m)}-${two(d)}` }[order];
  const time = serial - Math.floor(serial);
  return time === 0 ? date : `${date} ${timeText(time)}`;
}

function timeText(share: number): string {
  const seconds = Math.round(share * 86_400);
  const two = (part: number): string => String(part).padStart(2, '0');
  const rest = seconds % 60;
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}${rest === 0 ? '' : `:${two(rest)}`}`;
}
