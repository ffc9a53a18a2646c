import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { build } from 'esbuild';
import { zipSync, strToU8 } from 'fflate';
import { version } from '../../../package.json';
import { described } from '../../worksheet/described';
import { licenceTexts } from '../licences/licenceTexts';
import { contents, facts, functionNames, menu, typeLibrary } from './description';

const ROOT = resolve(__dirname, '../../..');
const HIGHS = dirname(createRequire(__filename).resolve('highs'));

/** The engine as one file that needs nothing but Node.js, and the licences of the packages in it. */
async function engine(): Promise<{ script: Uint8Array; licences: string }> {
  const { outputFiles, metafile } = await build({
    entryPoints: [join(__dirname, 'engine.ts')],
    bundle: true,
    minify: true,
    platform: 'node',
    target: 'node20',
    // Its other form finds the solver's own file by an address that a bundle does not have.
    alias: { highs: join(HIGHS, 'highs.js') },
    write: false,
    metafile: true,
  });
  const files = Object.keys(metafile.inputs).map((file) => resolve(file));
  return { script: outputFiles[0]!.contents, licences: licenceTexts(files) };
}

/** The extension: a zip of its description, the component and the engine. */
export async function extension(): Promise<Uint8Array> {
  const { script, licences } = await engine();
  return zipSync({
    'META-INF/manifest.xml': strToU8(contents()),
    'description.xml': strToU8(facts(version)),
    'pinset.idl': strToU8(typeLibrary(described)),
    'CalcAddIns.xcu': strToU8(functionNames(described)),
    'Addons.xcu': strToU8(menu()),
    'pinset.py': readFileSync(join(__dirname, 'pinset.py')),
    'functions.json': strToU8(
      JSON.stringify(described.map(({ name, takesLong }) => ({ name, takesLong: takesLong === true }))),
    ),
    'engine.js': script,
    'LICENSE.txt': readFileSync(join(ROOT, 'LICENSE')),
    'licences.txt': strToU8(licences),
    'highs.wasm': readFileSync(join(HIGHS, 'highs.wasm')),
  });
}

const OUT = join(ROOT, 'dist/pinset.oxt');

/** Writes the extension and says how to install it. */
export async function writeExtension(): Promise<void> {
  mkdirSync(dirname(OUT), { recursive: true });
  writeFileSync(OUT, await extension());
  console.log(`${OUT}

To install it: double-click the file, accept, and start LibreOffice again. Or, with LibreOffice closed:

    unopkg add ${OUT}`);
}
