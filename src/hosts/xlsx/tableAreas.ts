import { rangeOf } from './address';
import type { TableShape } from './formula';
import { Package } from './package';
import { partsOf, relationshipsOf } from './parts';
import { child, parseXml, spliced, withAttribute } from './xml';

/** The file with tables, found by their names, over other cells (ISO/IEC 29500-1, 18.5.1.2); so are their filters. */
export function withTableAreas(bytes: Uint8Array, tables: readonly TableShape[]): Uint8Array {
  if (tables.length === 0) return bytes;
  const file = Package.open(bytes);
  const changes = new Map<string, string>();
  for (const { part } of partsOf(file).sheets) {
    for (const { kind, target } of relationshipsOf(file, part)) {
      if (kind !== 'table' || !file.has(target)) continue;
      const text = file.text(target);
      const root = parseXml(text, target);
      const name = root.attributes['displayName'] ?? root.attributes['name'];
      const area = tables.find((table) => table.name === name)?.area;
      if (!area) continue;
      const filter = child(root, 'autoFilter');
      changes.set(
        target,
        spliced(text, [
          withAttribute(text, root, 'ref', rangeOf(area)),
          ...(filter ? [withAttribute(text, filter, 'ref', rangeOf(area))] : []),
        ]),
      );
    }
  }
  return file.with(changes);
}
