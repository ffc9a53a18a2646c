import { type Cell, type CellError, isCellError } from '../../worksheet/cells/cell';
import { isTrue } from './parts';
import { decodeCellText, encodeCellText, escapeAttribute } from './xml';

/** What a cell's elements are to hold. */
export interface Held {
  /** The formula element; undefined for none. */
  readonly formula: string | undefined;
  readonly value: Cell;
  /** Whether text is the result of a formula, here or where it spills from, or a constant. */
  readonly calculated: boolean;
}

type Attributes = Readonly<Record<string, string>>;

/** Attributes of a cell that follow from what it is to hold. */
const WRITTEN_ANEW: ReadonlySet<string> = new Set(['r', 's', 't', 'cm', 'vm']);

/**
 * A cell's element; empty where nothing is left to say about it. `attributes` are those it has already, of which the
 * style and the record are given anew.
 */
export function cellElement(
  prefix: string,
  address: string,
  attributes: Attributes | undefined,
  style: string | undefined,
  metadata: string | undefined,
  cell: Held | null,
): string {
  const [type, held] = valueElement(prefix, cell);
  const content = (cell?.formula ?? '') + held;
  let tag = ` r="${address}"`;
  for (const name in attributes) {
    if (!WRITTEN_ANEW.has(name)) tag += ` ${name}="${escapeAttribute(attributes[name]!)}"`;
  }
  if (style !== undefined) tag += ` s="${escapeAttribute(style)}"`;
  if (metadata !== undefined) tag += ` cm="${escapeAttribute(metadata)}"`;
  if (type !== '') tag += ` t="${type}"`;
  const c = `${prefix}c`;
  if (content !== '') return `<${c}${tag}>${content}</${c}>`;
  return tag.includes(' ', 1) ? `<${c}${tag}/>` : '';
}

/** The type of a cell, empty where it needs none, and the element that holds its value. */
function valueElement(prefix: string, cell: Held | null): readonly [type: string, xml: string] {
  const value = cell?.value ?? null;
  if (value === null) return ['', ''];
  if (typeof value === 'number') return ['', inElement(`${prefix}v`, String(value))];
  if (typeof value === 'boolean') return ['b', inElement(`${prefix}v`, value ? '1' : '0')];
  if (isCellError(value)) return ['e', inElement(`${prefix}v`, storedCode(value))];
  const text = encodeCellText(value);
  if (cell!.calculated) return ['str', inElement(`${prefix}v`, text)];
  return ['inlineStr', inElement(`${prefix}is`, `<${prefix}t xml:space="preserve">${text}</${prefix}t>`)];
}

const inElement = (name: string, text: string): string => `<${name}>${text}</${name}>`;

/** Whether a cell that stores `value` stores what it is to hold. */
export function storesAlready(
  attributes: Attributes,
  value: string | undefined,
  { value: next, calculated }: Held,
): boolean {
  if (value === undefined || attributes['vm'] !== undefined) return false;
  switch (attributes['t'] ?? 'n') {
    case 'n':
      return Number(value) === next;
    case 'str':
      return calculated && decodeCellText(value) === next;
    case 'b':
      return isTrue(value) === next;
    case 'e':
      return isCellError(next) && storedCode(next) === value;
    default:
      return false;
  }
}

/** The codes of newer errors are kept as #VALUE! in files. */
function storedCode({ code }: CellError): string {
  return code === '#SPILL!' || code === '#CALC!' || code === '#BUSY!' ? '#VALUE!' : code;
}
