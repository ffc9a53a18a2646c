import { isCellError, type Cell } from '../../worksheet/cells/cell';
import { unaccented } from './otherLanguages';
import type { ColumnReading } from './reading';

// A book may say how much of a block is dry, and not what it weighs: with its moisture the one follows from the other.

export const isOfDry = (header: string): boolean =>
  /\b(?:dry|trocken\w*|sec|seche?|sec[ao]|droog|droge|secc[ao]|such[aey]|tor)\b/i.test(unaccented(header));

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
