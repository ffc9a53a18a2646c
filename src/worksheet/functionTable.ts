import { mayBeLeftOut } from './cells/arguments';
import { FAMILIES, FAMILY_TITLES } from './constants';
import type { WorksheetFunction } from './definition';
import { described } from './described';

/** A function as it is called: `READYDATE(inoculated, strain, strains, [point])`. */
export function signature(f: WorksheetFunction): string {
  const names = f.arguments.map((argument) =>
    mayBeLeftOut(argument) ? `[${argument.name}]` : argument.name,
  );
  return `${f.name}(${names.join(', ')})`;
}

/** The table of functions in the README, in Markdown, family by family. */
export function functionTable(): string {
  const families = FAMILIES.filter((family) => described.some((f) => f.family === family));
  return families
    .map((family) => {
      const rows = described
        .filter((f) => f.family === family)
        .map((f) => `| \`${signature(f)}\` | ${f.summary} |`);
      return [
        `**${FAMILY_TITLES[family]}**`,
        '',
        '| function | what it gives |',
        '| --- | --- |',
        ...rows,
      ].join('\n');
    })
    .join('\n\n');
}

const START = '<!-- function table: made by npm run docs -->';
const END = '<!-- end of function table -->';

/** The README with its function table as the described has it. */
export function withFunctionTable(readme: string): string {
  const [from, to] = [readme.indexOf(START), readme.indexOf(END)];
  if (from < 0 || to < from) throw new Error(`the README lacks the lines "${START}" and "${END}"`);
  return `${readme.slice(0, from)}${START}\n\n${functionTable()}\n\n${readme.slice(to)}`;
}
