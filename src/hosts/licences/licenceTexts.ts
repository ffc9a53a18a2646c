import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';

const MODULES = `node_modules${sep}`;

/** The folder of the package a module belongs to; undefined where it is our own. */
export function packageFolder(file: string): string | undefined {
  const at = file.lastIndexOf(MODULES);
  if (at < 0) return undefined;
  const [scope, name] = file.slice(at + MODULES.length).split(sep);
  return join(file.slice(0, at + MODULES.length), scope!, ...(scope!.startsWith('@') ? [name!] : []));
}

/** What a package says of its licence: the file with its terms, otherwise what its description names. */
function termsOf(folder: string): string {
  const file = readdirSync(folder).find((name) => /^(licen[cs]e|copying)(\.(md|txt|mit))?$/i.test(name));
  if (file !== undefined) return readFileSync(join(folder, file), 'utf8').trim();
  const { license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    license?: string;
    author?: string | { name: string };
  };
  const by = typeof author === 'string' ? author : author?.name;
  return `Licence: ${license ?? 'none named'}${by === undefined ? '' : `, by ${by}`}`;
}

/** The licences of the packages that files of a bundle come from, one after another, by name. */
export function licenceTexts(files: readonly string[]): string {
  const folders = [...new Set(files.flatMap((file) => packageFolder(file) ?? []))].sort();
  return folders
    .map((folder) => {
      const { name, version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
        name: string;
        version: string;
      };
      return `${name} ${version}\n\n${termsOf(folder)}\n`;
    })
    .join(`\n${'-'.repeat(72)}\n\n`);
}
