import type { WorkbookData } from '@odoo/o-spreadsheet';
import { child, childrenOf, parseXml, prefixed, type Element } from '../xlsx/xml';

type Figure = WorkbookData['sheets'][number]['figures'][number];
type Parts = Readonly<Record<string, string>>;

/** How a series is drawn where it is not a plain line: what the engine's own reader leaves out. */
export interface SeriesLook {
  /** Columns that stand on top of each other. */
  readonly stacked?: boolean;
  /** A mark over each column is drawn as a line of steps. */
  readonly line?: 'dashed' | 'steps' | 'none';
  /** Width of the line in points. */
  readonly width?: number;
  readonly dots?: boolean;
  /** Ranges of how far whiskers reach from each point; without ends they are stems that mark points. */
  readonly whiskers?: { readonly down: string; readonly up: string; readonly ends: boolean };
}

/** What the style of a series carries through the engine. */
export interface CarriedLook {
  readonly look?: SeriesLook;
  /** What the chart shows, in words: on its first series. */
  readonly says?: string;
}

/** What of a chart's definition matters here. */
interface Definition {
  readonly type: string;
  readonly dataSource?: { readonly dataSets: readonly { dataSetId: string; dataRange: string }[] };
  readonly dataSetStyles?: Readonly<Record<string, object>>;
}

/**
 * Charts as they are to be drawn, their lines without a dot at every point; pictures stay in the file. Of a chart of
 * columns and lines the engine's own reader makes one column and lines of all the rest: the file says better.
 */
export function chartsOf(figures: readonly Figure[], parts: Parts): Figure[] {
  const read = readCharts(parts);
  return figures
    .filter(({ tag }) => tag === 'chart')
    .map((figure) => {
      const definition = figure.data as Definition;
      const sets = definition.dataSource?.dataSets ?? [];
      const chart = read.get(keyOf(sets.map(({ dataRange }) => dataRange)));
      const dots = { ...definition, hideDataMarkers: true };
      if (chart === undefined) return { ...figure, data: dots };
      const isMixed = definition.type === 'combo' && chart.columns > 0 && chart.columns < sets.length;
      const styles = sets.map(({ dataSetId }, at) => [
        dataSetId,
        {
          ...definition.dataSetStyles?.[dataSetId],
          ...(isMixed && { type: at < chart.columns ? 'bar' : 'line' }),
          look: chart.looks[at],
          ...(at === 0 && { says: chart.says }),
        },
      ]);
      return { ...figure, data: { ...dots, dataSetStyles: Object.fromEntries(styles) as object } };
    });
}

/** The ranges a chart draws, whatever their first row: where series are named by cells the reader counts those in. */
const keyOf = (ranges: readonly string[]): string =>
  ranges.map((range) => range.replace(/[$']/g, '').replace(/\d+(?=:)/, '')).join('\n');

interface ReadChart {
  /** How many of its series are columns. */
  readonly columns: number;
  readonly looks: readonly SeriesLook[];
  readonly says: string | undefined;
}

/** Every chart of columns or lines by what it draws. */
function readCharts(parts: Parts): ReadonlyMap<string, ReadChart> {
  const found = new Map<string, ReadChart>();
  const words = wordsOf(parts);
  for (const [name, text] of Object.entries(parts)) {
    if (!/\/charts\/chart\d*\.xml$/i.test(name)) continue;
    const area = child(child(parseXml(text, name), 'chart'), 'plotArea');
    const columns = childrenOf(area, 'barChart').flatMap((plot) => childrenOf(plot, 'ser'));
    const lines = childrenOf(area, 'lineChart').flatMap((plot) => childrenOf(plot, 'ser'));
    const series = [...columns, ...lines];
    const stacked = child(child(area, 'barChart'), 'grouping')?.attributes['val'] === 'stacked';
    if (series.length === 0) continue;
    found.set(keyOf(series.map((one) => rangeIn(child(one, 'val')))), {
      columns: columns.length,
      looks: [...columns.map(() => ({ stacked })), ...lines.map(lookOf)],
      says: words.get(fileOf(name)),
    });
  }
  return found;
}

const rangeIn = (values: Element | undefined): string => child(child(values, 'numRef'), 'f')?.text ?? '';

const fileOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1).toLowerCase();

const EMUS_IN_POINT = 12_700;

function lookOf(series: Element): SeriesLook {
  const line = child(child(series, 'spPr'), 'ln');
  const symbol = child(child(series, 'marker'), 'symbol')?.attributes['val'];
  const isDashed = (child(line, 'prstDash')?.attributes['val'] ?? 'solid') !== 'solid';
  const noLine = child(line, 'noFill') !== undefined;
  const width = Number(line?.attributes['w']);
  const bars = child(series, 'errBars');
  const [down, up] = [rangeIn(child(bars, 'minus')), rangeIn(child(bars, 'plus'))];
  const ends = child(bars, 'noEndCap')?.attributes['val'] !== '1';
  return {
    ...(isDashed && { line: 'dashed' }),
    ...(noLine && { line: symbol === 'dash' ? 'steps' : 'none' }),
    ...(width > 0 && { width: width / EMUS_IN_POINT }),
    ...(symbol !== undefined && symbol !== 'none' && symbol !== 'dash' && { dots: true }),
    ...(down !== '' && up !== '' && { whiskers: { down, up, ends } }),
  };
}

/** What drawings say of their charts, by the file of the chart. */
function wordsOf(parts: Parts): ReadonlyMap<string, string> {
  const words = new Map<string, string>();
  for (const [name, text] of Object.entries(parts)) {
    const [, folder, file] = /^(.*\/drawings\/)(drawing\d*\.xml)$/i.exec(name) ?? [];
    const related = parts[`${folder}_rels/${file}.rels`];
    if (related === undefined) continue;
    const targets = new Map(
      childrenOf(parseXml(related, name), 'Relationship').map(({ attributes }) => [
        attributes['Id'],
        fileOf(attributes['Target'] ?? ''),
      ]),
    );
    for (const anchor of parseXml(text, name).children) {
      const frame = child(anchor, 'graphicFrame');
      const chart = child(child(child(frame, 'graphic'), 'graphicData'), 'chart');
      const said = child(child(frame, 'nvGraphicFramePr'), 'cNvPr')?.attributes['descr'];
      const target = chart && targets.get(prefixed(chart, 'id'));
      if (said && target) words.set(target, said);
    }
  }
  return words;
}
