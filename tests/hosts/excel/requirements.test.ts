import { createRequire } from 'node:module';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import ts from 'typescript';

// The manifest must ask for what the code cannot do without. The vendor's own type declarations name, in the
// documentation of each member, the requirement set that brought it: `[Api set: ExcelApi 1.2]`.

const configure = createRequire(__filename)('../../../webpack.config.js') as (
  env: { url?: string; namespace?: string },
  argv: { mode: string },
) => { plugins: unknown[] };

const ROOT = join(__dirname, '../../..');
const manifest = readFileSync(join(ROOT, 'manifest.xml'), 'utf8');

const required = new Map(
  [...manifest.matchAll(/<Set Name="(\w+)" MinVersion="([\d.]+)"/g)].map(([, set, version]) => [
    set!,
    version!,
  ]),
);

const sources = readdirSync(join(ROOT, 'src/hosts'), { recursive: true, encoding: 'utf8' })
  .filter((name) => /^(excel|pane)\//.test(name) && name.endsWith('.ts') && !/serve\//.test(name))
  .map((name) => join(ROOT, 'src/hosts', name));

const isAtLeast = (version: string, needed: string): boolean => {
  const [major, minor] = version.split('.').map(Number) as [number, number];
  const [neededMajor, neededMinor] = needed.split('.').map(Number) as [number, number];
  return major > neededMajor || (major === neededMajor && minor >= neededMinor);
};

interface Use {
  readonly what: string;
  readonly set: string;
  readonly version: string;
}

/** What the code uses of Office, and the sets it asks for before it uses what they bring. */
function uses(): { used: Use[]; asked: Use[] } {
  const file = join(ROOT, 'tsconfig.json');
  const config: unknown = ts.readConfigFile(file, (path) => ts.sys.readFile(path)).config;
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, ROOT);
  const program = ts.createProgram(sources, options);
  const checker = program.getTypeChecker();
  const found = new Map<string, Use>();
  const asked: Use[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && node.expression.getText() === 'supports') {
      const [set, version] = node.arguments.map((given) => (ts.isStringLiteral(given) ? given.text : ''));
      asked.push({ what: 'supports', set: set!, version: version! });
    }
    if (ts.isIdentifier(node)) {
      const symbol = checker.getSymbolAtLocation(node);
      for (const declaration of symbol?.declarations ?? []) {
        if (!declaration.getSourceFile().fileName.includes('@types/office-js')) continue;
        const named = /Api set: (\w+) (\d+\.\d+)/.exec(docText(declaration));
        if (named) found.set(node.text, { what: node.text, set: named[1]!, version: named[2]! });
      }
    }
    ts.forEachChild(node, visit);
  };
  for (const file of sources) visit(program.getSourceFile(file)!);
  return { used: [...found.values()], asked };
}

const docText = (declaration: ts.Declaration): string =>
  ts
    .getJSDocCommentsAndTags(declaration)
    .map((doc) => doc.getText())
    .join(' ');

describe('the manifest asks for', () => {
  const { used, asked } = uses();
  const covers = (have: Iterable<readonly [string, string]>, { set, version }: Use): boolean =>
    [...have].some(([name, least]) => name === set && isAtLeast(least, version));

  test('the requirement set of every member of Office that the code uses without asking first', () => {
    expect(used.map(({ what }) => what)).toContain('functions');
    const optional = asked.map(({ set, version }) => [set, version] as const);
    expect(used.filter((use) => !covers(required, use) && !covers(optional, use))).toEqual([]);
  });

  test('no set that the code asks about itself, which would then be no question', () => {
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.filter((use) => covers(required, use))).toEqual([]);
  });

  // The vendor's documents: faults with a message came with 1.2, the further codes (#DIV/0!, #N/A) with 1.3.
  test('functions that can answer with a fault of every code, and a runtime that pane and functions share', () => {
    expect(isAtLeast(required.get('CustomFunctionsRuntime')!, '1.3')).toBe(true);
    expect(required.get('SharedRuntime')).toBe('1.1');
  });
});

describe('the manifest of a build', () => {
  type Transform = (content: Buffer) => string;
  interface CopyPattern {
    readonly from: string;
    readonly transform?: Transform;
  }
  const manifestOf = (url?: string, mode = 'production'): string => {
    const { plugins } = configure(url === undefined ? {} : { url }, { mode });
    const patterns = plugins.flatMap((plugin) => (plugin as { patterns?: CopyPattern[] }).patterns ?? []);
    return patterns.find(({ from }) => from === 'manifest.xml')!.transform!(Buffer.from(manifest));
  };
  const addresses = (xml: string): string[] =>
    [...xml.matchAll(/DefaultValue="(\w+:\/\/[^"]*)"/g)].map(([, address]) => address!);

  test('points at this machine unless told otherwise, and then at nothing but where it is told', () => {
    expect(manifestOf()).toBe(manifest);
    const [here, there] = [addresses(manifest), addresses(manifestOf('https://farm.example.org/pinset'))];
    expect(here.length).toBeGreaterThan(8);
    expect(here.every((address) => address.startsWith('https://localhost:3000/'))).toBe(true);
    expect(there).toEqual(
      here.map((address) => address.replace('https://localhost:3000/', 'https://farm.example.org/pinset/')),
    );
    expect(manifestOf('https://farm.example.org/pinset')).not.toContain('localhost');
  });

  // "The same add-in side-loaded and deployed at once is unsupported" (the vendor's documents; issue 4559).
  test('for development has an Id, names and a namespace of its own, and nothing more', () => {
    const [here, there] = [manifest, manifestOf(undefined, 'development')].map((xml) => xml.split('\n'));
    const changed = there!.filter((line, i) => line !== here![i]).map((line) => line.trim());
    expect(changed).toEqual([
      expect.stringMatching(/^<Id>[0-9a-f-]{36}<\/Id>$/),
      '<DisplayName DefaultValue="Pinset (development)" />',
      '<bt:String id="Namespace" DefaultValue="PINSETDEV" />',
      '<bt:String id="Group.Label" DefaultValue="Pinset (development)" />',
    ]);
  });

  test('is not made for an address without https', () => {
    expect(() => manifestOf('http://farm.example.org/')).toThrow('an https address needed');
  });
});
