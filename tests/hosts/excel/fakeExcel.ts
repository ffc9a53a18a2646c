import { addressOf, areaOf, rangeOf, type Area } from '../../../src/hosts/xlsx/address';

// An Excel in memory with just the calls the pane makes, as strict as the real one where it matters: a property can be
// read only after it was loaded and the context synchronised, and nothing happens on the sheet before that.

/** What a cell holds: what `formulas` gives, and what it shows. */
export interface FakeCell {
  formula: unknown;
  shown?: unknown;
  /** The cells that its formula fills. */
  spill?: string;
}

interface FakeSheet {
  readonly cells: Map<string, FakeCell>;
  readonly tables: { name: string; range: string }[];
  readonly formats: Record<string, unknown>;
  readonly lists: Record<string, unknown>;
  readonly alerts: Record<string, unknown>;
  readonly charts: FakeChart[];
  readonly widths: Record<string, unknown>;
  readonly heights: Record<string, unknown>;
  readonly wraps: Record<string, unknown>;
  /** Cells whose letters are struck out. */
  readonly struck: Set<string>;
}

interface FakeChart {
  readonly title: { text?: string };
  position: readonly string[];
  readonly series: { name?: string; chartType?: string; values: string; across?: string }[];
}

/** What a constant shows: text without the apostrophe that it was typed with. */
const shownOf = (typed: unknown): unknown =>
  typeof typed === 'string' && typed.startsWith("'") ? typed.slice(1) : (typed ?? '');

export class FakeExcel {
  readonly sheets = new Map<string, FakeSheet>();
  readonly properties = new Map<string, string>();
  readonly names = new Map<string, string>();
  /** What was done to the sheets, in order. */
  readonly log: string[] = [];
  selected = { sheet: 'Sheet1', address: 'A1' };
  private queue: (() => void)[] = [];
  private readonly listeners = new Set<() => unknown>();

  constructor(sheets: Readonly<Record<string, Readonly<Record<string, FakeCell>>>>) {
    for (const [name, cells] of Object.entries(sheets)) this.addSheet(name, cells);
  }

  private addSheet(name: string, cells: Record<string, FakeCell> = {}): void {
    this.sheets.set(name, {
      cells: new Map(Object.entries(cells)),
      tables: [],
      formats: {},
      lists: {},
      alerts: {},
      charts: [],
      widths: {},
      heights: {},
      wraps: {},
      struck: new Set(),
    });
  }

  /** Puts something into a cell as a person does. */
  edit(sheet: string, address: string, cell: FakeCell): void {
    this.sheets.get(sheet)!.cells.set(address, cell);
    for (const listener of this.listeners) listener();
  }

  /** The `Excel` that the code under test sees. */
  get api(): unknown {
    type Work = (context: unknown) => Promise<unknown>;
    return { run: (...given: [Work] | [object, Work]) => (given.at(-1) as Work)(this.context()) };
  }

  private later(name: string, work: () => void): void {
    this.queue.push(() => {
      this.log.push(name);
      work();
    });
  }

  private sync = (): Promise<void> => {
    for (const work of this.queue.splice(0)) work();
    return Promise.resolve();
  };

  /** An object whose named properties throw until they were loaded and synchronised. */
  private loadable(properties: Record<string, () => unknown>, methods: object = {}): object {
    const ready = new Set<string>();
    const object = { ...methods } as Record<string, unknown>;
    object['load'] = (names: string) => {
      for (const path of names.split(',')) this.queue.push(() => ready.add(path.split('/')[0]!));
    };
    for (const [name, read] of Object.entries(properties)) {
      Object.defineProperty(object, name, {
        configurable: true,
        enumerable: true,
        get: () => {
          if (!ready.has(name)) throw new Error(`${name} was read before it was loaded`);
          return read();
        },
        set: (value: unknown) => (methods as Record<string, (value: unknown) => void>)[`set ${name}`]!(value),
      });
    }
    return object;
  }

  private range(sheetName: string, area: Area): object {
    const sheet = () => this.sheets.get(sheetName)!;
    const cells = (read: (cell: FakeCell | undefined) => unknown): unknown[][] =>
      Array.from({ length: area.bottom - area.top + 1 }, (_, r) =>
        Array.from({ length: area.right - area.left + 1 }, (__, c) =>
          read(sheet().cells.get(addressOf({ row: area.top + r, column: area.left + c }))),
        ),
      );
    const write = (values: unknown[][]): void => {
      if (values.length !== area.bottom - area.top + 1 || values[0]!.length !== area.right - area.left + 1) {
        throw new Error(`a block of another size than ${rangeOf(area)}`);
      }
      this.later(`write ${rangeOf(area)}`, () =>
        values.forEach((row, r) =>
          row.forEach((value, c) => {
            if (value === null) return;
            sheet().cells.set(addressOf({ row: area.top + r, column: area.left + c }), { formula: value });
          }),
        ),
      );
    };
    const struckIn = (): boolean[][] => this.struckIn(sheetName, area);
    const formatAt = (address: string): unknown => {
      const format = sheet().formats[address];
      return Array.isArray(format) ? (format as unknown[][])[0]![0] : (format ?? 'General');
    };
    const dataValidation = {};
    Object.defineProperty(dataValidation, 'rule', {
      set: (rule: unknown) =>
        this.later(`list ${rangeOf(area)}`, () => (sheet().lists[rangeOf(area)] = rule)),
    });
    Object.defineProperty(dataValidation, 'errorAlert', {
      set: (alert: unknown) =>
        this.later(`alert ${rangeOf(area)}`, () => (sheet().alerts[rangeOf(area)] = alert)),
    });
    return this.loadable(
      {
        address: () => `${sheetName}!${rangeOf(area)}`,
        formulas: () => cells((cell) => cell?.formula ?? ''),
        values: () => cells((cell) => cell?.shown ?? shownOf(cell?.formula)),
        rowIndex: () => area.top,
        columnIndex: () => area.left,
        rowCount: () => area.bottom - area.top + 1,
        columnCount: () => area.right - area.left + 1,
        isNullObject: () => false,
        numberFormat: () =>
          Array.from({ length: area.bottom - area.top + 1 }, (_, r) =>
            Array.from({ length: area.right - area.left + 1 }, (__, c) =>
              formatAt(addressOf({ row: area.top + r, column: area.left + c })),
            ),
          ),
      },
      {
        at: rangeOf(area),
        worksheet: this.loadable({ name: () => sheetName }),
        getResizedRange: (rows: number, columns: number) =>
          this.range(sheetName, { ...area, bottom: area.bottom + rows, right: area.right + columns }),
        getSpillingToRangeOrNullObject: () => {
          const spill = sheet().cells.get(rangeOf(area))?.spill;
          return spill === undefined
            ? this.loadable({ isNullObject: () => true })
            : this.range(sheetName, areaOf(spill)!);
        },
        getCell: (row: number, column: number) => {
          const at = { row: area.top + row, column: area.left + column };
          return this.range(sheetName, areaOf(addressOf(at))!);
        },
        select: () =>
          this.later(
            `select ${rangeOf(area)}`,
            () => (this.selected = { sheet: sheetName, address: rangeOf(area) }),
          ),
        format: this.format(sheetName, area),
        // What is asked of the cells is there once the context is synchronised.
        getCellProperties: () => {
          const result: { value?: unknown } = {};
          this.later(`looks of ${rangeOf(area)}`, () => {
            result.value = struckIn().map((row) =>
              row.map((strikethrough) => ({ format: { font: { strikethrough } } })),
            );
          });
          return result;
        },
        dataValidation,
        'set formulas': write,
        'set numberFormat': (format: unknown) => (sheet().formats[rangeOf(area)] = format),
      },
    );
  }

  private struckIn(sheetName: string, area: Area): boolean[][] {
    const { struck } = this.sheets.get(sheetName)!;
    return Array.from({ length: area.bottom - area.top + 1 }, (_, r) =>
      Array.from({ length: area.right - area.left + 1 }, (__, c) =>
        struck.has(addressOf({ row: area.top + r, column: area.left + c })),
      ),
    );
  }

  /** Looks of a range; those that make its words readable are kept. */
  private format(sheetName: string, area: Area): object {
    const at = rangeOf(area);
    const kept = (property: 'widths' | 'heights' | 'wraps') => ({
      set: (value: number | boolean) =>
        this.later(`${property} ${at}`, () => (this.sheets.get(sheetName)![property][at] = value)),
    });
    // null where some letters are struck out and others are not.
    const strikethrough = (): boolean | null => {
      const all = new Set(this.struckIn(sheetName, area).flat());
      return all.size === 1 ? [...all][0]! : null;
    };
    return Object.defineProperties(
      { font: Object.defineProperty({}, 'strikethrough', { get: strikethrough }), fill: {} },
      { columnWidth: kept('widths'), rowHeight: kept('heights'), wrapText: kept('wraps') },
    );
  }

  private worksheet(name: string): object {
    const sheet = this.sheets.get(name);
    if (!sheet) throw new Error(`no sheet ${name}`);
    return this.loadable(
      { name: () => name },
      {
        getRange: (address: string) => this.range(name, areaOf(address)!),
        getUsedRangeOrNullObject: () => {
          const areas = [...sheet.cells.keys()].map((address) => areaOf(address)!);
          if (areas.length === 0) return this.loadable({ isNullObject: () => true });
          return this.range(name, {
            top: Math.min(...areas.map(({ top }) => top)),
            left: Math.min(...areas.map(({ left }) => left)),
            bottom: Math.max(...areas.map(({ bottom }) => bottom)),
            right: Math.max(...areas.map(({ right }) => right)),
          });
        },
        activate: () => undefined,
        names: this.loadable({ items: () => [] }),
        delete: () => this.later(`delete ${name}`, () => this.sheets.delete(name)),
        tables: {
          add: (range: string) => {
            const table = { name: '', range };
            this.later(`table ${range}`, () => sheet.tables.push(table));
            return table;
          },
        },
        charts: {
          add: (kind: string, from: { at: string }) => {
            const chart: FakeChart = { title: {}, position: [], series: [{ values: from.at }] };
            this.later(`chart ${kind}`, () => sheet.charts.push(chart));
            const handle = (series: FakeChart['series'][number]): object =>
              Object.defineProperties(
                {
                  format: { line: {} },
                  setValues: ({ at }: { at: string }) => (series.values = at),
                  setXAxisValues: ({ at }: { at: string }) => (series.across = at),
                },
                {
                  name: { set: (name: string) => (series.name = name) },
                  chartType: { set: (chartType: string) => (series.chartType = chartType) },
                },
              );
            return {
              title: chart.title,
              setPosition: (...cells: string[]) => (chart.position = cells),
              series: {
                getItemAt: (at: number) => handle(chart.series[at]!),
                add: (name: string) => {
                  const series = { name, values: '' };
                  chart.series.push(series);
                  return handle(series);
                },
              },
            };
          },
        },
      },
    );
  }

  /** A sheet of a collection whose names were loaded with it. */
  private named(name: string): object {
    const sheet = this.worksheet(name);
    Object.defineProperty(sheet, 'name', { value: name });
    return sheet;
  }

  private context(): unknown {
    const tables = () =>
      [...this.sheets].flatMap(([sheet, held]) =>
        held.tables.map(({ name, range }) => ({
          name,
          showHeaders: true,
          showTotals: false,
          worksheet: { name: sheet },
          getRange: () => this.range(sheet, areaOf(range)!),
        })),
      );
    return {
      sync: this.sync,
      workbook: {
        // 1 January 2000 in a workbook that counts from 1900.
        functions: { date: () => this.loadable({ value: () => 36526 }) },
        getSelectedRange: () => this.range(this.selected.sheet, areaOf(this.selected.address)!),
        tables: this.loadable({ items: tables }),
        names: this.loadable({
          items: () => [...this.names].map(([name, formula]) => ({ name, formula })),
        }),
        worksheets: this.loadable(
          { items: () => [...this.sheets.keys()].map((name) => this.named(name)) },
          {
            onChanged: {
              add: (listener: () => unknown) => this.later('listen', () => this.listeners.add(listener)),
            },
            onCalculated: { add: () => undefined },
            getItem: (name: string) => this.worksheet(name),
            add: (name: string) => this.later(`sheet ${name}`, () => this.addSheet(name)),
          },
        ),
        properties: {
          custom: {
            add: (key: string, value: string) =>
              this.later(`property ${key}`, () => this.properties.set(key, value)),
            getItemOrNullObject: (key: string) =>
              this.loadable({
                value: () => this.properties.get(key),
                isNullObject: () => !this.properties.has(key),
              }),
          },
        },
      },
    };
  }
}
