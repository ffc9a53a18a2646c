import { expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { cellError } from '../../src/worksheet/cells/cell';
import { plainValues } from '../../src/worksheet/examples';

test('CLIMATEPLAN: a room that is loaded after the day asked for faults in its own row only', () => {
  const plan = catalogue.find(({ name }) => name === 'CLIMATEPLAN')!;
  const programme = [
    ['day', 'temperature'],
    [0, 18],
    [4, 16],
  ];
  const rows = plainValues(plan.evaluate([[[46006], [null], [46020]], [[46008]], programme]));
  const fault = cellError('#VALUE!', 'on: 0 or more days since load needed, got -12 (row 3)');
  expect(rows).toEqual([
    ['day', 'temperature'],
    [2, 17],
    ['', ''],
    [fault, fault],
  ]);
});
