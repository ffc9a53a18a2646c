const path = require('node:path');

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
    messages: { wall: '{{folder}} may not import {{target}}: the walls are a table in .oxlint.house.js.' },
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

/** The same cells give the same answers everywhere: no clock, no local time, no language of the machine. */
const CLOCKS = [
  "NewExpression[callee.name='Date']",
  "CallExpression[callee.name='Date']",
  "MemberExpression[object.name='Date'][property.name!='UTC']",
  "MemberExpression[object.name='Math'][property.name='random']",
  "Identifier[name='Intl']",
  'MemberExpression[property.name=/^(toLocale.*|localeCompare|getTimezoneOffset)$/]',
];

const clocks = {
  meta: {
    type: 'problem',
    schema: [],
    messages: { clock: 'Maths and worksheet know no clock, no local time, no language and no chance.' },
  },
  create(context) {
    const report = (node) => context.report({ node, messageId: 'clock' });
    return Object.fromEntries(CLOCKS.map((selector) => [selector, report]));
  },
};

/** The rules of this house, beside those that .oxlintrc.json takes from the linter. */
module.exports = { meta: { name: 'house' }, rules: { walls, clocks } };
