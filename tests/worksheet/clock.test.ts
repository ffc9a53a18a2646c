import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import ts from 'typescript';

// An answer that hangs on the machine's clock, zone, locale or luck differs from farm to farm and day to day. So the
// source of the maths and of the worksheet is read as TypeScript reads it, for everything that asks for one of them.

const ROOT = join(__dirname, '../..');

/** Objects that know the clock, the locale or chance, whatever is asked of them. */
const GLOBALS: ReadonlySet<string> = new Set(['Intl', 'Temporal', 'performance', 'process']);
/** The only uses of `Date` that hang on nothing but their arguments: `Date.UTC(…)` and `new Date(milliseconds)`. */
const DATE_MEMBERS: ReadonlySet<string> = new Set(['UTC']);
const LOCAL_MEMBER =
  /^(toLocale\w*|localeCompare|(get|set)(Day|Date|Month|FullYear|Year|Hours|Minutes|Seconds|Milliseconds)|getTimezoneOffset|toDateString|toTimeString)$/;
/** Words of date-fns that ask for the time now. */
const DATE_FNS_NOW =
  /^(isToday|isTomorrow|isYesterday|isThis\w+|isPast|isFuture|startOfToday|endOfToday|\w+(Tomorrow|Yesterday)|constructNow|formatDistanceToNow\w*|intlFormat\w*)$/;

function complaintAbout(node: ts.Node): string | undefined {
  if (ts.isPropertyAccessExpression(node)) {
    const { expression, name } = node;
    if (LOCAL_MEMBER.test(name.text)) return name.text;
    if (!ts.isIdentifier(expression)) return undefined;
    if (expression.text === 'globalThis') return node.getText();
    if (expression.text === 'Math' && name.text === 'random') return 'Math.random';
    if (expression.text === 'Date' && !DATE_MEMBERS.has(name.text)) return `Date.${name.text}`;
    return undefined;
  }
  if (ts.isImportSpecifier(node) && DATE_FNS_NOW.test((node.propertyName ?? node.name).text))
    return node.getText();
  if (!ts.isIdentifier(node) || ts.isTypeNode(node.parent)) return undefined;
  const { parent, text } = node;
  const isName = ts.isPropertyAccessExpression(parent)
    ? parent.name === node
    : ts.isPropertyAssignment(parent);
  if (isName) return undefined;
  if (GLOBALS.has(text)) return text;
  if (text !== 'Date' && text !== 'UTCDate') return undefined;
  const isMember = ts.isPropertyAccessExpression(parent);
  const isImport = ts.isImportSpecifier(parent);
  if (isMember || isImport || (ts.isNewExpression(parent) && takesMilliseconds(parent))) return undefined;
  return parent.getText();
}

/** A single argument that is not written as a text: a text without a zone is read in the machine's own. */
const takesMilliseconds = ({ arguments: given }: ts.NewExpression): boolean =>
  given?.length === 1 && !ts.isStringLiteralLike(given[0]!) && !ts.isTemplateExpression(given[0]!);

function complaintsAbout(text: string, file = 'sample.ts'): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const complaint = complaintAbout(node);
    if (complaint !== undefined) {
      found.push(`${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}: ${complaint}`);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const sourcesUnder = (folder: string): string[] =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(ROOT, folder, name));

test.each(['src/maths', 'src/worksheet'])(
  'nothing in %s asks for the clock, the zone, the locale or chance',
  (folder) => {
    const files = sourcesUnder(folder);
    expect(files.length).toBeGreaterThan(10);
    const complaints = files.flatMap((file) =>
      complaintsAbout(readFileSync(file, 'utf8'), relative(ROOT, file)),
    );
    expect(complaints).toEqual([]);
  },
);

describe('the reading notices', () => {
  const noticed = [
    'new Date()',
    'new Date(2026, 1, 1)',
    'new Date("2026-02-01")',
    'new Date(`${year}-02-01`)',
    'new UTCDate()',
    'Date()',
    'Date.now()',
    'Date.parse(text)',
    'const clock = Date;',
    'now = Date.now;',
    'day.getDay()',
    'day.setMonth(3)',
    'day.getTimezoneOffset()',
    'mass.toLocaleString()',
    'label.toLocaleLowerCase()',
    'a.localeCompare(b)',
    'new Intl.NumberFormat()',
    'Math.random()',
    'performance.now()',
    'process.env.TZ',
    'globalThis.Date',
    "import { isPast } from 'date-fns';",
    "import { startOfToday as today } from 'date-fns';",
  ];
  test.each(noticed)('%s', (text) => {
    expect(complaintsAbout(text)).not.toEqual([]);
  });

  const allowed = [
    'new Date(milliseconds)',
    'new UTCDate(EPOCH + days * DAY)',
    'Date.UTC(2026, 1, 1)',
    'day.getUTCDay()',
    'const { random } = options; random();',
    'interface Days { readonly day: Date }',
    "import { UTCDate } from '@date-fns/utc'; import { format } from 'date-fns';",
    "'WebAssembly' in globalThis",
    '// new Date() and Date.now()',
  ];
  test.each(allowed)('and lets pass: %s', (text) => {
    expect(complaintsAbout(text)).toEqual([]);
  });
});
