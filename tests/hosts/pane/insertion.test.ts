import { describe, expect, test } from '@jest/globals';
import { described } from '../../../src/worksheet/described';
import { exampleGrid } from '../../../src/worksheet/examples';
import { emptyCall, exampleBlock } from '../../../src/hosts/pane/insertion';
import { areaOf, rangeOf } from '../../../src/hosts/xlsx/address';

test('an empty call names what it needs, and not what may be left out', () => {
  const f = described.find(({ name }) => name === 'BLOCKSFOR')!;
  expect(emptyCall(f).cells).toEqual([
    [{ value: null, formula: '=PINSET.BLOCKSFOR("mass","block mass","moisture","efficiency")' }],
  ]);
});

describe.each(described.map((f) => [f.name, f] as const))('the example of %s in a sheet', (name, f) => {
  test('is a rectangle whose last row is the call on the cells above', () => {
    const given = f.examples[0]!.arguments.map(exampleGrid);
    const { cells: block } = exampleBlock(f, given, 'C5');
    expect(new Set(block.map((row) => row.length)).size).toBe(1);
    const [call] = block.at(-1)!;
    const { formula = '' } = call!;
    const references = formula.slice(`=PINSET.${name}(`.length, -1).split(',');
    references.forEach((reference, at) => {
      const { top, left, bottom, right } = areaOf(reference)!;
      const cells = block.slice(top - 4, bottom - 3).map((row) => row.slice(left - 2, right - 1));
      expect(cells.map((row) => row.map(({ value }) => value))).toEqual(given[at]);
    });
  });
});

const listsOf = (name: string): Record<string, unknown> => {
  const f = described.find((one) => one.name === name)!;
  const { lists } = exampleBlock(f, f.examples[0]!.arguments.map(exampleGrid), 'A1');
  return Object.fromEntries(lists.map(({ area, choices }) => [rangeOf(area), choices]));
};

describe('an example in a sheet offers lists', () => {
  test('of the strains that its own table has, for a column of strains', () => {
    const f = described.find(({ name }) => name === 'READYDATE')!;
    const [inoculated, strain, strains] = f.examples[0]!.arguments.map(exampleGrid);
    // A title, then each argument under its name: dates, strains, and the table with its headers.
    const first = 3 + inoculated!.length + 1;
    const table = first + strain!.length + 2;
    expect(listsOf('READYDATE')).toEqual({
      [first === first + strain!.length - 1 ? `A${first}` : `A${first}:A${first + strain!.length - 1}`]:
        `A${table}${strains!.length > 2 ? `:A${table + strains!.length - 2}` : ''}`,
    });
  });

  test('of the lots that were made, for the lots of the picks, and not the other way round', () => {
    const f = described.find(({ name }) => name === 'CROPTABLE')!;
    const [harvests, lots] = f.examples[0]!.arguments.map(exampleGrid);
    const firstLot = 3 + harvests!.length + 2;
    expect(listsOf('CROPTABLE')).toEqual({
      [`A4:A${2 + harvests!.length}`]: `A${firstLot}:A${firstLot + lots!.length - 2}`,
    });
  });

  test('of the words that a column takes', () => {
    const f = described.find(({ name }) => name === 'BLOCKCOST')!;
    const { columns } = f.arguments[0] as Extract<(typeof f.arguments)[number], { shape: 'table' }>;
    const costs = exampleGrid(f.examples[0]!.arguments[0]!);
    expect(listsOf('BLOCKCOST')).toEqual({
      [`C4:C${2 + costs.length}`]: Object.keys(columns['per']!.kind.choices!),
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
    return lists.flatMap(({ area: { top, left, bottom }, choices }) => {
      if (typeof choices === 'string') return [];
      const held = cells.slice(top, bottom + 1).map((row) => row[left]!.value);
      return [{ words: choices, held: held.filter((value) => typeof value === 'string') }];
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
