import { distance } from 'fastest-levenshtein';

/**
 * The form in which two labels (strain, lot, ingredient) are the same: outer spaces and letter case do not count,
 * as in a worksheet's own lookups.
 */
export function labelKey(label: string): string {
  return label.trim().normalize('NFC').toLowerCase();
}

/** Characters that are read for one another: the digits of a label, and letters of other alphabets. */
const LOOK_ALIKES: Readonly<Record<string, string>> = {
  o: '0',
  l: '1',
  i: '1',
  а: 'a',
  в: 'b',
  с: 'c',
  е: 'e',
  н: 'h',
  к: 'k',
  м: 'm',
  о: '0',
  р: 'p',
  т: 't',
  х: 'x',
  у: 'y',
  α: 'a',
  β: 'b',
  ε: 'e',
  η: 'h',
  κ: 'k',
  μ: 'm',
  ο: '0',
  ρ: 'p',
  τ: 't',
  χ: 'x',
  υ: 'y',
};

/**
 * The form in which two labels look the same to a reader: spaces, hyphens and other marks, widths, accents and characters
 * that are read for one another do not count. Labels that look the same but are not must never be joined or parted in
 * silence.
 */
export function lookKey(label: string): string {
  return [...label.normalize('NFKD').toLowerCase()]
    .filter((character) => /[\p{L}\p{N}]/u.test(character))
    .map((character) => LOOK_ALIKES[character] ?? character)
    .join('');
}

/** The label that was most likely meant: one that looks the same, or the only one within a letter or two. */
export function nearestLabel(label: string, labels: Iterable<string>): string | undefined {
  const [wanted, looks] = [labelKey(label), lookKey(label)];
  // One letter of three is half of another word.
  const most = wanted.length < 3 ? 0.5 : Math.max(1, Math.floor(wanted.length / 4));
  let best: string | undefined;
  let least = Infinity;
  let isOnly = true;
  for (const candidate of labels) {
    const key = labelKey(candidate);
    if (key === '' || Math.abs(key.length - wanted.length) > 8) continue;
    const apart = lookKey(candidate) === looks && looks !== '' ? 0.5 : distance(wanted, key);
    if (apart > most || apart > least) continue;
    isOnly = apart < least || labelKey(best!) === key;
    least = apart;
    best = candidate;
  }
  return isOnly ? best : undefined;
}

/** The first two labels of a list that look the same but are not; undefined where there are none. */
export function lookAlikes(labels: Iterable<string>): readonly [string, string] | undefined {
  const byLook = new Map<string, string>();
  for (const label of labels) {
    const look = lookKey(label);
    const other = byLook.get(look);
    if (other === undefined) byLook.set(look, label);
    else if (look !== '' && labelKey(other) !== labelKey(label)) return [other, label];
  }
  return undefined;
}
