import type { WorkbookData } from '@odoo/o-spreadsheet';
import { expect, test } from '@jest/globals';
import { calculatedFile } from '../../../sample-workbooks/calculated';
import { chartsOf } from '../../../src/hosts/engine/charts';
import { chart, column, table, type Chart } from '../../../src/hosts/xlsx/describe';
import { Package } from '../../../src/hosts/xlsx/package';

const days = table(
  'A4',
  'Days',
  [column('Day'), column('A', 'mass'), column('B', 'mass'), column('C', 'mass')],
  [
    ['one', 1, 2, 3],
    ['two', 2, 3, 4],
  ],
);
const series = (letter: string): { title: string; values: string } => ({
  title: letter,
  values: `Days[${letter}]`,
});

/** The styles of the series a chart is given when a file with it is read. */
async function stylesOf(
  type: Chart['type'],
  rest: Partial<Chart>,
  ranges: readonly string[],
): Promise<unknown[]> {
  const drawn = chart('F4:L20', type, 'Picks', {
    says: 'Picks of each day.',
    across: 'Days[Day]',
    series: [series('A')],
    ...rest,
  });
  const bytes = await calculatedFile({
    file: 'trial',
    title: 'Trial',
    sheets: [{ name: 'Shed', title: 'Shed', notes: [], things: [days, drawn] }],
  });
  const file = Package.open(bytes);
  const names = ['xl/charts/chart1.xml', 'xl/drawings/drawing1.xml', 'xl/drawings/_rels/drawing1.xml.rels'];
  const parts = Object.fromEntries(names.map((name) => [name, file.text(name)]));
  const dataSets = ranges.map((dataRange, at) => ({ dataSetId: String(at), dataRange }));
  type Figures = WorkbookData['sheets'][number]['figures'];
  const figures = [{ tag: 'chart', data: { type: 'combo', dataSource: { dataSets } } }] as unknown as Figures;
  const [figure] = chartsOf(figures, parts);
  return Object.values((figure!.data as unknown as { dataSetStyles: Record<string, unknown> }).dataSetStyles);
}

test('columns stand on top of each other under a limit of steps, and the first series carries the words', async () => {
  const rest = { series: [series('A'), series('B')], limits: [series('C')] };
  expect(await stylesOf('stacked', rest, ['Shed!B5:B6', 'Shed!C5:C6', 'Shed!D5:D6'])).toEqual([
    { type: 'bar', look: { stacked: true }, says: 'Picks of each day.' },
    { type: 'bar', look: { stacked: true } },
    { type: 'line', look: { line: 'steps', width: 1.5 } },
  ]);
});

test('a limit over a line is dashed, the centre is not, and stems mark points', async () => {
  const rest = {
    centre: series('B'),
    limits: [series('C')],
    whiskers: { down: 'Days[B]', up: 'Days[C]', mark: true },
  };
  const whiskers = { down: 'Shed!$C$5:$C$6', up: 'Shed!$D$5:$D$6', ends: false };
  expect(await stylesOf('line', rest, ['Shed!B5:B6', 'Shed!C5:C6', 'Shed!D5:D6'])).toEqual([
    { look: { width: 2.25, dots: true, whiskers }, says: 'Picks of each day.' },
    { look: { width: 1 } },
    { look: { line: 'dashed', width: 1.75 } },
  ]);
});

test('dots have no line, and whiskers with ends', async () => {
  const whiskers = { down: 'Shed!$C$5:$C$6', up: 'Shed!$D$5:$D$6', ends: true };
  const rest = { whiskers: { down: 'Days[B]', up: 'Days[C]' } };
  expect(await stylesOf('dots', rest, ['Shed!B5:B6'])).toEqual([
    { look: { line: 'none', width: 1.5, dots: true, whiskers }, says: 'Picks of each day.' },
  ]);
});
