import { headerKey, otherKey } from '../../worksheet/cells/headerWords';
import type { ReadRange } from './columns';
import type { Fit, TableFit } from './fitted';
import type { TableName } from './jobs';
import { unitFactor } from './jobUnit';
import { fitLeavesOut } from './leaveOut';

/** Whether a function can read the part of the sheet as it is. */
export function isReadable(fit: Fit, { candidate, readings }: TableFit, range: ReadRange): boolean {
  const { table } = candidate;
  const isKnown = readings.every(
    ({
      match,
      conversion,
      unit,
      unitColumn,
      perRack,
      inStrains,
      hasLinks,
      digit,
      rest,
      unless,
      legend,
      isFilledDown,
      hasDittos,
      hasDashes,
      hasZeros,
      ofRecipe,
      otherDay,
      lookedUp,
      within,
    }) =>
      conversion === 'none' &&
      !isFilledDown &&
      !hasDittos &&
      !hasDashes &&
      !hasZeros &&
      ofRecipe === undefined &&
      otherDay === undefined &&
      lookedUp === undefined &&
      within === undefined &&
      rest === undefined &&
      unitColumn === undefined &&
      perRack === undefined &&
      inStrains === undefined &&
      !hasLinks &&
      digit === undefined &&
      legend === undefined &&
      unless === undefined &&
      (match.by === 'its name' || match.by === 'another name') &&
      unitFactor(fit, unit) === 1,
  );
  const own = new Set(readings.map(({ match }) => match.column));
  const isDoubtful = [...candidate.headers].some(
    ([at, header]) =>
      !own.has(at) &&
      table.columns.some(({ name, column }) =>
        // As the functions find a column: the order of words and `on` do not count.
        [name, ...column.alsoCalled].some(
          (one) => headerKey(one) === headerKey(header) || otherKey(one) === otherKey(header),
        ),
      ),
  );
  const isAlone =
    (table.name !== 'lots' || (fit.products.size === 0 && !fit.hasShelves)) &&
    (table.name !== 'rooms' || !fit.filled.has('closures')) &&
    (table.name !== 'strains' || !fit.filled.has('shares'));
  return (
    isKnown &&
    !isDoubtful &&
    isAlone &&
    range.isPlain &&
    !candidate.isGrouped &&
    !fitLeavesOut(fit, table.name) &&
    !isJoined(fit, table.name)
  );
}

/** Whether labels of a table are read in the spelling of another. */
export function isJoined(fit: Fit, name: TableName): boolean {
  return fit.joined.some(({ table }) => table === name);
}
