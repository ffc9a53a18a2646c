const { createHash } = require('node:crypto');
const { readFileSync } = require('node:fs');
const path = require('node:path');
const CopyPlugin = require('copy-webpack-plugin');
const HtmlPlugin = require('html-webpack-plugin');
const MiniCssExtractPlugin = require('mini-css-extract-plugin');
const MinimizerPlugin = require('minimizer-webpack-plugin');
const tsx = require('tsx/cjs/api');
const { Compilation, DefinePlugin, sources } = require('webpack');

/** Where the add-in is served from while it is worked on; also the address in manifest.xml. */
const DEVELOPMENT_URL = 'https://localhost:3000/';
/** The vendor asks add-ins in use to load its library from here. */
const OFFICE_CDN = 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js';
/** While developing and testing, the static server offers the npm package's copy under this path. */
const OFFICE_LOCAL = 'office/office.js';

/** The spreadsheet engine of the workbench: its files as its packages ship them, licences beside them. */
const engineFiles = [
  ['@odoo/o-spreadsheet/dist/o_spreadsheet.min.iife.js', 'o_spreadsheet.min.iife.js'],
  ['@odoo/o-spreadsheet/dist/o_spreadsheet.css', 'o_spreadsheet.css'],
  ['@odoo/o-spreadsheet/dist/o_spreadsheet.xml', 'o_spreadsheet.xml'],
  ['@odoo/o-spreadsheet/LICENSE', 'LICENSE-o-spreadsheet.txt'],
  ['@odoo/owl/dist/owl.iife.min.js', 'owl.iife.min.js'],
  ['@odoo/owl/LICENSE', 'LICENSE-owl.txt'],
  ['chart.js/dist/chart.umd.min.js', 'chart.umd.min.js'],
  ['chart.js/LICENSE.md', 'LICENSE-chart.txt'],
].map(([from, to]) => ({
  from: path.join(__dirname, 'node_modules', from),
  to: `engine/${to}`,
  // Minimised already, and to stay unchanged.
  info: { minimized: true },
}));

/** Templates that are rendered from modules compile those a second time: what is loaded on demand is in dist already. */
const templatesAddNoScripts = {
  apply: (compiler) =>
    compiler.hooks.compilation.tap('templates', (compilation) => {
      if (!compilation.compiler.isChild()) return;
      compilation.hooks.afterProcessAssets.tap('templates', (assets) => {
        for (const file of Object.keys(assets)) if (file.endsWith('.js')) compilation.deleteAsset(file);
      });
    }),
};

const LICENCES = 'licences.txt';

/** The terms of this project, of each package that scripts and styles were made from, and of what joins them. */
const licencesOfOthers = {
  apply: (compiler) =>
    compiler.hooks.compilation.tap('licences', (compilation) => {
      if (compilation.compiler.isChild()) return;
      const stage = Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tap({ name: 'licences', stage }, () => {
        const { licenceTexts } = tsx.require('./src/hosts/licences/licenceTexts.ts', __filename);
        const files = [...compilation.modules]
          .flatMap((module) => [module, ...(module.modules ?? [])])
          .flatMap((module) => module.nameForCondition() ?? []);
        const texts = licenceTexts([...files, require.resolve('webpack')]);
        const own = readFileSync(path.join(__dirname, 'LICENSE'), 'utf8');
        compilation.emitAsset(
          LICENCES,
          new sources.RawSource(`Pinset\n\n${own}\n${'-'.repeat(72)}\n\n${texts}`),
        );
      });
    }),
};

/** What the workbench's worker runs is in files of its own, in the reach of what keeps the workbench and not of Excel. */
const EACH = '[name]-[contenthash:10].js';
const isOfWorkbenchWorker = ({ groupsIterable }) =>
  [...groupsIterable].some(({ origins }) => origins.some(({ module }) => module?.layer === 'workbench'));

/** The pages to read, which work without a network once one is open. */
const JOBS = ['ready', 'plan', 'audit', 'mix'];
const READ = ['guide', 'blanks', 'errors', ...JOBS, 'privacy', 'terms', 'support'];
const OFFLINE = 'offline.js';

/** Tells the service worker which files it keeps, and names this build after what they hold. */
const filesToKeep = {
  apply: (compiler) =>
    compiler.hooks.compilation.tap('offline', (compilation) => {
      if (compilation.compiler.isChild()) return;
      const stage = Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: 'offline', stage }, (assets) => {
        const scriptsOf = (name) => {
          const chunks = [...compilation.entrypoints.get(name).chunks].flatMap((chunk) => [
            chunk,
            ...chunk.getAllAsyncChunks(),
            ...chunk.getAllReferencedChunks(),
          ]);
          return chunks.flatMap((chunk) => [...chunk.files, ...chunk.auxiliaryFiles]);
        };
        const named = (pattern) => Object.keys(assets).filter((file) => pattern.test(file));
        const both = named(/^icons\//);
        const lists = {
          workbench: [
            'workbench.html',
            ...scriptsOf('workbench'),
            ...named(/^engine\/|^workbench-.*\.js$|\.xlsx$|\.wasm$/),
            LICENCES,
            ...both,
          ],
          guide: [
            ...READ.map((page) => `${page}.html`),
            'guide.css',
            LICENCES,
            ...scriptsOf('guide'),
            ...both,
          ],
        };
        const unique = (files) => [...new Set(files)].filter((file) => file in assets).sort();
        const files = { workbench: unique(lists.workbench), guide: unique(lists.guide) };
        const hash = createHash('sha256');
        for (const file of unique(Object.values(files).flat()))
          hash.update(file).update(assets[file].buffer());
        const build = JSON.stringify({ version: hash.digest('hex').slice(0, 20), files });
        compilation.updateAsset(
          OFFLINE,
          (script) => new sources.ConcatSource(`const PINSET_BUILD=${build};`, script),
        );
      });
    }),
};

/**
 * What the pane takes from the functions' script, as which it runs in the same page: it finds them under this name. A
 * script whose modules no other script imports can be joined into one scope, which takes 6 KB off what Excel loads.
 */
const SHARED_AS = 'pinset';
const SHARED = ['worksheet/catalogue', 'worksheet/call', 'hosts/excel/dateSystem', 'hosts/excel/solving'].map(
  (module) => path.join(__dirname, 'src', module),
);
function fromFunctions({ context, request, contextInfo: { issuerLayer } }, done) {
  const isShared = issuerLayer === 'pane' && SHARED.includes(path.resolve(context, request));
  return isShared ? done(null, SHARED_AS) : done();
}

/** The build for development has an identity of its own: the vendor forbids two add-ins with one, side by side. */
const DEVELOPMENT_ID = '3c1f6a58-9a0e-4d57-8f43-1b7c2f6f0d92';
const DEVELOPMENT_UNIFIED_ID = 'b6e02f94-31d7-4c0a-9f6b-7a58c3d4e210';
const asDevelopment = (manifest, namespace) =>
  manifest
    .replace(/<Id>.*<\/Id>/, `<Id>${DEVELOPMENT_ID}</Id>`)
    .replace('<DisplayName DefaultValue="Pinset" />', '<DisplayName DefaultValue="Pinset (development)" />')
    .replace('id="Namespace" DefaultValue="PINSET"', `id="Namespace" DefaultValue="${namespace}"`)
    .replace(
      'id="Group.Label" DefaultValue="Pinset"',
      'id="Group.Label" DefaultValue="Pinset (development)"',
    );

/** The same for the manifest in JSON: its names, its Id, and the server that it names without `https`. */
function unifiedManifest(manifest, url, namespace) {
  const written = JSON.parse(manifest.replaceAll(DEVELOPMENT_URL, url));
  written.validDomains = [new URL(url).host];
  if (namespace === 'PINSET') return JSON.stringify(written, null, 2);
  written.id = DEVELOPMENT_UNIFIED_ID;
  written.name.short = written.extensions[0].ribbons[0].tabs[0].groups[0].label = 'Pinset (development)';
  written.extensions[0].runtimes[0].customFunctions.namespace = { id: namespace, name: namespace };
  return JSON.stringify(written, null, 2);
}

/** The https address dist is going to be served from, with a slash at its end. */
function servedFrom(address) {
  const url = new URL(address.endsWith('/') ? address : `${address}/`);
  if (url.protocol !== 'https:') throw new Error(`url: an https address needed, got ${address}`);
  return url.href;
}

/**
 * `--env url=https://…/` the address the manifest and the help links point at; `--env office=local` for pages that
 * load office.js from the static server rather than from the vendor. `--env publisher=…` and `--env support=…` are who
 * publishes the add-in, and the e-mail or https address where people get help. `--env namespace=…` is what the
 * functions' names begin with: PINSET, and PINSETDEV in a build for development. `--env unified` adds the manifest in
 * JSON with its icons: the app package that newer Microsoft 365 takes in place of manifest.xml.
 */
module.exports = (env = {}, argv = {}) => {
  const production = argv.mode !== 'development';
  const url = servedFrom(env.url ?? DEVELOPMENT_URL);
  const office = production && env.office !== 'local' ? OFFICE_CDN : OFFICE_LOCAL;
  const namespace = env.namespace ?? (production ? 'PINSET' : 'PINSETDEV');
  const { publisher, support, unified } = env;
  const host = (...parts) => path.join(__dirname, 'src', 'hosts', ...parts);

  /** A file of dist that a TypeScript module renders, so that it follows the catalogue in watch mode too. */
  const rendered = (filename, template, chunks) =>
    new HtmlPlugin({
      filename,
      template,
      templateParameters: { url, filename, publisher, support },
      // Before the page is drawn: a dark one does not begin with white.
      ...(chunks ? { chunks, inject: 'head', scriptLoading: 'blocking' } : { inject: false }),
      minify: false,
    });
  const toRead = (page, template) => rendered(`${page}.html`, template, ['guide']);

  return {
    mode: production ? 'production' : 'development',
    devtool: production ? false : 'source-map',
    entry: {
      functions: { import: host('excel', 'functions.ts'), library: { name: SHARED_AS, type: 'var' } },
      taskpane: { import: host('excel', 'taskpane.ts'), layer: 'pane' },
      workbench: host('workbench', 'index.ts'),
      // In a layer of its own: modules that it shared with the functions’ script could not be joined there.
      guide: { import: [host('offline', 'guide.ts'), host('excel', 'guidePage.ts')], layer: 'guide' },
      offline: { import: host('offline', 'serviceWorker.ts'), filename: OFFLINE },
    },
    // All that pages load carries a hash, so that no file of an earlier version is taken for one of this. Excel finds the
    // functions' script by its name.
    output: {
      path: path.join(__dirname, 'dist'),
      filename: ({ chunk }) => (chunk.name === 'functions' ? '[name].js' : '[name]-[contenthash:10].js'),
      chunkFilename: ({ chunk }) => (isOfWorkbenchWorker(chunk) ? `workbench-${EACH}` : EACH),
      clean: true,
    },
    resolve: { extensions: ['.ts', '.js'] },
    experiments: { layers: true },
    externals: [
      fromFunctions,
      {
        // Asked for by the solver's package where it runs in Node, which no page does.
        'node:module': '{}',
        // Loaded by the workbench page from their own, unchanged files.
        '@odoo/o-spreadsheet': 'o_spreadsheet',
        '@odoo/owl': 'owl',
      },
    ],
    module: {
      rules: [
        {
          test: /\.ts$/,
          loader: host('excel', 'serve', 'compileOnce.js'),
          options: { transpileOnly: true, compilerOptions: { noEmit: false } },
        },
        {
          test: path.join(__dirname, 'src', 'hosts', 'worker', 'start.ts'),
          issuer: path.join(__dirname, 'src', 'hosts', 'workbench'),
          layer: 'workbench',
        },
        {
          // A script of its own down to the last module: what the pane shared with it could not be joined there.
          test: host('pane', 'board', 'boardView.ts'),
          layer: 'board',
        },
        { test: /\.css$/, use: [MiniCssExtractPlugin.loader, 'css-loader'] },
      ],
    },
    optimization: {
      // The worker is one file: it must not begin to listen later than its page begins to ask.
      splitChunks: false,
      // A third of the time of the usual minimiser, and the scripts are smaller.
      minimizer: [new MinimizerPlugin({ minify: MinimizerPlugin.swcMinify })],
    },
    plugins: [
      templatesAddNoScripts,
      filesToKeep,
      licencesOfOthers,
      new DefinePlugin({
        PINSET_NAMESPACE: JSON.stringify(namespace),
        // While developing, the newest files only.
        PINSET_KEEPS_PAGES: JSON.stringify(production),
      }),
      new MiniCssExtractPlugin({ filename: '[name]-[contenthash:10].css' }),
      new HtmlPlugin({
        filename: 'taskpane.html',
        template: host('excel', 'taskpane.html'),
        templateParameters: { office },
        chunks: ['functions', 'taskpane'],
      }),
      new HtmlPlugin({
        filename: 'workbench.html',
        template: host('workbench', 'workbench.html'),
        chunks: ['workbench'],
      }),
      rendered('functions.json', host('excel', 'metadata.ts')),
      toRead('guide', host('excel', 'guide.ts')),
      toRead('blanks', host('excel', 'blanks.ts')),
      toRead('errors', host('excel', 'cellErrors.ts')),
      ...JOBS.map((page) => toRead(page, host('excel', 'jobPages.ts'))),
      ...['privacy', 'terms', 'support', 'review'].map((page) =>
        toRead(page, host('excel', 'aboutPages.ts')),
      ),
      new CopyPlugin({
        patterns: [
          {
            from: 'manifest.xml',
            transform(content) {
              const manifest = content.toString().replaceAll(DEVELOPMENT_URL, url);
              return namespace === 'PINSET' ? manifest : asDevelopment(manifest, namespace);
            },
          },
          ...(unified
            ? [
                {
                  from: 'src/hosts/excel/unified',
                  to: 'unified/[name][ext]',
                  transform: (content, file) =>
                    file.endsWith('.json') ? unifiedManifest(content.toString(), url, namespace) : content,
                },
              ]
            : []),
          { from: 'src/hosts/excel/icons/*.png', to: 'icons/[name][ext]' },
          { from: 'src/hosts/pane/guide.css' },
          { from: 'sample-workbooks/*.xlsx', to: '[name][ext]', noErrorOnMissing: true },
          ...engineFiles,
        ],
      }),
    ],
    performance: { hints: false },
  };
};
