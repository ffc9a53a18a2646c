import { Package, WorkbookFileError } from './package';
import { child, childrenOf, parseXml, prefixed, type Element } from './xml';

/** A relationship of a part (ISO/IEC 29500-2), its target resolved to a part's name. */
export interface Relationship {
  readonly id: string;
  /** The last word of its type: `worksheet`, `table`. Transitional and strict files differ only before it. */
  readonly kind: string;
  readonly target: string;
}

export interface SheetPart {
  readonly name: string;
  readonly part: string;
  /** Set for a sheet of old macros: its formulas are steps of a program, and only their results are read. */
  readonly isMacro?: true;
}

/** Where the pieces of a workbook are. */
export interface WorkbookParts {
  readonly workbook: string;
  readonly root: Element;
  readonly relationships: readonly Relationship[];
  /** Worksheets in the order of their tabs; chart sheets have no cells. */
  readonly sheets: readonly SheetPart[];
  /** Names of all sheets, chart sheets included: a name's `localSheetId` counts them. */
  readonly allSheets: readonly string[];
}

const folderOf = (part: string): string => part.slice(0, part.lastIndexOf('/') + 1);

export const relationshipsPart = (part: string): string =>
  `${folderOf(part)}_rels/${part.slice(folderOf(part).length)}.rels`;

export function relationshipsOf(file: Package, part: string): Relationship[] {
  const rels = relationshipsPart(part);
  if (!file.has(rels)) return [];
  return childrenOf(parseXml(file.text(rels), rels), 'Relationship')
    .filter(({ attributes }) => attributes['TargetMode'] !== 'External')
    .map(({ attributes }) => ({
      id: attributes['Id'] ?? '',
      kind: (attributes['Type'] ?? '').split('/').at(-1)!,
      target: resolved(folderOf(part), attributes['Target'] ?? ''),
    }));
}

function resolved(folder: string, written: string): string {
  const target = written.replaceAll('\\', '/');
  const steps: string[] = [];
  for (const step of (target.startsWith('/') ? target : `${folder}${target}`).split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.' && step !== '') steps.push(step);
  }
  return steps.join('/');
}

export function partsOf(file: Package): WorkbookParts {
  const workbook = relationshipsOf(file, '').find(({ kind }) => kind === 'officeDocument')?.target;
  if (workbook?.endsWith('.bin')) {
    throw new WorkbookFileError('this is an .xlsb workbook: save it as .xlsx first');
  }
  if (workbook === undefined || !file.has(workbook)) {
    throw new WorkbookFileError('this is not an .xlsx workbook');
  }
  const root = parseXml(file.text(workbook), workbook);
  if (root.name !== 'workbook') throw new WorkbookFileError('this is not an .xlsx workbook');
  const relationships = relationshipsOf(file, workbook);
  const byId = new Map(relationships.map((one) => [one.id, one]));
  const listed = childrenOf(child(root, 'sheets'), 'sheet');
  const sheets = listed.flatMap((sheet) => {
    const relationship = byId.get(prefixed(sheet, 'id') ?? '');
    if (!relationship) {
      throw new WorkbookFileError(`the file is damaged: its sheet ${sheet.attributes['name']} is missing`);
    }
    const isMacro = /macrosheet$/i.test(relationship.kind);
    if (relationship.kind !== 'worksheet' && !isMacro) return [];
    const name = sheet.attributes['name'] ?? '';
    return [{ name, part: relationship.target, ...(isMacro && { isMacro }) }];
  });
  if (new Set(sheets.map(({ part }) => part)).size < sheets.length) {
    throw new WorkbookFileError('the file is damaged: two of its sheets are one part');
  }
  return {
    workbook,
    root,
    relationships,
    sheets,
    allSheets: listed.map(({ attributes }) => attributes['name'] ?? ''),
  };
}

/** The part of a kind that a workbook has at most one of. */
export const onlyPart = ({ relationships }: WorkbookParts, kind: string): string | undefined =>
  relationships.find((one) => one.kind === kind)?.target;

export const isTrue = (attribute: string | undefined): boolean => attribute === '1' || attribute === 'true';
