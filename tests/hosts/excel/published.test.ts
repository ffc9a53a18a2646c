import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from '@jest/globals';
import Ajv, { type ValidateFunction } from 'ajv';
import { metadataOf } from '../../../src/hosts/excel/metadata';
import { described } from '../../../src/worksheet/described';

// The vendor's published schemas, unchanged: github.com/microsoft/json-schemas, commit f891f5b (August 2026), MIT.
// `customFunctions` is the one that functions.json may name; it is older than the vendor's own documentation.
// `unifiedManifest-1.25` is the first version of the manifest in JSON that describes functions with their choices.

const ROOT = join(__dirname, '../../..');
const read = (...path: string[]): string => readFileSync(join(ROOT, ...path), 'utf8');
/** The validator knows no `\p{L}`, any letter: names of ours are of the English ones. */
const schemaOf = (name: string): object =>
  JSON.parse(
    read('tests/reference/vendor', `${name}.schema.json`).replaceAll('\\\\p{L}', 'A-Za-z'),
  ) as object;

let validator: Ajv.Ajv;
beforeAll(() => {
  // The schema of functions has an empty list where its own language, draft 4, wants an entry: taken as it is meant.
  const older = { schemaId: 'id', meta: false, validateSchema: false, logger: false } as const;
  validator = new Ajv({ ...older, allErrors: true });
  validator.addSchema(schemaOf('customFunctions'), 'functions');
  validator.addSchema(schemaOf('unifiedManifest-1.25'), 'manifest');
});

/** What a schema says against something, in short. */
function objections(schema: string, given: unknown): string[] {
  const validate = validator.getSchema(schema) as ValidateFunction;
  void validate(given);
  return (validate.errors ?? []).map(({ dataPath, message, params }) =>
    [dataPath, message, (params as { additionalProperty?: string }).additionalProperty].join(' ').trim(),
  );
}

const URL_OF_BUILD = 'https://farm.example/pinset/';
const plain = <T>(given: T): T => JSON.parse(JSON.stringify(given)) as T;
const metadata = plain(metadataOf(described, URL_OF_BUILD));

describe('functions.json keeps to the vendor’s published schema', () => {
  /** Properties of the vendor's page "Manually create JSON metadata" (October 2025) that its schema does not know yet. */
  const DOCUMENTED_SINCE = [
    'allowCustomDataForDataTypeAny',
    'allowErrorForDataTypeAny',
    'customEnumId',
    'enums',
  ];

  test('and goes beyond it by properties only that the vendor has documented since', () => {
    const beyond = objections('functions', metadata).map((words) => words.split(' ').at(-1)!);
    expect([...new Set(beyond)].sort()).toEqual(DOCUMENTED_SINCE);
  });

  test('without those nothing is said against it', () => {
    const older = JSON.parse(JSON.stringify(metadata), (key, value: unknown) =>
      DOCUMENTED_SINCE.includes(key) ? undefined : value,
    ) as object;
    expect(objections('functions', older)).toEqual([]);
  });

  test('a function without an id, or of a type that Excel lacks, would be refused', () => {
    const nameless = plain(metadata.functions[0]!) as { id?: string };
    delete nameless.id;
    expect(objections('functions', { functions: [nameless] })).toEqual([
      ".functions[0] should have required property 'id'",
    ]);
    const dated = plain(metadata.functions[0]!) as unknown as { parameters: { type: string }[] };
    dated.parameters[0]!.type = 'date';
    expect(objections('functions', { functions: [dated] })).toContain(
      '.functions[0].parameters[0].type should be equal to one of the allowed values',
    );
  });

  test('functions, parameters and choices keep to the newer schema of the manifest in JSON too', () => {
    const { functions, enums } = metadata;
    const inManifest = (functionsGiven: unknown): string[] =>
      objections('manifest#/definitions/extensionCustomFunctions', { functions: functionsGiven, enums });
    expect(inManifest(functions)).toEqual([]);
    const [first, ...others] = functions;
    expect(inManifest([{ ...first, description: 'x'.repeat(129) }, ...others])).toEqual([
      '.functions[0].description should NOT be longer than 128 characters',
    ]);
  });
});

type Transform = (content: Buffer, path: string) => string;
interface CopyPattern {
  readonly from: string;
  readonly transform?: Transform;
}
const configure = createRequire(__filename)('../../../webpack.config.js') as (
  env: { url?: string; unified?: boolean },
  argv: { mode: string },
) => { plugins: { patterns?: CopyPattern[] }[] };

interface Manifest {
  readonly id: string;
  readonly version: string;
  readonly name: { readonly short: string };
  readonly validDomains: readonly string[];
  readonly extensions: readonly [
    {
      readonly requirements: { readonly capabilities: readonly { name: string; minVersion: string }[] };
      readonly runtimes: readonly [{ readonly customFunctions: { readonly namespace: unknown } }];
    },
  ];
}
const patternsOf = (unified: boolean, url?: string, mode = 'production'): CopyPattern[] =>
  configure({ ...(url === undefined ? {} : { url }), ...(unified && { unified }) }, { mode }).plugins.flatMap(
    ({ patterns }) => patterns ?? [],
  );
const manifestOf = (url?: string, mode?: string): Manifest => {
  const { transform } = patternsOf(true, url, mode).find(({ from }) => from.endsWith('unified'))!;
  const source = Buffer.from(read('src/hosts/excel/unified/manifest.json'));
  return JSON.parse(transform!(source, 'manifest.json')) as Manifest;
};
const addressesIn = (text: string): string[] =>
  [...new Set(text.match(/https:\/\/localhost:3000\/[^"]+/g))].sort();

describe('the manifest in JSON, a second output of the build', () => {
  const xml = read('manifest.xml');

  test('is written where it is asked for only', () => {
    expect(patternsOf(false).filter(({ from }) => from.includes('unified'))).toEqual([]);
    expect(patternsOf(true).filter(({ from }) => from.includes('unified'))).toHaveLength(1);
  });

  test.each([
    ['production', undefined],
    ['production', URL_OF_BUILD],
    ['development', undefined],
  ])('keeps to the vendor’s schema: %s at %s', (mode, url) => {
    expect(objections('manifest', manifestOf(url, mode))).toEqual([]);
  });

  test('would be refused with an address that is not safe, or a name too long', () => {
    const manifest = manifestOf() as unknown as { name: { short: string } };
    expect(objections('manifest', { ...manifest, name: { short: 'x'.repeat(31) } })).toEqual([
      '.name.short should NOT be longer than 30 characters',
    ]);
    expect(
      objections(
        'manifest',
        JSON.parse(JSON.stringify(manifest).replace('https://localhost:3000/taskpane', 'ftp://x/')),
      ),
    ).toEqual([expect.stringContaining('code.page should match pattern')]);
  });

  // Two add-ins with one Id, or one namespace twice, end in #REF! (the vendor's documents; its tracker, 4559).
  test('has an Id of its own, and asks, names and loads what manifest.xml does', () => {
    const manifest = manifestOf();
    expect(xml).not.toContain(manifest.id);
    expect(`${manifest.version}.0`).toBe(/<Version>(.*)<\/Version>/.exec(xml)![1]);
    const [{ requirements, runtimes }] = manifest.extensions;
    expect(requirements.capabilities.map(({ name, minVersion }) => [name, minVersion])).toEqual(
      [...xml.matchAll(/<Set Name="(\w+)" MinVersion="([\d.]+)"/g)].map(([, set, version]) => [set, version]),
    );
    expect(runtimes[0].customFunctions.namespace).toEqual({ id: 'PINSET', name: 'PINSET' });
    const pages = ['privacy', 'terms'].map((page) => `https://localhost:3000/${page}.html`);
    // An icon of this size is one for the list of add-ins, which the app package brings as a file.
    const listed = 'https://localhost:3000/icons/icon-64.png';
    expect(addressesIn(JSON.stringify(manifest))).toEqual(
      [...addressesIn(xml).filter((address) => address !== listed), ...pages].sort(),
    );
  });

  test('points at where it is told, its server named alone, and a build for development is another add-in', () => {
    const there = manifestOf(URL_OF_BUILD);
    expect(JSON.stringify(there)).not.toContain('localhost');
    expect(there.validDomains).toEqual(['farm.example']);
    const development = manifestOf(undefined, 'development');
    expect(development.id).not.toBe(there.id);
    expect(development.name.short).toBe('Pinset (development)');
    expect(development.extensions[0].runtimes[0].customFunctions.namespace).toEqual({
      id: 'PINSETDEV',
      name: 'PINSETDEV',
    });
  });

  // The schema's own words: the colour icon 192 × 192, the outline 32 × 32.
  test.each([
    ['color', 192],
    ['outline', 32],
  ])('comes with a %s icon of %i pixels', (name, size) => {
    const png = readFileSync(join(ROOT, 'src/hosts/excel/unified', `${name}.png`));
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
  });
});
