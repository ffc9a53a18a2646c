/** Runs TypeScript through swc for speed; `npm run check` is what type-checks. */
const common = {
  testEnvironment: 'node',
  roots: ['<rootDir>/sample-workbooks', '<rootDir>/src', '<rootDir>/tests'],
  transform: {
    '^.+\\.[jt]s$': [
      '@swc/jest',
      { jsc: { parser: { syntax: 'typescript' }, target: 'es2022' }, module: { type: 'commonjs' } },
    ],
  },
  setupFiles: ['<rootDir>/tests/loop/stackDepth.js'],
  transformIgnorePatterns: ['/node_modules/(?!@borgar/)'],
  // Handed to each module as its own names: looked up in Jest's sandbox, `Number.isFinite` costs more than the sums.
  sandboxInjectedGlobals: [
    ...['Array', 'BigInt', 'Error', 'Float64Array', 'Infinity', 'JSON', 'Map', 'Math', 'Number', 'Object'],
    ...['performance', 'RegExp', 'Set', 'String', 'Symbol', 'Uint8Array', 'WeakMap'],
  ],
};

module.exports = {
  // For what waits for ever: a busy machine must not fail a test.
  testTimeout: 180_000,
  // Every core: Jest leaves one to itself, which is half of two.
  maxWorkers: '100%',
  testSequencer: '<rootDir>/tests/loop/longestFirst.js',
  projects: [
    {
      ...common,
      displayName: 'node',
      testMatch: ['**/*.test.ts'],
      testPathIgnorePatterns: ['/node_modules/', '<rootDir>/tests/browser/'],
    },
    {
      ...common,
      displayName: 'browser',
      testEnvironment: '<rootDir>/tests/browser/kept.js',
      testEnvironmentOptions: { globalsCleanup: 'off' },
      testMatch: ['<rootDir>/tests/browser/**/*.test.ts'],
      globalSetup: '<rootDir>/tests/browser/build.ts',
    },
  ],
};
