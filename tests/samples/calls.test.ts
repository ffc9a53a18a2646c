import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { workbooks } from '../../sample-workbooks/workbooks';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { catalogue } from '../../src/worksheet/catalogue';

const called = new Set(
  workbooks
    .map(
      ({ file }) => new Uint8Array(readFileSync(join(__dirname, '../../sample-workbooks', `${file}.xlsx`))),
    )
    .flatMap((bytes) => readWorkbook(bytes).sheets)
    .flatMap(({ cells }) => cells.map(({ formula }) => formula ?? ''))
    .flatMap((formula) => [...formula.matchAll(/PINSET\.([A-Z]+)\(/g)].map((match) => match[1]!)),
);

test.each(catalogue.map(({ name, family }) => [name, family] as const))(
  '%s is at work in a sample workbook (add it to a sheet of sample-workbooks, then npm run samples)',
  (name) => {
    expect([...called]).toContain(name);
  },
);
