import { isCellError, type Cell } from '../../worksheet/cells/cell';
import { unaccented } from './otherLanguages';
import type { ColumnReading } from './reading';

// A book may say how much of a block is dry, and not what it weighs: with its moisture the one follows from the other.

export const isOfDry = (header: string): boolean =>
  /\b(?:dry|trocken\w*|sec|seche?|sec[ao]|droog|droge|secc[ao]|such[aey]|tor)\b/i.test(unaccented(header));

const OF_DRY_SHARE =
  /^(?:%\s*)?(?:dry(?: matter| share| substance| %)?|dm|solids|trockenmasse|trockensubstanz|ts|matiere seche|droge stof)(?:\s*(?:%|pct|share|content))?$/;

/** Whether a header is of the share of a block that is dry: the rest of it is water. */
export const isOfDryShare = (header: string): boolean =>
  OF_DRY_SHARE.test(
    unaccented(header)
      .toLowerCase()
      .replace(/[()[\].]/g, ' ')
      .replace(/\s+/g, ' ')
      .trim(),
  );

/** What is left of a whole: the moisture beside the dry share. */
export const restOf = (cells: readonly Cell[]): Cell[] =>
  cells.map((cell) =>
    typeof cell === 'number' && cell > 0 && cell < 1 ? 1 - cell : isCellError(cell) ? cell : null,
  );

export const restText = (share: string): string => `IFERROR(1-(${share}),"")`;

/** The wet mass of blocks by their dry mass and their moisture. */
export const wetMasses = (dry: readonly Cell[], moistures: readonly Cell[] | undefined): Cell[] =>
  dry.map((mass, i) => {
    const moisture = moistures?.[i] ?? null;
    if (isCellError(mass)) return mass;
    return typeof mass === 'number' && typeof moisture === 'number' && moisture < 1
      ? mass / (1 - moisture)
      : null;
  });

/** The same as a formula says it. */
export const wetText = (dry: string, moisture: string): string => `IFERROR((${dry})/(1-(${moisture})),"")`;

/** Readings without a dry mass of blocks of which no moisture is known. */
export const withoutDryAlone = (readings: readonly ColumnReading[]): ColumnReading[] =>
  readings.filter(({ isDry }) => !isDry || readings.some(({ name }) => name === 'moisture'));
