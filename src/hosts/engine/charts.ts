import type { WorkbookData } from '@odoo/o-spreadsheet';
import { child, childrenOf, parseXml, type Element } from '../xlsx/xml';

type Figure = WorkbookData['sheets'][number]['figures'][number];

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
export function chartsOf(figures: readonly Figure[], parts: Readonly<Record<string, string>>): Figure[] {
  const mixed = columnsOfMixed(parts);
  return figures
    .filter(({ tag }) => tag === 'chart')
    .map((figure) => {
      const definition = figure.data as Definition;
      const sets = definition.dataSource?.dataSets ?? [];
      const columns = mixed.get(keyOf(sets.map(({ dataRange }) => dataRange)));
      const dots = { ...definition, hideDataMarkers: true };
      if (definition.type !== 'combo' || columns === undefined) return { ...figure, data: dots };
      const styles = sets.map(({ dataSetId }, at) => [
        dataSetId,
        { ...definition.dataSetStyles?.[dataSetId], type: at < columns ? 'bar' : 'line' },
      ]);
      return { ...figure, data: { ...dots, dataSetStyles: Object.fromEntries(styles) as object } };
    });
}

/** The ranges a chart draws, whatever their first row: where series are named by cells the reader counts those in. */
const keyOf = (ranges: readonly string[]): string =>
  ranges.map((range) => range.replace(/[$']/g, '').replace(/\d+(?=:)/, '')).join('\n');

/** How many series of each chart of columns and lines are columns. */
function columnsOfMixed(parts: Readonly<Record<string, string>>): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const [name, text] of Object.entries(parts)) {
    if (!/\/charts\/chart\d*\.xml$/i.test(name)) continue;
    const area = child(child(parseXml(text, name), 'chart'), 'plotArea');
    const columns = childrenOf(area, 'barChart').flatMap(rangesOf);
    const lines = childrenOf(area, 'lineChart').flatMap(rangesOf);
    if (columns.length > 0 && lines.length > 0) found.set(keyOf([...columns, ...lines]), columns.length);
  }
  return found;
}

const rangesOf = (plot: Element): string[] =>
  childrenOf(plot, 'ser').map((series) => child(child(child(series, 'val'), 'numRef'), 'f')?.text ?? '');
