import { requireInOrder } from '../../maths/ripening/readyDate';
import { CalcError, dateOf, invalid, missing } from '../../maths/shared/fault';
import { labelKey, lookAlikes } from '../../maths/shared/labels';
import { blocksLeft } from '../../maths/shared/loadedBlocks';
import { isCellError, type CellError } from '../cells/cell';
import { orFault } from '../cells/fault';
import type { DateSystem } from '../calendar';
import { errorOf } from '../errorOf';
import { METRIC } from '../voice';
import type { RipeLot, RipeLots, StrainDays } from './tables';

interface DatedLot extends RipeLot {
  /** Blocks not loaded by the last day. */
  readonly left: number;
  /** First day it may be opened; undefined where neither the lot nor its strain says. */
  readonly readySerial: number | undefined;
  readonly bestSerial: number | undefined;
  readonly latestSerial: number | undefined;
}

function datedLot(lot: RipeLot, strains: StrainDays, lastSerial: number): DatedLot {
  const dated = { ...lot, left: blocksLeft(lot, lastSerial), ...datesOf(lot, strains) };
  const dates = [
    ['inoculated', lot.inoculated],
    ['earliest', dated.readySerial],
    ['best', dated.bestSerial],
    ['latest', dated.latestSerial],
  ] as const;
  const known = dates.flatMap(([header, day]) =>
    day === undefined ? [] : [{ header, day: Math.floor(day) }],
  );
  known.slice(1).forEach(({ header, day }, i) => {
    const before = known[i]!;
    if (day >= before.day) return;
    const details = { other: before.header, date: dateOf(before.day), given: dateOf(day) };
    throw invalid(`lots, ${header}`, 'notBefore', details, lot);
  });
  return dated;
}

type Dates = Pick<DatedLot, 'readySerial' | 'bestSerial' | 'latestSerial'>;

/** A lot's dates: its own where it has them, otherwise its inoculation and the strain's days. */
function datesOf(lot: RipeLot, strains: StrainDays): Dates {
  const from = lot.inoculated;
  if (from === undefined || (lot.earliest !== undefined && lot.latest !== undefined)) {
    return { readySerial: lot.earliest, bestSerial: lot.best, latestSerial: lot.latest };
  }
  const days = strains.find(lot.strain, 'lots, strain', lot.at);
  requireInOrder(days);
  const first = lot.earliest ?? (days.earliest === undefined ? undefined : from + days.earliest);
  if (first === undefined) {
    const details = { header: 'earliest', table: 'strains', of: lot.strain };
    throw missing('lots, strain', 'blank', details, lot);
  }
  const after = (own: number | undefined, wait: number | undefined): number | undefined =>
    own ?? (wait === undefined ? undefined : from + wait);
  return {
    readySerial: first,
    bestSerial: after(lot.best, days.best),
    latestSerial: after(lot.latest, days.latest),
  };
}

/** Whole days since inoculation; a lot that is inoculated later has no age yet. */
function ageOn(day: number, { inoculated }: RipeLot): number | '' {
  return inoculated === undefined || Math.floor(inoculated) > day ? '' : day - Math.floor(inoculated);
}

const lotsWord = (lots: number): string => (lots === 1 ? '1 lot' : `${lots} lots`);
const areWord = (lots: number): string => `${lotsWord(lots)} ${lots === 1 ? 'is' : 'are'}`;

/** A row that cannot be read, with the name of its lot; blank where that is what cannot be read. */
interface Unread {
  readonly lot: string;
  readonly fault: CellError;
}

/** What was left out, a line a cause: the lots, and the first reason. */
function leftOutLines(unread: readonly Unread[]): string[] {
  const byCause = new Map<string, Unread[]>();
  for (const one of unread) {
    const cause = one.fault.place?.argument ?? one.fault.code;
    byCause.set(cause, [...(byCause.get(cause) ?? []), one]);
  }
  return [...byCause.values()].map((rows) => {
    const { reason, code } = rows[0]!.fault;
    const named = rows.filter(({ lot }) => lot !== '');
    const names = named.length === 0 ? '' : `, ${namesOf(named)}`;
    const first = `${rows.length > 1 && names !== '' ? '; the first' : rows.length > 1 ? ', the first' : ''}: `;
    return `${lotsWord(rows.length)} left out${names}${first}${reason === '' ? code : reason}`;
  });
}

/** The first of the lots listed of each name that several rows have: a row typed twice counts its blocks twice. */
function repeated(labels: readonly string[], ready: readonly DatedLot[]): DatedLot[] {
  const rows = new Map<string, number>();
  for (const label of labels) rows.set(labelKey(label), (rows.get(labelKey(label)) ?? 0) + 1);
  const listed = new Map([...ready].reverse().map((lot) => [labelKey(lot.lot), lot]));
  return [...listed].flatMap(([own, lot]) => ((rows.get(own) ?? 0) > 1 ? [lot] : [])).reverse();
}

/** The rows of READYLOTS: the lots that are ripe or come ripe between two days, and lines for what is not among them. */
export function readyRows(
  lots: RipeLots,
  strains: StrainDays,
  fromSerial: number,
  toSerial: number,
  dateSystem: DateSystem,
) {
  if (toSerial < fromSerial) {
    throw invalid('to', 'notBefore', { other: 'from', date: dateOf(fromSerial), given: dateOf(toSerial) });
  }
  const [first, last] = [Math.floor(fromSerial), Math.floor(toSerial)];
  const read = lots.entries.map((entry) =>
    isCellError(entry) ? entry : orFault(() => datedLot(entry, strains, last)),
  );
  const unread = read.flatMap((one, i): Unread[] => {
    const lot = lots.labels[i]!.trim();
    if (one instanceof CalcError) return [{ lot, fault: errorOf(one, { dateSystem, voice: METRIC }) }];
    return isCellError(one) ? [{ lot, fault: one }] : [];
  });
  const known = read.filter((lot): lot is DatedLot => !(lot instanceof CalcError) && !isCellError(lot));
  const undated = known.filter(({ readySerial }) => readySerial === undefined);
  const dated = known.flatMap((lot) =>
    lot.readySerial === undefined ? [] : [{ ...lot, readySerial: lot.readySerial }],
  );
  const there = dated.filter(({ left }) => left > 0);
  const isOver = ({ latestSerial }: DatedLot): boolean =>
    latestSerial !== undefined && Math.floor(latestSerial) < first;
  const over = there.filter(isOver);
  const ready = there
    .filter((lot) => !isOver(lot) && Math.floor(lot.readySerial) <= last)
    .sort(
      (a, b) =>
        (a.latestSerial ?? Infinity) - (b.latestSerial ?? Infinity) ||
        a.readySerial - b.readySerial ||
        Number(labelKey(a.lot) > labelKey(b.lot)) - Number(labelKey(a.lot) < labelKey(b.lot)),
    );
  const rows = ready.map((lot) => ({
    lot: lot.lot,
    strain: lot.strain,
    blocks: lot.left,
    inoculated: lot.inoculated ?? ('' as const),
    ready: lot.readySerial,
    best: lot.bestSerial ?? ('' as const),
    latest: lot.latestSerial ?? ('' as const),
    age: ageOn(first, lot),
    state:
      (Math.floor(lot.readySerial) <= first ? 'ready' : 'comes ready') +
      (lot.latestSerial !== undefined && Math.floor(lot.latestSerial) <= last ? ', goes over age' : ''),
  }));
  const blank = {
    strain: '',
    blocks: '',
    inoculated: '',
    ready: '',
    best: '',
    latest: '',
    age: '',
    state: '',
  } as const;
  const twice = repeated(lots.labels, ready);
  const alike = lookAlikes(ready.map(({ lot }) => lot));
  const loaded = dated.filter(({ blocks, left }) => left === 0 && blocks > 0).length;
  const lines = [
    ...(ready.length === 0 ? ['no lot is ready in these days'] : []),
    ...(twice.length === 0
      ? []
      : [`${areWord(twice.length)} in several rows, and all of them are listed: ${namesOf(twice)}`]),
    ...(alike === undefined ? [] : [`two lots look the same but are not: ${alike.join(' and ')}`]),
    ...(over.length === 0 ? [] : [`${areWord(over.length)} past the latest day: ${namesOf(over)}`]),
    ...(loaded === 0 ? [] : [`${areWord(loaded)} loaded already`]),
    ...(undated.length === 0
      ? []
      : [`${lotsWord(undated.length)} without dates left out: ${namesOf(undated)}`]),
    ...leftOutLines(unread),
  ];
  return [...rows, ...lines.map((line) => ({ ...blank, lot: line }))];
}

/** The names of some lots, not longer than a line. */
function namesOf(lots: readonly { readonly lot: string }[]): string {
  const names = lots.slice(0, 5).map(({ lot }) => lot);
  return names.join(', ') + (lots.length > 5 ? ` and ${lots.length - 5} more` : '');
}
