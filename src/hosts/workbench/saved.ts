import packageJson from '../../../package.json';
import { VERSION_PROPERTY } from '../pane/book';
import { withFilters } from '../xlsx/filters';
import { listOfWords, withLists } from '../xlsx/lists';
import { withNumberFormats } from '../xlsx/numberFormats';
import { patchWorkbook } from '../xlsx/patch';
import { withProperty } from '../xlsx/properties';
import { withTableAreas } from '../xlsx/tableAreas';
import { withWidths } from '../xlsx/widths';
import { changesSince } from './changes';
import { desk, type OpenFile } from './desk';
import { download } from './download';
import { notify, patiently } from './notices';
import { XLSX_TYPE } from './sheetActions';

/** The file with all that was typed into it, the lists of what was put in, and the version that did it. */
export function bytesNow({ bytes, content, grid: { workbook }, added }: OpenFile): Uint8Array {
  const changes = changesSince(content, workbook);
  const widths = workbook.widths();
  const filters = workbook.filters();
  const formats = workbook.numberFormats();
  const tables = workbook.tablesGrown();
  if ([changes, added, widths, filters, formats, tables].every(({ length }) => length === 0)) return bytes;
  const lists = workbook.offered().map(({ sheet, area, from }) => ({
    sheet,
    area,
    source: typeof from === 'string' ? from : listOfWords(from),
  }));
  return withProperty(
    withFilters(
      withWidths(
        withLists(withNumberFormats(patchWorkbook(withTableAreas(bytes, tables), changes), formats), lists),
        widths,
      ),
      filters,
    ),
    VERSION_PROPERTY,
    packageJson.version,
  );
}

export async function save(): Promise<void> {
  if (!desk.current) return;
  try {
    const { workbook } = desk.current.grid;
    await patiently('The copy is saved once the plan is worked out.', workbook.longCallsAnswered());
    if (workbook !== desk.current.grid.workbook) return;
    const changes = changesSince(desk.current.content, desk.current.grid.workbook);
    const bytes = bytesNow(desk.current);
    download(desk.current.name.replace(/(\.xlsx)?$/i, ' - copy.xlsx'), bytes, XLSX_TYPE);
    desk.isChanged = false;
    notify(savedWords(changes.length, desk.current.added));
  } catch (fault) {
    notify(`The copy was not saved: ${fault instanceof Error ? fault.message : 'something unforeseen'}.`);
  }
}

function savedWords(changes: number, added: readonly string[]): string {
  if (added.length > 0) {
    return `Saved a copy with the new ${added.length === 1 ? 'sheet' : 'sheets'} ${added.join(', ')} and all that you typed.`;
  }
  return changes === 0
    ? 'Saved a copy; nothing differed from the file.'
    : `Saved a copy with ${changes} changed ${changes === 1 ? 'cell' : 'cells'}; everything else is as it was.`;
}
