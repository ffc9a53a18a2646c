const path = require('node:path');
const tseslint = require('typescript-eslint');
const jest = require('eslint-plugin-jest');

/**
 * The walls: what each folder may import, of ours and of packages. What is not listed is refused. A folder may always
 * import itself; a name that ends in `/` stands for its files but not for its folders.
 */
const WALLS = {
  'src/maths/shared': ['highs', 'jstat', 'date-fns', '@date-fns/utc', 'fastest-levenshtein'],
  ...Object.fromEntries(
    Object.entries({
      ripening: [],
      lineage: [],
      substrate: [],
      sterilising: [],
      climate: ['psychrolib'],
      // Blocks to load for a wanted mass is the expected yield turned round.
      loading: ['src/maths/harvest'],
      harvest: [],
      // An audit judges a pick by its flush, found from the dates where none was recorded.
      audit: ['src/maths/harvest'],
      cost: [],
    }).map(([family, more]) => [`src/maths/${family}`, ['src/maths/shared', ...more]]),
  ),
  'src/worksheet/cells': ['src/maths/shared', 'src/worksheet/'],
  'src/worksheet/wording': ['src/maths/shared', 'src/worksheet/', 'src/worksheet/cells'],
  'src/worksheet': ['src/maths', 'date-fns', '@date-fns/utc'],
  'src/hosts/xlsx': ['src/worksheet/', 'src/worksheet/cells', '@borgar/fx', 'fflate', 'saxes'],
  'src/hosts/fit': ['src/worksheet/', 'src/worksheet/cells', 'src/hosts/xlsx'],
  'src/hosts/engine': [
    'src/worksheet/',
    'src/worksheet/cells',
    'src/hosts/xlsx',
    'src/hosts/worker',
    '@borgar/fx',
    '@odoo/o-spreadsheet',
    '@odoo/owl',
    'minisearch',
    'jstat',
    'numfmt',
    'papaparse',
  ],
  'src/hosts/worker': ['src/worksheet/', 'src/worksheet/cells'],
  'src/hosts/pane': [
    'src/worksheet/',
    'src/worksheet/cells',
    'src/worksheet/wording',
    'src/hosts/fit',
    'src/hosts/worker',
    'src/hosts/xlsx',
    '@borgar/fx',
    '@fluentui',
    'minisearch',
  ],
  'src/hosts/excel': [
    'src/worksheet/',
    'src/worksheet/cells',
    'src/hosts/pane',
    'src/hosts/worker',
    'src/hosts/fit',
    'src/hosts/xlsx',
    'package.json',
    'node:',
    'office-addin-dev-certs',
    'webpack',
  ],
  'src/hosts/workbench': [
    'src/worksheet/',
    'src/worksheet/cells',
    'src/hosts/engine',
    'src/hosts/offline',
    'src/hosts/pane',
    'src/hosts/worker',
    'src/hosts/fit',
    'src/hosts/xlsx',
    'package.json',
    'papaparse',
  ],
  'src/hosts/headless': [
    'src/worksheet/',
    'src/worksheet/cells',
    'src/hosts/engine',
    'src/hosts/fit',
    'src/hosts/xlsx',
    'node:',
  ],
  'src/hosts/licences': ['node:'],
  'src/hosts/offline': [],
  'src/hosts/calc': [
    'src/hosts/licences',
    'src/worksheet/',
    'src/worksheet/cells',
    'src/hosts/engine',
    'src/hosts/xlsx',
    'package.json',
    'esbuild',
    'fflate',
    'node:',
  ],
  'sample-workbooks': [
    'src/worksheet/',
    'src/worksheet/cells',
    'src/hosts/engine',
    'src/hosts/xlsx',
    'fflate',
    'node:',
  ],
};

const FOLDERS = Object.keys(WALLS).sort((a, b) => b.length - a.length);
const inside = (file, folder) => file.startsWith(`${folder}/`);
const folderOf = (file) => FOLDERS.find((folder) => inside(file, folder));

/** Whether an entry of the table lets `target` in: a file of ours as a path from the top, or a package. */
function lets(entry, target) {
  if (entry.endsWith(':')) return target.startsWith(entry);
  if (entry.endsWith('/')) return target.startsWith(entry) && !target.slice(entry.length).includes('/');
  return target === entry || inside(target, entry);
}

const walls = {
  meta: {
    type: 'problem',
    schema: [],
    messages: { wall: '{{folder}} may not import {{target}}: the walls are a table in eslint.config.js.' },
  },
  create(context) {
    const file = path.relative(__dirname, context.filename).split(path.sep).join('/');
    const folder = folderOf(file);
    if (folder === undefined) return {};
    const check = ({ source }) => {
      if (typeof source?.value !== 'string') return;
      const target = source.value.startsWith('.')
        ? path.posix.join(path.posix.dirname(file), source.value)
        : source.value;
      if (inside(target, folder) || WALLS[folder].some((entry) => lets(entry, target))) return;
      context.report({ node: source, messageId: 'wall', data: { folder, target } });
    };
    return {
      ImportDeclaration: check,
      ExportNamedDeclaration: check,
      ExportAllDeclaration: check,
      ImportExpression: check,
    };
  },
};

module.exports = tseslint.config(
  { ignores: ['dist/**', 'node_modules/**'] },
  ...tseslint.configs.recommendedTypeChecked.map((config) => ({ ...config, files: ['**/*.ts'] })),
  {
    files: ['**/*.ts'],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: __dirname } },
    plugins: { house: { rules: { walls } } },
    rules: {
      'house/walls': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      eqeqeq: 'error',
    },
  },
  {
    files: ['src/**/*.ts'],
    ignores: ['src/hosts/excel/**'],
    rules: {
      'no-restricted-globals': [
        'error',
        ...['Office', 'Excel', 'CustomFunctions'].map((name) => ({
          name,
          message: 'Only src/hosts/excel knows the vendor’s library.',
        })),
      ],
    },
  },
  {
    // The same cells give the same answers everywhere: no clock, no local time, no language of the machine.
    files: ['src/maths/**/*.ts', 'src/worksheet/**/*.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        ...[
          "NewExpression[callee.name='Date']",
          "CallExpression[callee.name='Date']",
          "MemberExpression[object.name='Date'][property.name!='UTC']",
          "MemberExpression[object.name='Math'][property.name='random']",
          "Identifier[name='Intl']",
          'MemberExpression[property.name=/^(toLocale.*|localeCompare|getTimezoneOffset)$/]',
        ].map((selector) => ({
          selector,
          message: 'Maths and worksheet know no clock, no local time, no language and no chance.',
        })),
      ],
    },
  },
  {
    // A worksheet's errors are values, thrown to end a calculation at once: a trace of calls would cost more than it.
    files: ['src/hosts/engine/evaluator/**/*.ts'],
    rules: {
      '@typescript-eslint/only-throw-error': [
        'error',
        { allow: [{ from: 'file', name: ['ErrorValue', 'NotReady'] }] },
      ],
    },
  },
  {
    files: ['tests/**/*.ts'],
    ...jest.configs['flat/recommended'],
    rules: {
      ...jest.configs['flat/recommended'].rules,
      'jest/expect-expect': ['error', { assertFunctionNames: ['expect', 'expect*', 'fc.assert'] }],
      'jest/no-standalone-expect': 'off',
      '@typescript-eslint/no-floating-promises': 'error',
      'jest/valid-expect': 'error',
      'jest/no-focused-tests': 'error',
      'jest/no-disabled-tests': 'error',
      // What several test files share, such as the promises of every function, is a module of its own.
      'jest/no-export': 'off',
    },
  },
);
