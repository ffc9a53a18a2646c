import { load, type WorkbookData } from '@odoo/o-spreadsheet';
import { child, childrenOf, parseXml } from '../xlsx/xml';
import { chartsOf } from './charts';
import { withRelativeTargets } from './relativeTargets';

type Parts = Readonly<Record<string, string>>;

/** What of a file the grid can show beside its cells, or why that cannot be read. */
export type Looks = { readonly data: WorkbookData | undefined } | { readonly fault: string };

/** What the engine's own reader makes of the file's looks. */
export function looksOf(written: Parts): Looks {
  try {
    const parts = withRelativeTargets(written);
    const data = load(parts);
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

/** The size of letters in cells without a style: that of the first font (ISO/IEC 29500-1, 18.8.22). */
function usualSize(parts: Parts): number | undefined {
  const styles = Object.keys(parts).find((name) => /(^|\/)styles\.xml$/i.test(name));
  if (styles === undefined) return undefined;
  const [font] = childrenOf(child(parseXml(parts[styles]!, styles), 'fonts'), 'font');
  const size = child(font, 'sz')?.attributes['val'];
  return size === undefined ? undefined : Number(size);
}
