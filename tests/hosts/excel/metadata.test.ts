import { describe, expect, test } from '@jest/globals';
import { registries } from '@odoo/o-spreadsheet';
import { metadataOf } from '../../../src/hosts/excel/metadata';
import { described } from '../../../src/worksheet/described';
import { column, optionalSetting, optionalTable, table } from '../../../src/worksheet/cells/arguments';
import { choice, count, mass } from '../../../src/worksheet/cells/kinds';
import { isCellError, type Block } from '../../../src/worksheet/cells/cell';
import { required } from '../../../src/worksheet/cells/columns';
import { amount, value } from '../../../src/worksheet/cells/results';
import { defineFunction } from '../../../src/worksheet/define';
import { exampleGrid } from '../../../src/worksheet/examples';
import { evaluate, prepared } from '../../worksheet/prepared';
import { RELEASED_NAMES } from '../../reference/releasedNames';

// The rules of the vendor's page "Manually create JSON metadata for custom functions" (October 2025) and of its
// generator's specification for enums; its published JSON schema is older than both.

const URL = 'https://farm.example/pinset/';
const metadata = metadataOf(described, URL);
const byName = described.map((definition) => [definition.name, definition] as const);

/** Functions of a spreadsheet engine, of which Excel's are the larger part, and later ones of Excel. */
const BUILT_IN: ReadonlySet<string> = new Set([
  ...registries.functionRegistry.getKeys(),
  // From memory, unverified: Excel's functions that the engine above lacks and that are letters only.
  ...['AGGREGATE', 'BYCOL', 'BYROW', 'CALL', 'CELL', 'CUBEVALUE', 'EUROCONVERT', 'FIELDVALUE', 'FILTERXML'],
  ...['GROUPBY', 'INFO', 'ISOMITTED', 'LAMBDA', 'LET', 'LINEST', 'LOGEST', 'MAKEARRAY', 'MAP', 'PHONETIC'],
  ...['PIVOTBY', 'REDUCE', 'RTD', 'SCAN', 'STOCKHISTORY', 'TEXTSPLIT', 'TRANSLATE', 'WEBSERVICE', 'XMATCH'],
]);

describe('functions.json', () => {
  test('lets error cells and data types through to the functions', () => {
    expect(metadata.allowErrorForDataTypeAny).toBe(true);
    expect(metadata.allowCustomDataForDataTypeAny).toBe(true);
  });

  test('holds every function of the catalogue once, id and name the same', () => {
    expect(metadata.functions.map(({ id }) => id)).toEqual(described.map(({ name }) => name));
    expect(metadata.functions.map(({ name }) => name)).toEqual(described.map(({ name }) => name));
    expect(new Set(metadata.functions.map(({ id }) => id.toUpperCase())).size).toBe(described.length);
  });

  test.each(metadata.functions.map((entry) => [entry.name, entry] as const))(
    '%s is described as Excel wants it',
    (name, entry) => {
      expect(entry.description.length).toBeLessThanOrEqual(120);
      expect(entry.helpUrl).toBe(`https://farm.example/pinset/guide.html#${name}`);
      expect(entry.result).toEqual({ type: 'any', dimensionality: 'matrix' });
      const solves = described.find((f) => f.name === name)!.takesLong;
      expect(entry.options).toEqual(solves ? { cancelable: true } : undefined);
      const names = entry.parameters.map((parameter) => parameter.name);
      expect(new Set(names).size).toBe(names.length);
      for (const parameter of entry.parameters) {
        expect(parameter).toMatchObject({ type: 'any', dimensionality: 'matrix' });
        expect(parameter.name).toMatch(/^[A-Za-z][A-Za-z0-9 -]{0,63}$/);
        expect(parameter.description).not.toMatch(/\n/);
      }
    },
  );

  test('marks what may be left out, and offers the words of a choice', () => {
    const definition = defineFunction({
      name: 'SAMPLE',
      family: 'harvest',
      arguments: [
        column('mass', mass(), 'a mass'),
        table('lots', { blocks: required(count(), 'blocks') }, 'a table'),
        optionalSetting(
          'point',
          choice({ early: 'too soon', 'best of all': 'in time' }),
          'early',
          'a choice',
        ),
        optionalSetting(
          'other point',
          choice({ early: 'too soon', 'best of all': 'in time' }),
          'early',
          'the same choice',
        ),
        optionalTable('calendar', { blocks: required(count(), 'blocks') }, 'a table that may be left out'),
      ],
      result: value('nothing', amount()),
      whole: () => 0,
    });
    const { functions, enums } = metadataOf([{ ...described[0]!, ...definition }], URL);
    expect(
      functions[0]!.parameters.map(({ name, optional, customEnumId }) => [name, optional, customEnumId]),
    ).toEqual([
      ['mass', undefined, undefined],
      ['lots', undefined, undefined],
      ['point', true, 'choice_early_bestofall'],
      ['other point', true, 'choice_early_bestofall'],
      ['calendar', true, undefined],
    ]);
    expect(enums).toEqual([
      {
        id: 'choice_early_bestofall',
        type: 'string',
        values: [
          { name: 'early', stringValue: 'early', tooltip: 'too soon' },
          { name: 'best of all', stringValue: 'best of all', tooltip: 'in time' },
        ],
      },
    ]);
  });

  test('defines every list of choices it refers to, under an id Excel takes', () => {
    const referred = metadata.functions.flatMap(({ parameters }) =>
      parameters.flatMap(({ customEnumId }) => customEnumId ?? []),
    );
    expect(new Set(metadata.enums.map(({ id }) => id))).toEqual(new Set(referred));
    for (const { id, values } of metadata.enums) {
      expect(id).toMatch(/^[A-Za-z][A-Za-z0-9_.]{0,127}$/);
      expect(values.length).toBeGreaterThan(1);
      for (const { tooltip } of values) expect(tooltip).toMatch(/^.{3,256}$/);
    }
  });
});

describe('names of functions', () => {
  test.each(byName)('%s can be a function of Excel', (name) => {
    expect(name).toMatch(/^[A-Z]{3,}$/);
    expect(name).not.toMatch(/^[A-Z]{1,3}[0-9]+$|^R[0-9]*(C[0-9]*)?$|^C[0-9]*$/);
    expect([...BUILT_IN]).not.toContain(name);
  });

  test('once released are never dropped, renamed or listed twice', () => {
    expect(RELEASED_NAMES).toEqual([...new Set(RELEASED_NAMES)].sort());
    expect(described.map(({ name }) => name)).toEqual(expect.arrayContaining([...RELEASED_NAMES]));
  });
});

describe('a function without needsDateSystem: true answers alike whatever a workbook counts from', () => {
  /** Reasons may name a day; the host tells them by the system it knows. */
  const withoutReasons = ({ rows, formats }: Block): unknown => ({
    rows: rows.map((row) => row.map((cell) => (isCellError(cell) ? cell.code : cell))),
    formats,
  });

  test.each(byName.filter(([, { needsDateSystem }]) => needsDateSystem === undefined))(
    '%s gives the same in 1900 and 1904 workbooks',
    async (_name, definition) => {
      await prepared(definition);
      for (const { arguments: given } of [...definition.examples, ...definition.faults]) {
        const grids = given.map(exampleGrid);
        expect(withoutReasons(evaluate(definition, grids, 1904))).toEqual(
          withoutReasons(evaluate(definition, grids, 1900)),
        );
      }
    },
  );
});
