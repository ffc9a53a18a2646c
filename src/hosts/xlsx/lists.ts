import { areaOf, rangeOf, type Area } from './address';
import { NOT_IN_LIST } from './look';
import { Package, WorkbookFileError } from './package';
import { partsOf } from './parts';
import { appended, element, escapeText, prefixAt, spliced, walk, withAttribute } from './xml';

/** Cells that offer a list of what they may hold. */
export interface ListedCells {
  readonly area: Area;
  /** Words in quotes, or a reference. */
  readonly source: string;
}

/** Words as the source of a list. */
export const listOfWords = (words: readonly string[]): string => `"${words.join(',').replaceAll('"', '""')}"`;

/** The rule that makes cells offer their list and asks before they take anything else (ISO/IEC 29500-1, 18.3.1.32). */
export const listText = ({ area, source }: ListedCells, prefix = ''): string =>
  element(
    `${prefix}dataValidation`,
    {
      type: 'list',
      errorStyle: 'warning',
      allowBlank: 1,
      showErrorMessage: 1,
      errorTitle: NOT_IN_LIST.title,
      error: NOT_IN_LIST.message,
      sqref: rangeOf(area),
    },
    element(`${prefix}formula1`, {}, escapeText(source)),
  );

/** What may stand behind the rules in a sheet (ISO/IEC 29500-1, 18.3.1.99). */
const BEHIND = new Set(
  (
    'hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches ' +
    'ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls ' +
    'webPublishItems tableParts extLst'
  ).split(' '),
);

interface Found {
  readonly start: number;
  readonly inner: number;
  innerEnd: number;
  end: number;
}

/** Where a sheet's text holds its rules, or would hold them. */
interface Rules {
  list?: Found;
  count: number;
  readonly areas: Area[];
  root?: Found;
  behind?: number;
}

function rulesOf(text: string, part: string): Rules {
  const rules: Rules = { count: 0, areas: [] };
  let depth = 0;
  walk(text, part, {
    open(name, attributes, start, end) {
      const place = { start, inner: end, innerEnd: end, end };
      if (depth === 0) rules.root = place;
      if (depth === 1 && name === 'dataValidations') rules.list = place;
      if (depth === 1 && BEHIND.has(name)) rules.behind ??= start;
      if (depth === 2 && name === 'dataValidation') {
        rules.count++;
        rules.areas.push(...(attributes['sqref'] ?? '').split(/\s+/).flatMap((range) => areaOf(range) ?? []));
      }
      depth++;
    },
    close(name, start, end) {
      depth--;
      const closed = depth === 0 ? rules.root : depth === 1 && name === 'dataValidations' && rules.list;
      if (closed) Object.assign(closed, { innerEnd: start, end });
    },
    text: () => undefined,
  });
  return rules;
}

const meet = (a: Area, b: Area): boolean =>
  a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;

/**
 * The file with lists offered in more of its cells. Cells that have a rule of their own keep it.
 * @throws WorkbookFileError where it has no such sheet
 */
export function withLists(
  bytes: Uint8Array,
  lists: readonly (ListedCells & { readonly sheet: string })[],
): Uint8Array {
  const file = Package.open(bytes);
  const { sheets } = partsOf(file);
  const changes = new Map<string, string>();
  for (const name of new Set(lists.map(({ sheet }) => sheet))) {
    const part = sheets.find((sheet) => sheet.name === name)?.part;
    if (part === undefined) throw new WorkbookFileError(`the workbook has no sheet ${name}`);
    const text = file.text(part);
    const { list, count, areas, root, behind } = rulesOf(text, part);
    const more = lists.filter(({ sheet, area }) => sheet === name && !areas.some((one) => meet(one, area)));
    if (more.length === 0) continue;
    const prefix = prefixAt(text, root!.start);
    const xml = more.map((one) => listText(one, prefix)).join('');
    const all = `<${prefix}dataValidations count="${more.length}">${xml}</${prefix}dataValidations>`;
    const edits = list
      ? [appended(text, list, xml), withAttribute(text, list, 'count', String(count + more.length))]
      : [behind === undefined ? appended(text, root!, all) : { start: behind, end: behind, text: all }];
    changes.set(part, spliced(text, edits));
  }
  return changes.size === 0 ? bytes : file.with(changes);
}
