import type { Book } from './farms';
import { newScore, scoreBook, type Audit, type Score } from './score';
import { plantGroup, plantMissing, plantSingles, plantTare } from './slips';

const SCATTERS = [0.25, 0.35, 0.45];

/** Books of a farm with slips of every kind, and one without. */
function scored(
  farm: (scatter: number, seed: number) => Book,
  scatter: number,
  books: number,
  from: number,
  audit: Audit,
): Score {
  const score = newScore();
  // A small farm's book holds one slip of each kind, a large one's three: as many slips of both.
  const isSmall = farm(scatter, from + 1).lots.length < 100;
  const each = isSmall ? 1 : 3;
  for (let seed = 1; seed <= (isSmall ? 3 * books : books); seed++) {
    const clean = farm(scatter, from + seed);
    scoreBook(score, plantSingles(clean, each, 100 + seed), audit);
    scoreBook(score, plantMissing(clean, each, 200 + seed), audit);
    scoreBook(score, plantGroup(clean, false, 300 + seed), audit);
    scoreBook(score, plantGroup(clean, true, 400 + seed), audit);
    scoreBook(score, plantTare(clean, 500 + seed), audit);
    scoreBook(score, { book: clean, slips: [] }, audit);
  }
  return score;
}

/**
 * The table of scores as lines of Markdown: per slip the share caught, named and corrected within 2%, at scatters of 25,
 * 35 and 45%, and false alarms in 1,000 clean rows.
 *
 * @param from the seed before the first book's
 */
export function scoredLines(
  farms: Readonly<Record<string, (scatter: number, seed: number) => Book>>,
  audits: Readonly<Record<string, Audit>>,
  books: number,
  from: number,
): string[] {
  const columns = Object.entries(farms).flatMap(([farm, make]) =>
    Object.entries(audits).map(([name, audit]) => ({
      head: `${farm}, ${name}`,
      scores: SCATTERS.map((scatter) => scored(make, scatter, books, from, audit)),
    })),
  );
  const kinds = [
    ...new Set(columns.flatMap(({ scores }) => scores.flatMap(({ kinds: all }) => [...all.keys()]))),
  ];
  const share = (part: number, whole: number): string =>
    whole ? String(Math.round((100 * part) / whole)) : '–';
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const perScatter = (scores: readonly Score[], of: (score: Score) => string): string =>
    scores.map(of).join(' · ');
  return [
    line(['slip', ...columns.map(({ head }) => head)]),
    line(['---', ...columns.map(() => '---')]),
    ...kinds.map((kind) =>
      line([
        kind,
        ...columns.map(({ scores }) =>
          perScatter(scores, ({ kinds: all }) => {
            const tally = all.get(kind);
            if (!tally) return '–';
            const { planted, caught, cause, figures, right } = tally;
            return `${share(caught, planted)}/${share(cause, planted)}/${share(right, figures)}`;
          }),
        ),
      ]),
    ),
    ...(
      [
        ['false alarms in 1,000 rows', 'alarms'],
        ['of these, totals that a slip made wrong', 'totals'],
      ] as const
    ).map(([what, of]) =>
      line([
        what,
        ...columns.map(({ scores }) =>
          perScatter(scores, (score) => ((1000 * score[of]) / score.rows).toFixed(2)),
        ),
      ]),
    ),
  ];
}
