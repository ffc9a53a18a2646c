import { readFile, writeFile } from 'node:fs/promises';
import { PREFIX } from '../../worksheet/constants';
import { fixedRangeOf, areaOf } from '../xlsx/address';
import { Package } from '../xlsx/package';
import { partsOf } from '../xlsx/parts';
import { readWorkbook } from '../xlsx/read';

const FORMULAS = /<((?:\w+:)?(?:f|definedName))\b[^>]*>[^<]*<\/\1>/g;
/** How names of Pinset begin in a file that Excel calculates, which Calc knows from version 25.2 on. */
const STORED_NAME = /_xldudf_PINSET_/gi;
/** `Lots[#All]`, which Calc reads in double brackets only. */
const WHOLE_PART = /(?<!\[)(\[#(?:All|Data|Headers|Totals)\])/gi;
/** `A5#` as files hold it. */
const WHOLE_RESULT = /_xlfn\.ANCHORARRAY\(((?:'(?:[^']|'')+'|[\w.]+)!)?(\$?[A-Z]+\$?\d+)\)/gi;

/**
 * A workbook with its formulas as every version of Calc reads them; all else as it was. In Calc the size of a result is
 * fixed when it is entered, so `A5#` is the range that the result fills.
 */
export function withCalcsFormulas(bytes: Uint8Array): Uint8Array {
  const file = Package.open(bytes);
  const { workbook, sheets } = partsOf(file);
  const results = new Map(
    readWorkbook(bytes).sheets.flatMap(({ name, cells }) =>
      cells.flatMap(({ address, spill }) => (spill === undefined ? [] : [[placeKey(name, address), spill]])),
    ),
  );
  const read = (formula: string, sheet: string): string =>
    formula
      .replace(STORED_NAME, PREFIX)
      .replace(WHOLE_PART, '[$1]')
      .replace(WHOLE_RESULT, (whole, on: string | undefined, anchor: string) => {
        const named =
          on && on.replaceAll('&amp;', '&').slice(0, -1).replace(/^'|'$/g, '').replaceAll("''", "'");
        const spill = results.get(placeKey(named ?? sheet, anchor.replaceAll('$', '')));
        return spill === undefined ? whole : `${on ?? ''}${fixedRangeOf(areaOf(spill)!)}`;
      });
  const changes = new Map<string, string>();
  for (const { part, name } of [{ part: workbook, name: '' }, ...sheets]) {
    const before = file.text(part);
    const after = before.replace(FORMULAS, (formula) => read(formula, name));
    if (after !== before) changes.set(part, after);
  }
  return file.with(changes);
}

const placeKey = (sheet: string, address: string): string => `${sheet}!${address}`.toLowerCase();

/** Writes such a copy of a file; one that is there already stays. */
export async function renameIn(path: string, into: string): Promise<object> {
  await writeFile(into, withCalcsFormulas(await readFile(path)), { flag: 'wx' });
  return { written: into };
}
