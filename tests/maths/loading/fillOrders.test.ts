import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { fillOrders } from '../../../src/maths/loading/fillOrders';
import { loadHighs } from '../../../src/maths/shared/highs';
import { LinearProgramBuilder, type LinearSolver } from '../../../src/maths/shared/linearProgram';

const cases = fc.nat(5).chain((more) =>
  fc.record({
    orders: fc.array(
      fc.record({ mass: fc.integer({ min: 0, max: 20 }), price: fc.integer({ min: 1, max: 4 }) }),
      {
        minLength: more + 1,
        maxLength: more + 1,
      },
    ),
    supplies: fc.array(
      fc.record({
        mass: fc.integer({ min: 0, max: 20 }),
        orders: fc.uniqueArray(fc.nat(more)),
      }),
      { maxLength: 6 },
    ),
  }),
);

let solver: LinearSolver;
beforeAll(async () => {
  solver = await loadHighs();
});

describe('fillOrders(orders, supplies) fills the most value there can be', () => {
  test('an order gives up what only another can use instead', () => {
    const orders = [
      { mass: 5, price: 2 },
      { mass: 5, price: 1 },
    ];
    const supplies = [
      { mass: 5, orders: [0, 1] },
      { mass: 5, orders: [0] },
    ];
    expect(fillOrders(orders, supplies)).toEqual({
      filled: [5, 5],
      left: [0, 0],
      given: [
        new Map([
          [0, 0],
          [1, 5],
        ]),
        new Map([[0, 5]]),
      ],
    });
  });

  test('the dearer order is filled first, the earlier where prices are equal', () => {
    const one = [{ mass: 4, orders: [0, 1] }];
    expect(
      fillOrders(
        [
          { mass: 3, price: 1 },
          { mass: 3, price: 2 },
        ],
        one,
      ).filled,
    ).toEqual([1, 3]);
    expect(
      fillOrders(
        [
          { mass: 3, price: 1 },
          { mass: 3, price: 1 },
        ],
        one,
      ).filled,
    ).toEqual([3, 1]);
  });

  test('its value is the optimum of the transport programme', () => {
    fc.assert(
      fc.property(cases, ({ orders, supplies }) => {
        const builder = new LinearProgramBuilder();
        const orderRows = orders.map(({ mass }) => builder.addRow(-Infinity, mass));
        for (const { mass, orders: takes } of supplies) {
          const supply = builder.addRow(-Infinity, mass);
          takes.forEach((o) =>
            builder.addColumn(-orders[o]!.price, [
              [supply, 1],
              [orderRows[o]!, 1],
            ]),
          );
        }
        builder.addColumn(0, []);
        const solution = solver.solve(builder.build());
        const { filled, left } = fillOrders(orders, supplies);
        const value = filled.reduce((sum, mass, o) => sum + mass * orders[o]!.price, 0);
        expect(solution.status === 'optimal' && -solution.cost).toBeCloseTo(value, 6);
        const given = supplies.reduce((sum, { mass }, s) => sum + mass - left[s]!, 0);
        expect(given).toBeCloseTo(
          filled.reduce((sum, mass) => sum + mass, 0),
          9,
        );
        filled.forEach((mass, o) => expect(mass).toBeLessThanOrEqual(orders[o]!.mass + 1e-9));
        left.forEach((mass) => expect(mass).toBeGreaterThanOrEqual(-1e-9));
      }),
    );
  });
});
