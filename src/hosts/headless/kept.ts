import { grouped, keptGroup } from '../engine/keptGroups';
import type { Calculated } from './recalc';
import { cellText, namesText } from './shown';
import { oneLine } from './terminal';

/** A longer report helps nobody: `--json` has them all. */
const MOST_LINES = 20;

/** `'Block plan'!B7`, quoted where a formula would have to. */
export const placeText = (sheet: string, address: string): string =>
  oneLine(/^[\p{L}_][\p{L}\p{N}_.]*$/u.test(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`) +
  `!${address}`;

/**
 * What of `count` formulas keeps its stored result, by the functions it calls, and what depends on that; no lines where
 * nothing does.
 */
export function keptLines(count: number, formulas: readonly Calculated[]): string[] {
  const kept = formulas.filter((one) => one.kept);
  const lines = (of: readonly Calculated[], one: string, several: string): string[] =>
    of.length === 0
      ? []
      : [
          `${of.length} of ${count} formulas ${of.length === 1 ? one : several}:`,
          ...cutOff(
            grouped(of, groupName).map(([name, its]) => `  ${its.length} × ${name}: ${membersText(its)}`),
          ),
        ];
  return [
    ...lines(
      kept.filter(({ cell }) => cell.value !== null),
      'keeps its stored result',
      'keep their stored results',
    ),
    ...lines(
      kept.filter(({ cell }) => cell.value === null),
      'has no result, here or in the file',
      'have no result, here or in the file',
    ),
    ...dependentLines(formulas),
  ];
}

const groupName = ({ kept, formula }: Calculated): string => keptGroup(kept!, kept!.functions, formula);

const membersText = (of: readonly Calculated[]): string =>
  namesText(
    of.map(({ sheet, cell, kept }) => {
      const place = placeText(sheet, cell.address);
      if (kept!.because !== 'other result') return place;
      const [ofFile, here] = [cell.value, kept!.here].map((value) => cellText(value, 'plain', 1900));
      return `${place} (${ofFile} in the file, ${here} here)`;
    }),
  );

function dependentLines(formulas: readonly Calculated[]): string[] {
  const dependents = formulas.filter(({ restsOn }) => restsOn);
  if (dependents.length === 0) return [];
  const wrong = new Set(
    formulas
      .filter(({ kept }) => kept?.because === 'other result')
      .map(({ sheet, cell }) => placeText(sheet, cell.address)),
  );
  const lines = grouped(dependents, ({ restsOn }) => placeText(restsOn!.sheet, restsOn!.address)).map(
    ([on, of]) => {
      const names = namesText(of.map(({ sheet, cell }) => placeText(sheet, cell.address)));
      const fault = wrong.has(on) ? 'this calculation gets wrong' : 'is not calculated here';
      return `  ${names} ${of.length === 1 ? 'depends' : 'depend'} on ${on}, which ${fault}: the file's own result is kept`;
    },
  );
  const what = dependents.length === 1 ? '1 formula depends' : `${dependents.length} formulas depend`;
  return [`${what} on them:`, ...cutOff(lines)];
}

const cutOff = (lines: readonly string[]): string[] => {
  const more = lines.length - MOST_LINES;
  return more <= 0
    ? [...lines]
    : [...lines.slice(0, MOST_LINES), `  and ${more} more kinds, which --json lists`];
};
