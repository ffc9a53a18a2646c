import { createRequire } from 'node:module';
import path from 'node:path';
import webpack from 'webpack';

export const ROOT = path.resolve(__dirname, '..', '..', '..', '..');
export const DIST = path.join(ROOT, 'dist');

type Configure = (env: BuildOptions['env'], argv: { mode: BuildOptions['mode'] }) => webpack.Configuration;
const configure = createRequire(__filename)('../../../../webpack.config.js') as Configure;

export interface BuildOptions {
  readonly env?: { readonly url?: string; readonly office?: 'local'; readonly namespace?: string };
  readonly mode: 'production' | 'development';
  /** Folder to write; `dist` unless given. */
  readonly output?: string;
}

function compilerFor({ env = {}, mode, output = DIST }: BuildOptions): webpack.Compiler {
  const config = configure(env, { mode });
  return webpack({ ...config, output: { ...config.output, path: output } });
}

/** The faults of a build, or undefined where it is sound. */
function faultsOf(error: Error | null, stats: webpack.Stats | undefined): string | undefined {
  if (error) return error.message;
  return stats?.hasErrors() ? stats.toString({ preset: 'errors-only', colors: false }) : undefined;
}

/** Builds the pages once; gives what went into them. @throws with what the build found wrong. */
export function build(options: BuildOptions): Promise<webpack.Stats> {
  const compiler = compilerFor(options);
  return new Promise((resolve, reject) => {
    compiler.run((error, stats) => {
      const faults = faultsOf(error, stats);
      compiler.close(() => (faults === undefined ? resolve(stats!) : reject(new Error(faults))));
    });
  });
}

/** Builds the pages, and again whenever a source changes; resolves after the first build. */
export function buildAndWatch(options: BuildOptions): Promise<void> {
  return new Promise((resolve) => {
    compilerFor(options).watch({}, (error, stats) => {
      const faults = faultsOf(error, stats);
      if (faults !== undefined) console.error(faults);
      resolve();
    });
  });
}
