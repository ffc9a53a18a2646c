import { load, type WorkbookData } from '@odoo/o-spreadsheet';
import { child, childrenOf, parseXml } from '../xlsx/xml';
import { chartsOf } from './charts';

type Parts = Readonly<Record<string, string>>;

/** What of a file the grid can show beside its cells, or why that cannot be read. */
export type Looks = { readonly data: WorkbookData | undefined } | { readonly fault: string };

/** What the engine's own reader makes of the file's looks. */
export function looksOf(parts: Parts): Looks {
  try {
    const data = load(withRelativeTargets(parts));
    const usual = usualSize(parts);
    // Cells without a style have the engine's own size: those of the file's usual size should look alike.
    for (const style of Object.values(data?.styles ?? {})) {
      if (style.fontSize === usual) delete style.fontSize;
    }
    for (const sheet of data?.sheets ?? []) sheet.figures = chartsOf(sheet.figures, parts);
    return { data };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault) };
  }
}

/** The engine's reader finds parts by relative names only, and many programs write `/xl/worksheets/sheet1.xml`. */
export function withRelativeTargets(parts: Parts): Record<string, string> {
  return Object.fromEntries(
    Object.entries(parts).map(([name, text]) => {
      const folder = /^(.*?)_rels\/[^/]*\.rels$/i.exec(name)?.[1];
      if (folder === undefined || folder === '' || !/Target\s*=\s*["']\//.test(text)) return [name, text];
      const relative = text.replace(
        /(\sTarget\s*=\s*)(["'])\/([^"']*)\2/g,
        (_, before: string, quote: string, target: string) =>
          `${before}${quote}${fromFolder(folder, target)}${quote}`,
      );
      return [name, relative];
    }),
  );
}

/** `xl/tables/table1.xml` as `xl/worksheets/` names it: `../tables/table1.xml`. */
function fromFolder(folder: string, target: string): string {
  const here = folder.split('/').slice(0, -1);
  const there = target.split('/');
  let shared = 0;
  while (shared < here.length && here[shared] === there[shared]) shared++;
  return [...here.slice(shared).map(() => '..'), ...there.slice(shared)].join('/');
}

/** The size of letters in cells without a style: that of the first font (ISO/IEC 29500-1, 18.8.22). */
function usualSize(parts: Parts): number | undefined {
  const styles = Object.keys(parts).find((name) => /(^|\/)styles\.xml$/i.test(name));
  if (styles === undefined) return undefined;
  const [font] = childrenOf(child(parseXml(parts[styles]!, styles), 'fonts'), 'font');
  const size = child(font, 'sz')?.attributes['val'];
  return size === undefined ? undefined : Number(size);
}
