import { headerKey } from '../../worksheet/cells/headerWords';
import { numberedHeaders } from '../../worksheet/cells/numberedHeaders';
import type { ColumnMatch, MatchedBy } from './candidate';
import { isOfFlush, isOfWhatCameOff } from './flushHeaders';
import { isUnnamed, shownNames, type HeaderRun } from './headerRuns';
import type { WantedColumn, WantedTable } from './jobs';
import { couldBe, hasAny, isDateColumn, isFigureColumn, isFor, type Looks } from './looks';
import { isOfIds, isOfNames, isOfOrders } from './idHeaders';
import { isOfLeft } from './leftHeaders';
import { NAMED, naming } from './naming';
import { isName, isNoShare, isOfEach, isOfShelves, isOfWholeRoom, isQuantity } from './headerTests';
import { onceFor, onceForText } from './once';
import { foreignNames, unaccented } from './otherLanguages';
import { areAgeRanges } from './ranges';
import { isGross, isNet, isTare } from './tare';
import { isOfShelvesOnEach } from './shelvesPerRack';
import { isOfDryShare } from './dryBlocks';
import { isOfPicking, isTold } from './tellingWords';
import { isOfRest, isOfRipening, isOfSpawnRun } from './waitParts';
import { isInMassUnit, isShare, massUnitIn, massUnitOf } from './units';

interface Pair {
  readonly wanted: WantedColumn;
  readonly column: number;
  readonly points: number;
}

export function namedPairs(written: HeaderRun['names'], table: WantedTable): Pair[] {
  const headers = withTellingBrackets(written);
  const isAny = (is: (header: string) => boolean): boolean =>
    [...headers.values()].some((names) => names.some(is));
  const hasShelves = isAny(isOfShelves);
  const hasNet = isAny(isNet);
  // A spawn run beside the days of browning is no more than a part of the wait.
  const isInParts = isAny(isOfRipening);
  const single = table.columns.filter(({ column, isByData }) => column.role !== 'numbered' && !isByData);
  // Beside a flush a bare `Kg` is what was picked.
  const hasCrop = isAny(isOfWhatCameOff);
  const hasGap = isAny((header) => isTold(header, 'flush gap') && !isOfRest(header));
  return single.flatMap((wanted) => {
    return [...headers].flatMap(([column, names]) => {
      const { name } = wanted;
      const isLeft = wanted.isOfWhatIsLeft === true && names.some(isOfLeft);
      // `Block (kg)` is no count; blocks are no part of most picks: there a quantity is what was picked.
      const isOfMass =
        name === 'blocks' &&
        (names.every(isInMassUnit) || (table.name === 'harvests' && names.every(isQuantity)));
      // What is left of a lot is not what was made of it.
      const isOfLeftover = name === 'blocks' && !wanted.isOfWhatIsLeft && names.some(isOfLeft);
      // A number of blocks is no mass of one.
      const isNumber =
        name === 'block mass' && names.every((one) => isTold(one, 'blocks') && massUnitIn(one) === undefined);
      // What came off is no mass of a block, and a flush is no order.
      const isCrop =
        (name === 'block mass' &&
          names.every((one) => isOfWhatCameOff(one) || (hasCrop && massUnitOf(one) !== undefined))) ||
        (table.name === 'orders' && names.every(isOfFlush));
      // Of lots a name is the lot's own.
      const isOwnName = name === 'room' && table.name === 'lots' && names.every(isName);
      // Of a room with shelves what all of it holds is no figure of one.
      const isOfRoom =
        name === 'blocks per shelf' &&
        ((hasShelves && names.every(isOfWholeRoom)) || names.every(isOfShelvesOnEach));
      const isPart = name === 'best' && isInParts && names.every(isOfSpawnRun);
      // Beside the days between flushes a rest is part of the wait.
      const isResting = name === 'flush gap' && hasGap && names.every(isOfRest);
      // `Per rack` is no number of racks.
      const isPer = name === 'shelves' && names.every(isOfEach);
      const isOrderNumber = table.name === 'orders' && name === 'product' && names.every(isOfOrders);
      // How long a flush is picked is not how long it takes to come.
      const isSpan = name === 'first pick' && names.every(isOfPicking);
      const isId = (isDateColumn(wanted) || isFigureColumn(wanted)) && names.every(isOfIds);
      const isPicked = table.name === 'harvests' && name === 'mass';
      // `Harvest no.` counts the picks; `kg no.` would be one of them.
      const isCounted = isPicked && names.every((one) => isOfNames(one) && massUnitIn(one) === undefined);
      // The dry share of a block leaves its moisture.
      const isOfDryPart = name === 'moisture' && names.some(isOfDryShare);
      const isWhole = isPicked && names.some((one) => isTold(one, 'whole pick'));
      // Neither the crate is what was picked, nor is the mass with it where the book has one without.
      const isOfCrate = isPicked && (names.every(isTare) || (hasNet && names.every(isGross)));
      const points = isLeft
        ? NAMED.beforeAll
        : isId ||
            isCounted ||
            isNumber ||
            isOrderNumber ||
            isPer ||
            isOfMass ||
            isOfLeftover ||
            isCrop ||
            isPart ||
            isOfRoom ||
            isOwnName ||
            isResting ||
            isOfCrate ||
            isSpan
          ? 0
          : Math.max(isWhole || isOfDryPart ? NAMED.alike : 0, ...names.map(pointsOf(wanted)));
      return points > 0 ? [{ wanted, column, points }] : [];
    });
  });
}

/** Headers that differ in their brackets alone are told apart by these: `Ready (first day)`, `Ready (last day)`. */
const withTellingBrackets = onceFor((headers: HeaderRun['names']): HeaderRun['names'] => {
  const times = new Map<string, number>();
  for (const [, [name]] of headers) times.set(bareKey(name!), (times.get(bareKey(name!)) ?? 0) + 1);
  return new Map(
    [...headers].map(([column, names]) => {
      const isTwice = times.get(bareKey(names[0]!))! > 1;
      return [column, isTwice ? names.map((name) => name.replace(/[()[\]]/g, ' ')) : names] as const;
    }),
  );
});

/** A header without what is in brackets. */
const bareKey = onceForText(headerKey);

/** How well a header names a column, for each header that is held against it. */
const pointsOf = onceFor((wanted: WantedColumn) => {
  const { name, column } = wanted;
  const hint = {
    isMass: ['mass', 'block mass', 'pack'].includes(wanted.name),
    isPrice: wanted.name === 'price',
    isShare: isShare(wanted),
    hasMassUnit: (header: string) => massUnitIn(header) !== undefined,
  };
  return onceForText((header) => naming(header, name, column.alsoCalled, hint));
});

/** What a count is surer by than a day, of headers that are nearly as good. */
const COUNTED = 1;

/** The best match of each wanted column: the surest pairs first, each header for one column only. */
export function chosen(
  named: readonly Pair[],
  table: WantedTable,
  names: HeaderRun['names'],
  looks: ReadonlyMap<number, Looks>,
  weekdays: ReadonlySet<number>,
): ColumnMatch[] {
  const headers = shownNames(names);
  const isEmpty = (column: number): boolean => !hasAny(looks.get(column)!);
  const isFilledElsewhere = ({ wanted, column }: Pair): boolean =>
    named.some(
      (one) =>
        one.wanted === wanted && one.points > NAMED.alike && one.column !== column && !isEmpty(one.column),
    );
  // A range is when blocks may be opened, where another column says the best day.
  const isRangeBesideBest = ({ wanted, column }: Pair): boolean =>
    wanted.name === 'best' &&
    looks.get(column)!.has('text that is a range') &&
    named.some((one) => one.wanted === wanted && !looks.get(one.column)!.has('text that is a range'));
  const isLike = ({ wanted, column, points }: Pair): boolean =>
    points === NAMED.exactly ||
    (wanted.name === 'due' && weekdays.has(column)) ||
    couldBe(wanted.column.kind.word, wanted.name, looks.get(column)!);
  // How many blocks were opened says more of what is left than the day some of them were.
  const isLeftAsked = table.columns.some((one) => one.isOfWhatIsLeft);
  const sureness = ({ wanted, column, points }: Pair): number =>
    wanted.name === 'loaded' && isLeftAsked && looks.get(column)!.has('number') ? points + COUNTED : points;
  const fits = (pair: Pair): boolean =>
    !(isEmpty(pair.column) && isFilledElsewhere(pair)) && !isRangeBesideBest(pair) && isLike(pair);
  const matches = new Map<string, ColumnMatch>();
  const taken = new Set<number>();
  const take = (wanted: string, column: number, by: MatchedBy): void => {
    taken.add(column);
    matches.set(wanted, { wanted, column, by, header: headers.get(column)! });
  };
  const columns = [...names.keys()];
  for (const { name, column } of table.columns) {
    if (column.role !== 'numbered') continue;
    const ofShares = [...names.values()].map((own) => (own.some(isNoShare) ? [] : own));
    const plain = numberedHeaders(ofShares, name, column);
    const others = ofShares.map((own) => own.map(withoutShareWords));
    const family =
      plain.length > 0 ? plain : numberedHeaders(others, name, { ...column, alsoCalled: foreignNames(name) });
    for (const [i, number] of family) {
      const own = `${name} ${number}`;
      const at = columns[i]!;
      if (matches.has(own)) continue;
      const isOwn = headerKey(headers.get(at)!) === headerKey(own);
      take(own, at, isOwn ? 'its name' : plain.length > 0 ? 'another name' : 'a name that means the same');
    }
  }
  // A header that is the name of one column is no likeness of another, even where a better header serves for the first.
  const isOthersName = ({ column, points }: Pair): boolean =>
    points <= NAMED.alike && named.some((one) => one.column === column && one.points > NAMED.alike);
  for (const pair of [...named].filter(fits).sort((a, b) => sureness(b) - sureness(a))) {
    if (taken.has(pair.column) || matches.has(pair.wanted.name) || isOthersName(pair)) continue;
    take(pair.wanted.name, pair.column, howNamed(pair.points));
  }
  // An order that stands has a day of the week.
  const due = table.name === 'orders' ? table.columns.find(({ name }) => name === 'due') : undefined;
  const standing = [...headers.keys()].filter((column) => weekdays.has(column) && !taken.has(column));
  if (due && !matches.has('due') && standing.length === 1) take('due', standing[0]!, 'its data');
  // The only column of dates that is left can be no other than the date that is needed.
  const lacking = table.columns.filter(
    (wanted) => wanted.isNeeded && isDateColumn(wanted) && !matches.has(wanted.name),
  );
  const dates = [...headers.keys()].filter(
    (column) => !taken.has(column) && couldBe('date', '', looks.get(column)!) && hasAny(looks.get(column)!),
  );
  if (lacking.length === 1 && dates.length === 1) take(lacking[0]!.name, dates[0]!, 'its data');
  return [...matches.values()].sort((a, b) => columnOf(table, a) - columnOf(table, b));
}

/** Tables whose every record has a name of its own, which no other of their columns could be. */
const NAMED_BY_FIRST: ReadonlySet<string> = new Set(['lots', 'rooms', 'strains', 'recipe']);

/**
 * Columns without a header that can be no other: the first, where each record has a text of its own there and nothing
 * names the records; the strain of lots, where few texts come again and again.
 */
export function withUnnamed(
  matches: ColumnMatch[],
  table: WantedTable,
  { names, left }: HeaderRun,
  looks: ReadonlyMap<number, Looks>,
  textsIn: (column: number) => readonly string[],
): ColumnMatch[] {
  const own = [...matches];
  const isOpen = (wanted: string): boolean =>
    table.columns.some(({ name }) => name === wanted) && !own.some((one) => one.wanted === wanted);
  const key = table.columns[0]!.name;
  // What has a name of its own in each row, and is not the strain, is the lot.
  const [named] = [...names].filter(([column, [name]]) => {
    const texts = textsIn(column);
    return (
      (/^(?:name|group|title|label)$/i.test(name!.trim()) ||
        (isOfNames(name!) && texts.every((text) => text !== ''))) &&
      !own.some((one) => one.column === column) &&
      new Set(texts).size === texts.length
    );
  });
  // A number of its own in each row is the lot's, though nothing names the strain yet.
  const isOfItsOwn = named && isOfNames(named[1][0]!) && !isOfOrders(named[1][0]!);
  if (table.name === 'lots' && isOpen(key) && named && (!isOpen('strain') || isOfItsOwn))
    own.push({ wanted: key, column: named[0], header: named[1][0]!, by: 'its data' });
  const [ranges] = [...names].filter(
    ([column, [name]]) =>
      !own.some((one) => one.column === column) && areAgeRanges(name!, textsIn(column), !isOpen('best')),
  );
  if (ranges && isOpen('earliest') && isOpen('latest')) {
    const both = { column: ranges[0], header: ranges[1][0]!, by: 'its data' as const };
    own.push({ wanted: 'earliest', ...both }, { wanted: 'latest', ...both });
  }
  // Where all else is named, the first column of texts that are all different has the names of the records.
  const others = table.columns.filter(({ name, isNeeded }) => isNeeded && name !== key);
  const [first] = [...names].filter(([column]) => looks.get(column)!.has('text'));
  const texts = first ? textsIn(first[0]) : [];
  if (
    NAMED_BY_FIRST.has(table.name) &&
    isOpen(key) &&
    others.every(
      ({ name, column }) =>
        column.role === 'numbered' || !isOpen(name) || (table.name === 'lots' && name === 'strain'),
    ) &&
    first &&
    !own.some((one) => one.column === first[0]) &&
    texts.every((text) => text !== '') &&
    new Set(texts).size === texts.length
  )
    own.push({ wanted: key, column: first[0], header: first[1][0]!, by: 'its data' });
  const free = [...names].flatMap(([column, [name]]) => {
    const texts = looks.get(column)!.get('text') ?? 0;
    const isTaken = own.some((one) => one.column === column);
    return isUnnamed(name!) && !isTaken && texts === textsIn(column).length ? [[column, name!] as const] : [];
  });
  for (const [column, header] of free) {
    const texts = textsIn(column);
    const different = new Set(texts).size;
    if (column === left && different === texts.length && isOpen(key))
      own.push({ wanted: key, column, header, by: 'its data' });
    else if (different <= texts.length / 2 && table.name === 'lots' && isOpen('strain') && free.length === 1)
      own.push({ wanted: 'strain', column, header, by: 'its data' });
  }
  return own.sort((a, b) => columnOf(table, a) - columnOf(table, b));
}

function howNamed(points: number): MatchedBy {
  if (points === NAMED.exactly) return 'its name';
  if (points === NAMED.beforeAll) return 'a name like it';
  if (points > NAMED.foreign) return 'another name';
  return points > NAMED.alike ? 'a name that means the same' : 'a name like it';
}

/** A header without the words that say share in other languages, and the letters behind figures that count: `1e vlucht`. */
const withoutShareWords = (header: string): string =>
  unaccented(header)
    .replace(/\b(?:anteil|ertragsanteil|part|parte|aandeel|quota)\b/giu, '')
    .replace(/(\d)(?:e|er|re|ere|eme|de|ste|a|o|da)\b/giu, '$1');

const columnOf = (table: WantedTable, { wanted }: ColumnMatch): number =>
  table.columns.findIndex((one) => isFor(one, wanted));
