import { daysSinceLoading, setPointColumns, type SetPoint } from '../../maths/climate/programme';
import { setPointOn } from '../../maths/climate/setPointOn';
import { column, keyColumn, table } from '../cells/arguments';
import { isCellError } from '../cells/cell';
import { others, required } from '../cells/columns';
import { orFault } from '../cells/fault';
import { anything, days, type Kind, orZero, serial } from '../cells/kinds';
import { amount, mixed, namedIn, tableResult, type ResultRow } from '../cells/results';
import { defineFunction } from '../define';

const setPoint: Kind<SetPoint> = {
  ...anything(),
  zeroWord: 'none',
  accept: (cell) => (cell === null || isCellError(cell) ? undefined : cell),
};

const columnsOfPlan = {
  day: amount('days since loading'),
  'set points': namedIn(mixed('under the header of the programme')),
};
type PlanRow = ResultRow<typeof columnsOfPlan>;

export const CLIMATEPLAN = defineFunction({
  name: 'CLIMATEPLAN',
  family: 'climate',
  arguments: [
    keyColumn('loaded', serial(), 'day each room was loaded'),
    column('on', serial(), 'date, with the time of day if you like'),
    table(
      'programme',
      {
        day: required(
          orZero(days()),
          'days since loading; the day of loading is 0',
          'days since loading',
          'crop day',
        ),
        'set points': others(setPoint, 'a set point on that day, a number or a word, under any header'),
      },
      'table: day (since loading) and a column for each set point',
    ),
  ],
  result: tableResult(columnsOfPlan),
  whole: (loaded, on, programme, { rowNumbers }) => {
    const rows = programme.rows.map(({ at, day, 'set points': points }) => ({ at, day, points }));
    const columns = setPointColumns(rows);
    const setPoints = <T>(pointOf: (points: readonly (SetPoint | undefined)[]) => T): Map<string, T> =>
      new Map([...columns].map(([name, points]) => [name, pointOf(points)]));
    const blank: PlanRow = { day: '', 'set points': setPoints(() => '') };
    const plan = new Array<PlanRow>(rowNumbers.at(-1) ?? 0).fill(blank);
    loaded.forEach((loadedSerial, i) => {
      const day = orFault(() => daysSinceLoading(on[i]!, loadedSerial, i));
      const pointOf = (points: readonly (SetPoint | undefined)[]) =>
        typeof day === 'number' ? (setPointOn(rows, points, day) ?? '') : day;
      plan[rowNumbers[i]! - 1] = { day, 'set points': setPoints(pointOf) };
    });
    return { rows: plan, like: blank };
  },
});
