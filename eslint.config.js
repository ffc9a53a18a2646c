const tseslint = require('typescript-eslint');
const jest = require('eslint-plugin-jest');

/** Families that may use another family's maths, and why. Everything else goes through maths/shared. */
const mathsNeighbours = {
  // Blocks to load for a wanted mass is the expected yield turned round.
  loading: ['harvest'],
  // An audit judges a pick by its flush, found from the dates where none was recorded.
  audit: ['harvest'],
};

const families = [
  'ripening',
  'lineage',
  'substrate',
  'sterilising',
  'climate',
  'loading',
  'harvest',
  'audit',
  'cost',
];

const forbid = (patterns) => ({ 'no-restricted-imports': ['error', { patterns }] });

const mathsRules = families.map((family) => ({
  files: [`src/maths/${family}/**/*.ts`],
  rules: forbid([
    {
      regex: '(worksheet|hosts)/',
      message: 'Maths is the ground floor: it knows neither cells nor hosts.',
    },
    {
      regex: `\\.\\./(?!shared/|${[family, ...(mathsNeighbours[family] ?? [])].join('/|')}/)[a-z]+/`,
      message: 'A family uses maths/shared only; list a neighbour in eslint.config.js if it truly needs one.',
    },
  ]),
}));

const hostNames = ['excel', 'workbench', 'headless'];
const hostRules = hostNames.map((host) => ({
  files: [`src/hosts/${host}/**/*.ts`],
  rules: forbid([
    { regex: '/maths/', message: 'Hosts talk to the worksheet floor, never to the maths.' },
    {
      regex: `/(${hostNames.filter((other) => other !== host).join('|')})/`,
      message: 'Hosts do not import each other; share through hosts/engine, hosts/worker or hosts/xlsx.',
    },
    {
      regex: '^@odoo/',
      message: 'hosts/engine is the only importer of the spreadsheet engine.',
    },
  ]),
}));

module.exports = tseslint.config(
  { ignores: ['dist/**', 'node_modules/**'] },
  ...tseslint.configs.recommendedTypeChecked.map((config) => ({ ...config, files: ['**/*.ts'] })),
  {
    files: ['**/*.ts'],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: __dirname } },
    rules: {
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      eqeqeq: 'error',
    },
  },
  ...mathsRules,
  {
    files: ['src/maths/shared/**/*.ts'],
    rules: forbid([{ regex: '\\.\\./', message: 'maths/shared stands on nothing of ours.' }]),
  },
  {
    files: ['src/worksheet/**/*.ts'],
    rules: forbid([{ regex: '/hosts/', message: 'The worksheet floor does not know what runs it.' }]),
  },
  ...hostRules,
  {
    files: ['src/hosts/{engine,worker,xlsx}/**/*.ts'],
    rules: forbid([
      { regex: '/maths/', message: 'Hosts talk to the worksheet floor, never to the maths.' },
      {
        regex: '/(excel|workbench|headless)/',
        message: 'Engine, worker and files serve the hosts, not the reverse.',
      },
    ]),
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
    },
  },
);
