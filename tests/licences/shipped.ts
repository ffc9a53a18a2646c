import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Stats, StatsModule } from 'webpack';
import { ROOT } from '../../src/hosts/excel/serve/build';
import { packageFolder } from '../../src/hosts/licences/licenceTexts';

/** A package of somebody else, and where it goes to a user. */
export interface Shipped {
  readonly name: string;
  readonly version: string;
  /** As an SPDX expression. */
  readonly licence: string;
  /** A file of `dist` that it is part of, a file of `dist` that it is whole, or the command. */
  readonly where: string;
  /** Whether it goes out as its own files, as its makers published them. */
  readonly asItsOwnFile: boolean;
}

function described(folder: string, where: string, asItsOwnFile: boolean): Shipped {
  const { name, version, license, licenses } = JSON.parse(
    readFileSync(join(folder, 'package.json'), 'utf8'),
  ) as { name: string; version: string; license?: string; licenses?: readonly { type: string }[] };
  // Older packages list theirs: each is a choice.
  const licence = license ?? licenses?.map(({ type }) => type).join(' OR ');
  return { name, version, licence: licence ?? 'none named', where, asItsOwnFile };
}

const withInner = (module: StatsModule): StatsModule[] => [
  module,
  ...(module.modules ?? []).flatMap(withInner),
];

/** The packages whose code is in each script of a build, by the build's own account. */
export function inBundles(stats: Stats): Shipped[] {
  const { chunks = [] } = stats.toJson({
    all: false,
    chunks: true,
    chunkModules: true,
    dependentModules: true,
    nestedModules: true,
    chunkModulesSpace: Infinity,
    nestedModulesSpace: Infinity,
  });
  return chunks.flatMap(({ modules = [], files = [] }) => {
    const folders = modules
      .flatMap(withInner)
      .flatMap(({ nameForCondition }) => packageFolder(nameForCondition ?? '') ?? []);
    const script = files.find((file) => file.endsWith('.js')) ?? 'styles';
    return [...new Set(folders)].map((folder) => described(folder, script, false));
  });
}

/** Files of packages that the build copies as they are: where in `dist`, and where from. */
export const COPIED = [
  ['engine/o_spreadsheet.min.iife.js', '@odoo/o-spreadsheet/dist/o_spreadsheet.min.iife.js'],
  ['engine/o_spreadsheet.css', '@odoo/o-spreadsheet/dist/o_spreadsheet.css'],
  ['engine/o_spreadsheet.xml', '@odoo/o-spreadsheet/dist/o_spreadsheet.xml'],
  ['engine/owl.iife.min.js', '@odoo/owl/dist/owl.iife.min.js'],
  ['engine/chart.umd.min.js', 'chart.js/dist/chart.umd.min.js'],
] as const;

export const copied = (): Shipped[] =>
  COPIED.map(([where, from]) => described(packageFolder(join(ROOT, 'node_modules', from))!, where, true));

/** The packages the command loads: what package.json asks for at run time, and what those ask for in turn. */
export function ofTheCommand(): Shipped[] {
  const { packages } = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')) as {
    packages: Record<string, { dev?: boolean; devOptional?: boolean }>;
  };
  return Object.entries(packages)
    .filter(([path, { dev, devOptional }]) => path !== '' && !dev && !devOptional)
    .map(([path]) => join(ROOT, path))
    .filter((folder) => existsSync(join(folder, 'package.json')))
    .map((folder) => described(folder, 'the command', true));
}

const FREE =
  /^(MIT|MIT-0|ISC|0BSD|BSD-[23]-Clause|Apache-2\.0|BlueOak-1\.0\.0|Unlicense|CC0-1\.0|MPL-2\.0|OFL-1\.1|Python-2\.0)$/;
const LESSER = /^LGPL-/;

/** Whether one of the licences offered, each with all of its terms, is one that may go out this way. */
function mayGoOut(licence: string, asItsOwnFile: boolean): boolean {
  const allowed = (term: string): boolean => FREE.test(term) || (asItsOwnFile && LESSER.test(term));
  return licence
    .replace(/[()]/g, '')
    .split(/\s+OR\s+/)
    .some((offered) => offered.split(/\s+AND\s+/).every(allowed));
}

/** Packages that may not go out as they do, in words. */
export const objections = (shipped: readonly Shipped[]): string[] =>
  shipped
    .filter(({ licence, asItsOwnFile }) => !mayGoOut(licence, asItsOwnFile))
    .map(({ name, version, licence, where, asItsOwnFile }) =>
      asItsOwnFile || !LESSER.test(licence)
        ? `${name} ${version} in ${where}: its licence is ${licence}`
        : `${name} ${version} in ${where}: ${licence} asks for a file of its own that can be exchanged`,
    );

/** Whether a folder holds the file as the package published it. */
export const isUnchanged = (dist: string, [where, from]: (typeof COPIED)[number]): boolean =>
  readFileSync(join(dist, where)).equals(readFileSync(join(ROOT, 'node_modules', from)));

export const licenceBeside = (dist: string, where: string): boolean =>
  existsSync(join(dist, dirname(where), `LICENSE-${licenceNameOf(where)}.txt`));

/** `owl` of `engine/owl.iife.min.js` */
const licenceNameOf = (where: string): string => where.split('/').at(-1)!.split('.')[0]!.replaceAll('_', '-');
