import { registries, type Getters, type UID } from '@odoo/o-spreadsheet';
import type { CarriedLook, SeriesLook } from './charts';
import { DARK_SHEET, darkened } from './darkLooks';
import { isDarkSheet } from './darkSheet';

// The engine draws each series as plain columns or a plain line. Here a series gets what the file says beyond that, the
// chart its words, and on a dark sheet both the colours of that.

interface Whiskers {
  readonly down: readonly number[];
  readonly up: readonly number[];
  readonly ends: boolean;
}
/** A value at its label or, on an axis of days and numbers, at its own place. */
type Point = number | null | { readonly x: number | string; readonly y: number };
/** A series as the drawing library takes it, and its whiskers. */
interface Dataset extends Record<string, unknown> {
  data: readonly Point[];
  borderColor: string;
  borderDash?: readonly number[];
  whiskers?: Whiskers;
}
interface Definition {
  readonly background?: string;
  readonly title?: { readonly text?: string };
  readonly dataSetStyles?: Readonly<Record<string, CarriedLook & { readonly backgroundColor?: string }>>;
}
interface Axis {
  type?: string;
  offset?: boolean;
  stacked?: boolean;
  min?: number;
  max?: number;
  suggestedMin?: number;
  suggestedMax?: number;
  beginAtZero?: boolean;
  grid?: { color?: string };
  ticks?: { autoSkipPadding?: number };
}
/** What the legend says of a series, and the dashes of its line. */
interface LegendItem {
  readonly datasetIndex?: number;
  lineDash?: readonly number[];
}
interface Legend {
  readonly labels?: { generateLabels?: (chart: DrawnChart) => LegendItem[] };
}
interface Runtime {
  readonly chartJsConfig?: {
    readonly type: string;
    readonly data: { readonly datasets: Dataset[] };
    readonly options: {
      readonly scales?: Record<string, Axis>;
      readonly plugins?: Record<string, unknown> & { readonly legend?: Legend };
    };
  };
  readonly customizableSeries?: readonly { readonly dataSetId: string }[];
}
type Draw = (
  getters: Getters,
  definition: Definition,
  data: unknown,
  sheetId: UID,
  events: unknown,
) => Runtime;

const { chartTypeRegistry: types, chartJsExtensionRegistry: extensions } = registries;

for (const type of types.getKeys()) {
  const builder = types.get(type);
  const draw = builder.getRuntime.bind(builder) as unknown as Draw;
  const drawLooks: Draw = (getters, definition, data, sheetId, events) => {
    const runtime = draw(
      getters,
      isDarkSheet() ? onDarkSheet(definition) : definition,
      data,
      sheetId,
      events,
    );
    dress(runtime, definition, (range) => numbersAt(getters, sheetId, range));
    return runtime;
  };
  types.replace(type, { ...builder, getRuntime: drawLooks as unknown as typeof builder.getRuntime });
}

/** A colour that can be told from a dark sheet. */
const onDark = (colour: string): string => darkened(undefined, colour).text;

function onDarkSheet(definition: Definition): Definition {
  const styles = Object.entries(definition.dataSetStyles ?? {}).map(([id, style]): [string, typeof style] => [
    id,
    style.backgroundColor === undefined
      ? style
      : { ...style, backgroundColor: onDark(style.backgroundColor) },
  ]);
  return { ...definition, background: DARK_SHEET, dataSetStyles: Object.fromEntries(styles) };
}

/** What cells hold as lengths: what is no number has none. */
function numbersAt(getters: Getters, sheetId: UID, range: string): number[] {
  const { sheetId: at, zone } = getters.getRangeFromSheetXC(sheetId, range);
  const lengths: number[] = [];
  for (let row = zone.top; row <= zone.bottom; row++) {
    const { value } = getters.getEvaluatedCell({ sheetId: at, col: zone.left, row });
    lengths.push(typeof value === 'number' ? value : 0);
  }
  return lengths;
}

function dress(
  { chartJsConfig: config, customizableSeries = [] }: Runtime,
  { dataSetStyles = {}, title }: Definition,
  numbers: (range: string) => number[],
): void {
  if (!config) return;
  const styles = customizableSeries.map(({ dataSetId }) => dataSetStyles[dataSetId]);
  const says = styles[0]?.says ?? title?.text;
  if (config.options.plugins) config.options.plugins['words'] = { says };
  config.data.datasets.forEach((dataset, at) => {
    const look = styles[at]?.look;
    if (look) Object.assign(dataset, drawnAs(look, dataset, numbers));
  });
  dressLegend(config.options.plugins?.legend);
  const { x, y } = config.options.scales ?? {};
  if (!x || !y) return;
  // Columns are measured from nothing; what lines and dots tell is how they differ.
  if (config.type === 'line') y.beginAtZero = false;
  dressAxes({ x, y }, config.data.datasets);
  if (styles.some((style) => style?.look?.stacked)) stack({ x, y }, config.data.datasets);
}

/** The legend shows a line dashed where the chart does. */
function dressLegend({ labels }: Legend = {}): void {
  const generate = labels?.generateLabels;
  if (!generate) return;
  labels.generateLabels = (chart) =>
    generate(chart).map((item) => {
      const dashes = chart.data.datasets[item.datasetIndex ?? -1]?.borderDash;
      return dashes ? { ...item, lineDash: LEGEND_DASHES } : item;
    });
}

interface Axes {
  readonly x: Axis;
  readonly y: Axis;
}

/** Axes begin and end with what they show, whiskers included. */
function dressAxes({ x, y }: Axes, datasets: readonly Dataset[]): void {
  if (isDarkSheet()) for (const axis of [x, y]) axis.grid = { ...axis.grid, color: DARK_GRID };
  const across = datasets
    .flatMap(({ data }) => data.map((point) => (typeof point === 'object' && point ? Number(point.x) : NaN)))
    .filter(Number.isFinite);
  if (x.type === 'linear' && across.length > 0) {
    Object.assign(x, { min: Math.min(...across), max: Math.max(...across) });
    x.ticks = { ...x.ticks, autoSkipPadding: 16 };
  }
  if (datasets.every(({ showLine }) => showLine === false)) x.offset = true;
  const reached = datasets.flatMap(({ data, whiskers }) =>
    data.flatMap((point, i) => {
      const value = heightOf(point);
      if (value === undefined || whiskers?.ends !== true) return [];
      return [value - (whiskers.down[i] ?? 0), value + (whiskers.up[i] ?? 0)];
    }),
  );
  if (reached.length === 0) return;
  const [suggestedMin, suggestedMax] = [Math.min(...reached), Math.max(...reached)];
  Object.assign(y, { suggestedMin, suggestedMax });
}

/** Columns on top of each other, and lines over them where their values are. */
function stack({ x, y }: Axes, datasets: readonly Dataset[]): void {
  x.stacked = true;
  y.stacked = true;
  datasets.forEach((dataset, at) => {
    Object.assign(dataset, { stack: dataset['type'] === 'line' ? `line ${at}` : 'columns' });
  });
}

function heightOf(point: Point | undefined): number | undefined {
  const value = typeof point === 'object' ? point?.y : point;
  return value !== undefined && Number.isFinite(value) ? value : undefined;
}

const PIXELS_IN_POINT = 96 / 72;
const DASHES = [7, 4];
/** Three dashes in the short line of a legend. */
const LEGEND_DASHES = [4, 2.5];
const DARK_GRID = '#37322c';
const LIMIT = '#A6442E';
const markColour = (): string => (isDarkSheet() ? onDark(LIMIT) : LIMIT);

function drawnAs(look: SeriesLook, dataset: Dataset, numbers: (range: string) => number[]): object {
  const { line, width, dots, whiskers } = look;
  const reach = whiskers && {
    down: numbers(whiskers.down),
    up: numbers(whiskers.up),
    ends: whiskers.ends,
  };
  const isMarked = (i: number): boolean =>
    reach?.ends === false && (reach.down[i] ?? 0) + (reach.up[i] ?? 0) > 0;
  const eachPoint = <T>(usual: T, marked: T): T[] =>
    dataset.data.map((_, i) => (isMarked(i) ? marked : usual));
  return {
    ...(width !== undefined && { borderWidth: width * PIXELS_IN_POINT }),
    ...((line === 'dashed' || line === 'steps') && { borderDash: DASHES }),
    ...(line === 'steps' && { stepped: 'middle' }),
    ...(line === 'none' && { showLine: false }),
    ...(dots && {
      pointRadius: eachPoint(line === 'none' ? 5 : 3, 5),
      pointBackgroundColor: eachPoint(dataset.borderColor, markColour()),
      pointBorderColor: eachPoint(dataset.borderColor, markColour()),
    }),
    ...(reach && { whiskers: reach }),
  };
}

/** A chart that is drawn, as far as it matters here. */
interface DrawnChart {
  readonly canvas: HTMLCanvasElement;
  readonly ctx: CanvasRenderingContext2D;
  readonly data: { readonly datasets: readonly Dataset[] };
  readonly scales: Readonly<Record<string, { getPixelForValue(value: number): number }>>;
  getDatasetMeta(at: number): { readonly hidden: boolean; readonly data: readonly { readonly x: number }[] };
}

const plugin = {
  id: 'words',
  afterUpdate({ canvas }: DrawnChart, _: unknown, { says }: { readonly says?: string }): void {
    canvas.setAttribute('role', 'img');
    if (says) canvas.setAttribute('aria-label', says);
  },
  beforeDatasetsDraw(chart: DrawnChart): void {
    chart.data.datasets.forEach(({ data, borderColor, whiskers }, at) => {
      const meta = chart.getDatasetMeta(at);
      const up = chart.scales['y'];
      if (!whiskers || !up || meta.hidden) return;
      const { ctx } = chart;
      ctx.save();
      ctx.strokeStyle = whiskers.ends ? borderColor : markColour();
      ctx.lineWidth = whiskers.ends ? 2 : 4;
      ctx.beginPath();
      meta.data.forEach(({ x }, i) => {
        const value = heightOf(data[i]);
        if (value === undefined) return;
        const [low, high] = [value - (whiskers.down[i] ?? 0), value + (whiskers.up[i] ?? 0)];
        if (low === high) return;
        const [bottom, top] = [up.getPixelForValue(low), up.getPixelForValue(high)];
        ctx.moveTo(x, bottom);
        ctx.lineTo(x, top);
        if (!whiskers.ends) return;
        for (const y of [bottom, top]) {
          ctx.moveTo(x - 6, y);
          ctx.lineTo(x + 6, y);
        }
      });
      ctx.stroke();
      ctx.restore();
    });
  },
};

interface Library {
  register(...all: readonly object[]): void;
  unregister(...all: readonly object[]): void;
}
extensions.add('words', {
  register: (library) => (library as unknown as Library).register(plugin),
  unregister: (library) => (library as unknown as Library).unregister(plugin),
});
