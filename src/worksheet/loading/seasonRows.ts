import { isCertain, NO_SPREAD } from '../../maths/loading/fates';
import type { LoadingProblem } from '../../maths/loading/loadingProblem';
import type { Season } from '../../maths/loading/playSeason';
import { possibleSeasons, type Way } from '../../maths/loading/possibleSeasons';
import type { LinearSolver } from '../../maths/shared/linearProgram';
import { formatted, type Formatted } from '../cells/cell';
import type { Context } from '../definition';
import { shownPercent } from '../wording/phrases';

interface SeasonRow {
  readonly what: string;
  readonly mean: number | Formatted | '';
  readonly lowest: number | Formatted | '';
  readonly highest: number | Formatted | '';
  readonly note: string;
}

const NO_SOLVER =
  'WebAssembly cannot run here, so there is no solver: each week’s loads are those of the rule of thumb';
const NO_TIME = 'this takes longer than can be waited for here: ask for fewer seasons or weeks';
const QUICKER = ', or use the rule thumb';

/** What the coming season comes to when it is played several times. */
export function seasonRows(
  farm: LoadingProblem,
  way: Way,
  weeks: number,
  count: number,
  seed: number,
  solver: LinearSolver | null,
  onProgress: Context['onProgress'] = undefined,
): SeasonRow[] {
  const needsSolver = way === 'plan' || way === 'certain';
  if (solver?.isOutOfTime) {
    const note = needsSolver ? NO_TIME + QUICKER : NO_TIME;
    return [{ what: 'not worked out', mean: '', lowest: '', highest: '', note }];
  }
  let done = 0;
  const seasons = possibleSeasons(farm, way, weeks, count, seed, solver, () => {
    solver?.checkTime?.();
    onProgress?.({ done: done++, of: weeks * count });
  });
  const blocks = farm.lots.reduce((sum, lot) => sum + lot.blocks, 0);
  const line = (what: string, of: (season: Season) => number, isShare: boolean, note = ''): SeasonRow => {
    const figures = seasons.map(of);
    const shown = (figure: number): number | Formatted => (isShare ? formatted(figure, 'percent') : figure);
    return {
      what,
      mean: shown(figures.reduce((sum, figure) => sum + figure, 0) / figures.length),
      lowest: shown(Math.min(...figures)),
      highest: shown(Math.max(...figures)),
      note,
    };
  };
  const certain = [...farm.lots, ...farm.standing].every(({ spread }) => isCertain(spread ?? NO_SPREAD));
  return [
    line('orders filled', ({ fill }) => fill, true, chanceNote(seasons)),
    line('picked that no order takes', ({ surplus }) => surplus, true, 'share of all that is picked'),
    line(
      'days over by a tenth',
      ({ daysOver }) => daysOver,
      false,
      'more than a tenth over the limit must be picked',
    ),
    line('worst day over', ({ worstOver }) => worstOver, true, 'as a share of its limit'),
    line('blocks loaded', ({ blocksLoaded }) => blocksLoaded, false, `of ${blocks} in lots`),
    line('blocks over age', ({ overAge }) => Math.round(overAge * blocks), false, 'never opened'),
    {
      what: 'seasons played',
      mean: seasons.length,
      lowest: '',
      highest: '',
      note: certain
        ? 'no strain has a spread, so all seasons are the same: fill in yield spread, pick spread or ready spread'
        : needsSolver && !solver
          ? NO_SOLVER
          : '',
    },
  ];
}

/** How far the mean share of orders filled may be off by chance: twice its standard error. */
function chanceNote(seasons: readonly Season[]): string {
  const figures = seasons.map(({ fill }) => fill);
  const mean = figures.reduce((sum, fill) => sum + fill, 0) / figures.length;
  if (figures.length < 2) return 'share of their value';
  const squares = figures.reduce((sum, fill) => sum + (fill - mean) ** 2, 0);
  const error = 2 * Math.sqrt(squares / (figures.length - 1) / figures.length);
  return `share of their value; the mean may be ${shownPercent(Number(error.toPrecision(2)))} off by chance`;
}
