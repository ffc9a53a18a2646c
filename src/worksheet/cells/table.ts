import { invalid, missing, type CalcError } from '../../maths/shared/fault';
import { labelKey, nearestLabel } from '../../maths/shared/labels';
import { isCellError, type CellError } from './cell';
import { SheetFault } from './fault';
import type { LookAlike } from './headers';
import type { HeaderUnit } from './units';

/** A table read by its headers. Rows that cannot be read hold their fault until somebody asks for them. */
export class Table<Row extends object> {
  private index: Map<string, number[]> | undefined;
  /** Where labels were found, as written: a long column asks for the same few again and again. */
  private readonly found = new Map<string, readonly number[]>();

  /** The first row whose key cannot be read; null where there is none. */
  private keyless: Row | CellError | null | undefined;

  constructor(
    readonly name: string,
    /** Each row that counts, or why it cannot be read. */
    readonly entries: readonly (Row | CellError)[],
    /** The place of each entry in the range given, its header row being row 1. */
    readonly rowNumbers: readonly number[],
    /** The key of each entry as written, those that cannot be read included; empty where the table has no key. */
    readonly labels: readonly string[],
    /** Headers as written of the columns that nothing asks for. */
    readonly ignored: readonly string[] = [],
    /** Units that headers name, by the property whose header it is. */
    readonly units: ReadonlyMap<string, HeaderUnit> = new Map(),
    /** Those of `ignored` that look like an optional column which is not there. */
    readonly lookAlikes: readonly LookAlike[] = [],
  ) {}

  /** All rows; the first that cannot be read is the fault of the whole call. */
  get rows(): readonly Row[] {
    for (const entry of this.entries) if (isCellError(entry)) throw new SheetFault(entry);
    return this.entries as readonly Row[];
  }

  /** All rows; two with the same key are refused, in whatever order they come. */
  onceEach(keyHeader: string): readonly Row[] {
    const { rows } = this;
    for (const positions of this.positions().values()) {
      if (positions.length === 1) continue;
      const details = {
        label: this.labels[positions[0]!]!,
        table: this.name,
        rows: positions.map((position) => this.rowNumbers[position]!),
      };
      throw invalid(`${this.name}, ${keyHeader}`, 'labelTwice', details);
    }
    return rows;
  }

  /** The row whose key is `label`. `argument` names where the label came from, `at` its row where that is a table. */
  find(label: string, argument: string, at?: number): Row {
    const positions = this.positionsOf(label, argument, at);
    if (positions.length > 1) {
      const rows = positions.map((position) => this.rowNumbers[position]!);
      throw invalid(argument, 'labelTwice', { label, table: this.name, rows }, { at });
    }
    return this.read(positions[0]!);
  }

  /**
   * The rows whose key is `label`, one or more, in the order of the sheet. A row without a key is told before any: it may
   * be one of them.
   */
  findAll(label: string, argument: string, at?: number): readonly Row[] {
    this.keyless ??= this.entries.find((entry, i) => this.labels[i] === '' && isCellError(entry)) ?? null;
    if (isCellError(this.keyless)) throw new SheetFault(this.keyless);
    return this.positionsOf(label, argument, at).map((position) => this.read(position));
  }

  /** Whether a row has this key. */
  has(label: string): boolean {
    return this.positions().has(labelKey(label));
  }

  /** The fault of a label that no row has. */
  lacks(label: string, argument: string, at?: number): CalcError {
    const nearest = nearestLabel(label, this.labels);
    const details = { label, table: this.name, ...(nearest !== undefined && { nearest }) };
    return missing(argument, 'notIn', details, { at });
  }

  private read(position: number): Row {
    const entry = this.entries[position]!;
    if (isCellError(entry)) throw new SheetFault(entry);
    return entry;
  }

  private positionsOf(label: string, argument: string, at: number | undefined): readonly number[] {
    const positions = this.found.get(label) ?? this.positions().get(labelKey(label));
    if (positions === undefined) throw this.lacks(label, argument, at);
    this.found.set(label, positions);
    return positions;
  }

  private positions(): Map<string, number[]> {
    if (this.index) return this.index;
    const index = new Map<string, number[]>();
    this.labels.forEach((label, position) => {
      const same = labelKey(label);
      const positions = index.get(same);
      if (positions) positions.push(position);
      else index.set(same, [position]);
    });
    this.index = index;
    return index;
  }
}
