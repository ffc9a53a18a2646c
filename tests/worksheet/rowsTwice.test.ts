import { beforeAll, expect, test } from '@jest/globals';
import { isCellError, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { BLOCKCOST } from '../../src/worksheet/cost/blockCost';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { SPAWNCHAIN } from '../../src/worksheet/lineage/spawnChain';
import { BACKPLAN } from '../../src/worksheet/loading/backPlan';
import { SHELFUSE } from '../../src/worksheet/loading/shelfUse';
import { CHEAPESTMIX } from '../../src/worksheet/substrate/cheapestMix';
import { evaluate, prepared } from './prepared';

// A row twice is one fault, in the same words whatever the order of the rows: it would count twice in silence.

beforeAll(() => Promise.all([CHEAPESTMIX, BACKPLAN, SHELFUSE].map(prepared)));

const DUE = 46146; // 2026-05-04
const ingredients: Grid = [
  ['ingredient', 'cost', 'moisture', 'nitrogen'],
  ['straw', 0.1, 0.1, 0.005],
  ['bran', 0.4, 0.1, 0.025],
];
const needs: Grid = [
  ['need', 'lowest'],
  ['nitrogen', 0.01],
  ['moisture', 0.05],
];
const costs: Grid = [
  ['item', 'amount', 'per'],
  ['bags', 0.4, 'block'],
  ['labour', 60, 'batch'],
];
const chain: Grid = [
  ['step', 'makes', 'days'],
  ['plate', 8, 10],
  ['block', null, 21],
];
const rooms: Grid = [
  ['room', 'shelves', 'blocks per shelf'],
  ['East', 5, 12],
  ['West', 5, 12],
];
const strains: Grid = [
  ['strain', 'best', 'first pick', 'pick days', 'efficiency', 'block mass', 'moisture'],
  ['Elm-2', 30, 6, 2, 0.8, 2, 0.6],
];
const orders: Grid = [
  ['product', 'mass', 'due'],
  ['Elm-2', 20, DUE],
];
const loads: Grid = [
  ['loaded', 'strain', 'blocks', 'room'],
  [DUE, 'Elm-2', 30, 'East'],
];

const calls: [WorksheetFunction, Grid, (twice: Grid) => (Grid | null)[], string][] = [
  [CHEAPESTMIX, ingredients, (twice) => [twice, needs], 'ingredient in ingredients: "straw"'],
  [CHEAPESTMIX, needs, (twice) => [ingredients, twice], 'need in needs: "nitrogen"'],
  [BLOCKCOST, costs, (twice) => [twice, [[50]]], 'item in costs: "bags"'],
  [SPAWNCHAIN, chain, (twice) => [[[90]], [[DUE]], twice], 'step in steps: "plate"'],
  [BACKPLAN, chain, (twice) => [orders, strains, twice], 'step in steps: "plate"'],
  [SHELFUSE, rooms, (twice) => [loads, twice, strains], 'room in rooms: "East"'],
];

test.each(calls.map(([f, ...rest]) => [f.name, rest[2], f, ...rest] as const))(
  '%s: %s',
  (...[, , f, table, call, says]) => {
    const [head, first, second] = table as [Cell[], Cell[], Cell[]];
    expect(evaluate(f, call(table)).rows.flat().filter(isCellError)).toEqual([]);
    for (const rows of [
      [first, first, second],
      [first, second, first],
      [second, first, first],
    ]) {
      const [error] = evaluate(f, call([head, ...rows]))
        .rows.flat()
        .filter(isCellError);
      expect(error!.reason).toMatch(
        new RegExp(`^${says} must be in one row of \\w+; it is in rows \\d and \\d`),
      );
    }
  },
);
