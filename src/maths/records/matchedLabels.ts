import { invalid, missing, type CalcError } from '../shared/fault';
import { labelKey, lookKey, nearestLabel } from '../shared/labels';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A label that is near to several of a list. */
    nearSeveral: { readonly label: string; readonly near: readonly string[] };
  }
}

/** Letters that a word must have before one of them may be a slip: of three letters one is another word. */
const LEAST_LETTERS = 4;

const plainOf = (label: string): string =>
  [...label.normalize('NFKD').toLowerCase()].filter((one) => /[\p{L}\p{N}]/u.test(one)).join('');

/** A label without what is said of it in brackets at its end. */
const bareOf = (label: string): string => label.replace(/\s*[([][^()[\]]*[)\]]\s*$/, '');

const digitsOf = (plain: string): string => plain.replace(/\P{N}+/gu, ' ').trim();

/** Whether two words differ by one slip: a character more, less, other, or two neighbours exchanged. */
function isOneSlip(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1 || a === b) return false;
  let from = 0;
  while (from < a.length && from < b.length && a[from] === b[from]) from++;
  const [restA, restB] = [a.slice(from), b.slice(from)];
  return (
    restA.slice(1) === restB ||
    restA === restB.slice(1) ||
    restA.slice(1) === restB.slice(1) ||
    (restA[0] === restB[1] && restA[1] === restB[0] && restA.slice(2) === restB.slice(2))
  );
}

/**
 * Each label as a list writes it: the same but for case and outer spaces; otherwise the same to a reader (spaces, hyphens,
 * characters that look alike); otherwise the same
 * but for brackets at its end; otherwise one slip in a letter away. Figures must agree: Alder-4 is no slip of Alder-3.
 *
 * @param labels undefined where a row has none
 * @returns for each label that of the list, or a fault: several are near, or none is
 */
export function matchedLabels(
  labels: readonly (string | undefined)[],
  list: readonly string[],
): readonly (string | CalcError | undefined)[] {
  const unique = new Map<string, string>();
  for (const label of list) if (!unique.has(labelKey(label))) unique.set(labelKey(label), label);
  const forms = [...unique.values()].map((label) => ({ label, look: lookKey(label), plain: plainOf(label) }));
  const byLook = new Map<string, string[]>();
  for (const { label, look } of forms) {
    const same = byLook.get(look);
    if (same) same.push(label);
    else if (look !== '') byLook.set(look, [label]);
  }
  const byBare = new Map<string, string[]>();
  for (const { label } of forms) {
    const key = lookKey(bareOf(label));
    if (key !== '') byBare.set(key, [...(byBare.get(key) ?? []), label]);
  }
  const oneSlipFrom = (label: string): string[] => {
    const plain = plainOf(label);
    if (plain.replace(/\P{L}/gu, '').length < LEAST_LETTERS) return [];
    return forms
      .filter((other) => digitsOf(other.plain) === digitsOf(plain) && isOneSlip(other.plain, plain))
      .map((other) => other.label);
  };
  const known = new Map<string, readonly string[]>();
  const candidatesOf = (label: string): readonly string[] => {
    const exact = unique.get(labelKey(label));
    return exact === undefined
      ? (byLook.get(lookKey(label)) ?? byBare.get(lookKey(bareOf(label))) ?? oneSlipFrom(label))
      : [exact];
  };
  return labels.map((label, index) => {
    if (label === undefined) return undefined;
    const found = known.get(label) ?? candidatesOf(label);
    known.set(label, found);
    if (found.length === 1) return found[0]!;
    if (found.length > 1) return invalid('labels', 'nearSeveral', { label, near: found.slice(0, 3) }, index);
    const nearest = nearestLabel(label, list);
    return missing(
      'labels',
      'notIn',
      { label, table: 'list', ...(nearest !== undefined && { nearest }) },
      index,
    );
  });
}
