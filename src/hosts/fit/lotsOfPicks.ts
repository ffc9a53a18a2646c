import { covered, freeTexts, labelsOf, matched, NEARLY_ALL, NONE } from './byLabels';
import type { Candidate } from './candidate';
import type { Chosen } from './chosenParts';

// A list of strains looks like lots where a code names each and its blocks are told. What picks are of decides.

/** The largest share of labels that a column of a part lists. */
const shareIn = (part: Candidate, labels: readonly string[]): number =>
  Math.max(
    0,
    ...[matched(part, 'lot'), ...freeTexts(part, 'lot')].map((column) =>
      covered(labels, labelsOf(part, column)),
    ),
  );

/** The lots of an audit: another part of the book where the chosen one lists hardly any lot of the picks, and only that nearly all. */
export function lotsOfPicks(chosen: Chosen, picks: Candidate | undefined): Chosen {
  const { candidate, others, isAsked } = chosen;
  const labels = picks ? labelsOf(picks, matched(picks, 'lot')) : [];
  if (!candidate || isAsked || labels.length === 0 || shareIn(candidate, labels) > NONE) return chosen;
  const [only, ...more] = others.filter((part) => shareIn(part, labels) >= NEARLY_ALL);
  if (!only || more.length > 0) return chosen;
  return { candidate: only, others: [candidate, ...others.filter((part) => part !== only)], isAsked: false };
}
