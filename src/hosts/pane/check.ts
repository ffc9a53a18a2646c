import { parseA1Ref, tokenize, translateFormulaToR1C1 } from '@borgar/fx';
import { callsPinset } from '../xlsx/formula';
import type { BookContents, FormulaCell, Place } from './book';
import { byCause } from './causes';
import { refersToDeleted } from './reasons';

/** Something in the workbook that a grower should look at. */
export interface Finding {
  readonly kind: 'fault' | 'kept' | 'dragged' | 'volatile' | 'short' | 'dateSystem' | 'version';
  readonly words: string;
  /** The cell to look at; none where it concerns the whole workbook. */
  readonly place?: Place;
  /** All cells of the same cause, that one first. */
  readonly places?: readonly Place[];
  readonly formula?: string;
}

/** From how many alike in a column on, one call would be quicker. */
const DRAGGED_FROM = 20;

const isOurs = ({ formula }: FormulaCell): boolean => callsPinset(formula);
const cellOf = ({ sheet, address }: Place): string => `${sheet}!${address}`;

const faults = (formulas: readonly FormulaCell[]): Finding[] =>
  byCause(
    formulas.flatMap((cell) => {
      if (cell.error === undefined) return [];
      const { sheet, address, at = address, formula, error, reason = '' } = cell;
      const more = cell.more ? `. ${cell.more} more of its cells show an error` : '';
      const words = `${faultWords(cell)}${more}`;
      return [{ place: { sheet, address: at }, code: error, reason, words, formula }];
    }),
  );

/** Errors that are Excel's own, and what to do about them. */
const OF_EXCEL: Readonly<Record<string, string>> = {
  '#BUSY!': 'it is still waiting for an answer. If that takes more than a minute, click Calculate again',
  '#NAME?':
    'Excel did not know the function when it calculated. Click Calculate again; if it stays, see “Cells that show an error” in the guide',
  '#REF!': 'the formula refers to cells that were deleted: write it again',
  '#SPILL!': 'the cells that the answer needs are not empty: clear them, or move the formula',
  '#CONNECT!': 'Excel could not reach Pinset when it calculated. Click Calculate again',
};

function faultWords({ formula, error, reason, isStale }: FormulaCell): string {
  if (refersToDeleted(formula)) return `Shows ${error}: ${OF_EXCEL['#REF!']}`;
  if (reason) return `${error}: ${reason}`;
  const known = OF_EXCEL[error!];
  if (known) return `Shows ${error}: ${known}`;
  return isStale
    ? `Shows ${error}, but would answer now: click Calculate again`
    : `Shows ${error}: select the cell to read why`;
}

function dragged(formulas: readonly FormulaCell[]): Finding[] {
  const groups = new Map<string, FormulaCell[]>();
  for (const cell of formulas) {
    // In relative references all copies of a formula that was dragged are the same text.
    const key = `${cell.sheet}\n${translateFormulaToR1C1(cell.formula, cell.address)}`;
    const group = groups.get(key);
    if (group) group.push(cell);
    else groups.set(key, [cell]);
  }
  return [...groups.values()]
    .filter((group) => group.length >= DRAGGED_FROM)
    .map((group) => ({
      kind: 'dragged',
      place: group[0]!,
      formula: group[0]!.formula,
      words: `The same call is in ${group.length} rows from ${cellOf(group[0]!)}: one call over the whole column does the same and is far quicker`,
    }));
}

function volatile(formulas: readonly FormulaCell[]): Finding[] {
  const clock = /^(TODAY|NOW|RAND|RANDBETWEEN)$/i;
  return formulas.flatMap((cell) => {
    const word = tokenize(cell.formula).find(
      ({ type, value }) => type.startsWith('func') && clock.test(value),
    )?.value;
    return word === undefined
      ? []
      : [
          {
            kind: 'volatile' as const,
            place: cell,
            formula: cell.formula,
            words: `${word.toUpperCase()}() inside the call makes it recalculate at every edit: put =${word.toUpperCase()}() in a cell of its own and refer to that`,
          },
        ];
  });
}

/** Ranges that begin with a table's rows and end above its last one. */
function short({ formulas, tables }: BookContents): Finding[] {
  return formulas.filter(isOurs).flatMap((cell) =>
    tokenize(cell.formula)
      .filter(({ type }) => type === 'range')
      .flatMap(({ value }): Finding[] => {
        const reference = parseA1Ref(value);
        const { top, bottom } = reference && 'range' in reference ? reference.range : {};
        if (typeof top !== 'number' || typeof bottom !== 'number' || bottom <= top) return [];
        const sheet = reference!.context?.at(-1) ?? cell.sheet;
        const [firstRow, lastRow] = [top + 1, bottom + 1];
        const table = tables.find(
          (area) =>
            area.sheet === sheet &&
            (firstRow === area.firstRow || firstRow === area.firstRow + 1) &&
            lastRow < area.lastRow,
        );
        if (!table) return [];
        return [
          {
            kind: 'short',
            place: cell,
            formula: cell.formula,
            words: `${value} ends at row ${lastRow}, but the table ${table.name} goes on to row ${table.lastRow}: refer to the table’s columns by name`,
          },
        ];
      }),
  );
}

/** Compares versions by number: 0.10.0 is later than 0.9.1. */
function isOlder(one: string, other: string): boolean {
  const [a, b] = [one, other].map((version) => version.split('.').map(Number));
  for (let i = 0; i < 3; i++) if ((a![i] ?? 0) !== (b![i] ?? 0)) return (a![i] ?? 0) < (b![i] ?? 0);
  return false;
}

/**
 * All that a grower should look at in a workbook, faults first. `version` is the add-in's own.
 * @param cells what is to be looked at in cells, where the host watches them itself
 */
export function checkBook(contents: BookContents, version: string, cells?: readonly Finding[]): Finding[] {
  const ours = contents.formulas.filter(isOurs);
  const findings = [...(cells ?? faults(ours)), ...short(contents), ...dragged(ours), ...volatile(ours)];
  if (contents.dateSystem === 1904) {
    findings.push({
      kind: 'dateSystem',
      words:
        'This workbook counts dates from 1904: dates copied from another workbook as plain numbers are four years and a day off',
    });
  }
  const { savedWith } = contents;
  if (savedWith !== undefined && isOlder(savedWith, version)) {
    findings.push({
      kind: 'version',
      words: `This workbook was last saved with Pinset ${savedWith}; this is ${version}. See the list of changed results`,
    });
  }
  if (savedWith !== undefined && isOlder(version, savedWith)) {
    findings.push({
      kind: 'version',
      words: `This workbook was last saved with Pinset ${savedWith}, and this is the older ${version}: close Pinset and open it again to get the newer one`,
    });
  }
  return findings;
}
