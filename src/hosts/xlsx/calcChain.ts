import { CONTENT_TYPES } from './metadata';
import { Package } from './package';
import { onlyPart, relationshipsPart, type WorkbookParts } from './parts';
import { childrenOf, parseXml, spliced, withAttribute, type Edit } from './xml';

/**
 * Takes cells out of the calculation chain. Excel rebuilds what is missing from the chain, but calls a file damaged
 * whose chain names a cell without a formula. `cells` are written `sheetId!B7`; new texts go into `rewritten`.
 */
export function withoutChainEntries(
  file: Package,
  parts: WorkbookParts,
  cells: readonly string[],
  rewritten: Map<string, string | null>,
): void {
  const part = onlyPart(parts, 'calcChain');
  if (cells.length === 0 || part === undefined || !file.has(part)) return;
  const gone = new Set(cells);
  const text = file.text(part);
  const entries = childrenOf(parseXml(text, part), 'c');
  const edits: Edit[] = [];
  let sheet = '';
  /** The sheet that the next entry would inherit from the one before it. */
  let inherited = '';
  let kept = 0;
  for (const entry of entries) {
    sheet = entry.attributes['i'] ?? sheet;
    if (gone.has(`${sheet}!${entry.attributes['r']}`)) {
      edits.push({ start: entry.start, end: entry.end, text: '' });
      continue;
    }
    if (entry.attributes['i'] === undefined && inherited !== sheet) {
      edits.push(withAttribute(text, entry, 'i', sheet));
    }
    inherited = sheet;
    kept++;
  }
  if (kept === entries.length) return;
  if (kept > 0) {
    rewritten.set(part, spliced(text, edits));
    return;
  }
  rewritten.set(part, null);
  const without = (list: string, attribute: string, matches: (value: string) => boolean): void => {
    const source = rewritten.get(list) ?? file.text(list);
    const entry = parseXml(source, list).children.find((one) => matches(one.attributes[attribute] ?? ''));
    if (entry) rewritten.set(list, spliced(source, [{ start: entry.start, end: entry.end, text: '' }]));
  };
  without(CONTENT_TYPES, 'PartName', (name) => name.toLowerCase() === `/${part}`.toLowerCase());
  without(relationshipsPart(parts.workbook), 'Type', (type) => type.endsWith('/calcChain'));
}
