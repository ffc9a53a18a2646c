import { describe, expect, test } from '@jest/globals';
import { described } from '../../../src/worksheet/described';
import { exampleGrid } from '../../../src/worksheet/examples';
import { emptyCall, exampleBlock } from '../../../src/hosts/pane/insertion';
import { freeName, layOut, withTableRenamed } from '../../../src/hosts/pane/layout';
import { STARTERS } from '../../../src/hosts/pane/starters';
import { areaOf, type Area } from '../../../src/hosts/xlsx/address';

const overlap = (a: Area, b: Area): boolean =>
  a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;

describe.each(STARTERS.map((plan) => [plan.name, plan] as const))('the starter sheet %s', (_name, plan) => {
  const layout = layOut(plan);

  test('writes no cell twice, and its table covers its headers and rows', () => {
    const areas = layout.writes.map(({ address, cells }) => {
      const { top, left } = areaOf(address)!;
      return { top, left, bottom: top + cells.length - 1, right: left + cells[0]!.length - 1 };
    });
    areas.forEach((a, i) => areas.slice(i + 1).forEach((b) => expect(overlap(a, b)).toBe(false)));
    const table = areaOf(layout.table.range)!;
    expect([table.bottom - table.top, table.right - table.left + 1]).toEqual([
      plan.table.rows.length,
      plan.table.columns.length,
    ]);
  });

  test('has rows as wide as its headers, and calls only functions there are', () => {
    for (const row of plan.table.rows) expect(row).toHaveLength(plan.table.columns.length);
    for (const { formula } of plan.formulas) {
      expect(described.map(({ name }) => name)).toContain(/PINSET\.([A-Z]+)/.exec(formula)?.[1]);
    }
  });
});

test('a table that is there already gets a name of its own, in the calls too', () => {
  const lots = STARTERS.find(({ name }) => name === 'Lots')!;
  const name = freeName('Lots', ['lots', 'LOTS2', 'Strains']);
  const layout = layOut(lots, name);
  const formulas = layout.writes
    .flatMap(({ cells }) => cells.flat())
    .flatMap((cell) => ('formula' in cell ? [cell.formula] : []));
  expect(name).toBe('Lots3');
  expect(formulas).toEqual(['=PINSET.READYWINDOW(Lots3[inoculated],Lots3[strain],Strains[#All])']);
});

test('renaming a table touches references to it only', () => {
  expect(withTableRenamed('=F("Lots[x]",Lots[x],LotsB[x],Lots!A1)', 'Lots', 'Lots2')).toBe(
    '=F("Lots[x]",Lots2[x],LotsB[x],Lots!A1)',
  );
});

test('the chart of picks has its limit typed once', () => {
  const layout = layOut(STARTERS.find(({ name }) => name === 'Loads')!);
  expect(layout.chart).toMatchObject({
    days: 'K5:K32',
    columns: { values: 'L5:L32' },
    line: { values: 'M5:M32' },
  });
  const limit = layout.writes.at(-1)!.cells.map(([cell]) => cell);
  expect(limit.slice(0, 3)).toEqual([{ constant: 'limit' }, { constant: 12 }, { formula: '=$M$5' }]);
});

test('an empty call names what it needs, and not what may be left out', () => {
  const f = described.find(({ name }) => name === 'BLOCKSFOR')!;
  expect(emptyCall(f).cells).toEqual([
    [{ formula: '=PINSET.BLOCKSFOR("mass","block mass","moisture","efficiency")' }],
  ]);
});

describe.each(described.map((f) => [f.name, f] as const))('the example of %s in a sheet', (name, f) => {
  test('is a rectangle whose last row is the call on the cells above', () => {
    const given = f.examples[0]!.arguments.map(exampleGrid);
    const { cells: block } = exampleBlock(f, given, 'C5');
    expect(new Set(block.map((row) => row.length)).size).toBe(1);
    const [call] = block.at(-1)!;
    const formula = call && 'formula' in call ? call.formula : '';
    const references = formula.slice(`=PINSET.${name}(`.length, -1).split(',');
    references.forEach((reference, at) => {
      const { top, left, bottom, right } = areaOf(reference)!;
      const cells = block.slice(top - 4, bottom - 3).map((row) => row.slice(left - 2, right - 1));
      expect(cells.map((row) => row.map((cell) => ('constant' in cell ? cell.constant : undefined)))).toEqual(
        given[at],
      );
    });
  });
});

const listsOf = (name: string): Record<string, unknown> => {
  const f = described.find((one) => one.name === name)!;
  const { lists } = exampleBlock(f, f.examples[0]!.arguments.map(exampleGrid), 'A1');
  return Object.fromEntries(lists.map(({ range, from }) => [range, from]));
};

describe('an example in a sheet offers lists', () => {
  test('of the strains that its own table has, for a column of strains', () => {
    const f = described.find(({ name }) => name === 'READYDATE')!;
    const [inoculated, strain, strains] = f.examples[0]!.arguments.map(exampleGrid);
    // A title, then each argument under its name: dates, strains, and the table with its headers.
    const first = 3 + inoculated!.length + 1;
    const table = first + strain!.length + 2;
    expect(listsOf('READYDATE')).toEqual({
      [first === first + strain!.length - 1 ? `A${first}` : `A${first}:A${first + strain!.length - 1}`]: {
        cells: `A${table}${strains!.length > 2 ? `:A${table + strains!.length - 2}` : ''}`,
      },
    });
  });

  test('of the lots that were made, for the lots of the picks, and not the other way round', () => {
    const f = described.find(({ name }) => name === 'CROPTABLE')!;
    const [harvests, lots] = f.examples[0]!.arguments.map(exampleGrid);
    const firstLot = 3 + harvests!.length + 2;
    expect(listsOf('CROPTABLE')).toEqual({
      [`A4:A${2 + harvests!.length}`]: { cells: `A${firstLot}:A${firstLot + lots!.length - 2}` },
    });
  });

  test('of the words that a column takes', () => {
    const f = described.find(({ name }) => name === 'BLOCKCOST')!;
    const { columns } = f.arguments[0] as Extract<(typeof f.arguments)[number], { shape: 'table' }>;
    const costs = exampleGrid(f.examples[0]!.arguments[0]!);
    expect(listsOf('BLOCKCOST')).toEqual({
      [`C4:C${2 + costs.length}`]: { words: Object.keys(columns['per']!.kind.choices!) },
    });
  });
});

interface Offered {
  readonly words: readonly string[];
  readonly held: readonly string[];
}

const offered = described.flatMap((f) =>
  f.examples.flatMap((example): Offered[] => {
    const { cells, lists } = exampleBlock(f, example.arguments.map(exampleGrid), 'A1');
    return lists.flatMap(({ range, from }) => {
      if (!('words' in from)) return [];
      const { top, left, bottom } = areaOf(range)!;
      const constants = cells.slice(top, bottom + 1).map((row) => row[left]!);
      const held = constants.flatMap((cell) =>
        'constant' in cell && typeof cell.constant === 'string' ? [cell.constant] : [],
      );
      return [{ words: from.words, held }];
    });
  }),
);

test('the words that examples offer hold what their cells hold, and fit into a rule of a sheet', () => {
  expect(offered.length).toBeGreaterThan(5);
  for (const { words, held } of offered) {
    const known = words.map((word) => word.toLowerCase());
    expect(held.filter((word) => !known.includes(word.toLowerCase()))).toEqual([]);
    expect(words.filter((word) => word.includes(','))).toEqual([]);
    // The most characters that a rule takes.
    expect(words.join(',').length).toBeLessThanOrEqual(255);
  }
});
