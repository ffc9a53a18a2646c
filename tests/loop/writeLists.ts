import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { FAMILIES } from '../../src/worksheet/constants';

// `npm run docs`, first half: lists every function file of src/worksheet, so that nobody has to. A function keeps its
// place in the list; a new one comes at the end of its family.

const floor = join(__dirname, '../../src/worksheet');
const catalogueFile = join(floor, 'catalogue.ts');
const describedFile = join(floor, 'described.ts');

interface Found {
  readonly name: string;
  /** Path of its file from the worksheet floor, without extension. */
  readonly path: string;
}

function functionsIn(family: string): Found[] {
  if (!existsSync(join(floor, family))) return [];
  return readdirSync(join(floor, family))
    .filter((file) => file.endsWith('.ts') && !file.endsWith('.words.ts'))
    .flatMap((file) => {
      const name = /^export const ([A-Z]+) = defineFunction\(/m.exec(
        readFileSync(join(floor, family, file), 'utf8'),
      );
      return name ? [{ name: name[1]!, path: `./${family}/${file.slice(0, -3)}` }] : [];
    });
}

const listedNow = [...readFileSync(catalogueFile, 'utf8').matchAll(/^ {2}([A-Z]+),$/gm)].map(
  ([, name]) => name!,
);
const placeOf = ({ name }: Found): number => (listedNow.includes(name) ? listedNow.indexOf(name) : Infinity);
const found = FAMILIES.flatMap((family) =>
  functionsIn(family).sort((a, b) => (placeOf(a) === placeOf(b) ? 0 : placeOf(a) - placeOf(b))),
);

const names = found.map(({ name }) => `  ${name},`).join('\n');
const MADE = '// Made by `npm run docs` from the function files beside it.\n\n';

writeFileSync(
  catalogueFile,
  `${MADE}import type { WorksheetFunction } from './definition';
${found.map(({ name, path }) => `import { ${name} } from '${path}';`).join('\n')}

/** Every worksheet function, family by family in the order of the grower's week. */
export const catalogue: readonly WorksheetFunction[] = [
${names}
];
`,
);

writeFileSync(
  describedFile,
  `${MADE}import { catalogue } from './catalogue';
import { withWords, type DescribedFunction } from './words';
${found.map(({ name, path }) => `import { words as ${name} } from '${path}.words';`).join('\n')}

/** The catalogue with its words: for the guide, the pane, the README and the tests, not for what Excel loads first. */
export const described: readonly DescribedFunction[] = withWords(catalogue, {
${names}
});
`,
);
