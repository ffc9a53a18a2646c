import { catalogue } from '../../worksheet/catalogue';
import type { TableColumn } from '../../worksheet/cells/columns';

/** The jobs a grower comes with. */
export const JOBS = ['ready', 'plan', 'audit', 'mix'] as const;
export type JobName = (typeof JOBS)[number];

/** A column that a job looks for in the grower's book. */
export interface WantedColumn {
  readonly name: string;
  readonly column: TableColumn<unknown>;
  readonly isNeeded: boolean;
  /** Whether the job can do without it, though a table of this kind has it. */
  readonly mayLack?: boolean;
  /** Whether its data alone say which column it is. */
  readonly isByData?: boolean;
  /** Whether blocks that are left to open come before those that were made. */
  readonly isOfWhatIsLeft?: boolean;
}

export type TableName =
  | 'lots'
  | 'strains'
  | 'rooms'
  | 'orders'
  | 'harvests'
  | 'recipe'
  | 'shares'
  | 'calendar'
  | 'closures'
  | 'standing';

/** A table that a job looks for. */
export interface WantedTable {
  readonly name: TableName;
  readonly columns: readonly WantedColumn[];
  /** Columns that such a table may have and the job has no use for: a header that is theirs is no other's. */
  readonly known: readonly WantedColumn[];
  /** Words in the names of sheets that hold such a table. */
  readonly sheetWords: RegExp;
  /** Where the book has no such table the grower is asked to fill it in. */
  readonly isAsked: boolean;
}

export interface Job {
  readonly name: JobName;
  /** The question it answers. */
  readonly title: string;
  readonly tables: readonly WantedTable[];
}

/** Of lots that count how many of their blocks were set out: since when these stand on shelves. */
export const OUT_SINCE = 'out since';

const SHEET_WORDS: Record<TableName, RegExp> = {
  lots: /lot|batch|inoc|grow|spawn|block|bag|incubat|charge|partij|impf|partie|szczep|lote/i,
  strains: /strain|variet|species|culture|sorte|stamm|souche|cepa|rassen|odmian|estirpe|variedade/i,
  rooms:
    /room|location|shel|house|space|tent|tunnel|hall|raum|räume|salle|chambre|sala|kamer|hal[ea]|komor|câmara|estufa|^rum\b/i,
  orders:
    /order|custom|chefs|restaurants|sale|deliver|demand|standing|promis|\bwants?\b|wanted|bestell|auftr|commande|livraison|pedido|entrega|levering|ordre|zam[oó]wien|dostaw|encomenda/i,
  harvests:
    /pick|harvest|yield|flush|crop|ernte|r[ée]colte|cosecha|oogst|raccolt|zbior|colheita|h[øo]st|pluk/i,
  recipe:
    /recipe|mix|substrate|formula|ingredient|rezept|mischung|recette|m[ée]lange|receta|recept|mengsel|mieszan|receita|mistura/i,
  // Asked for, never looked for.
  shares: /$^/,
  calendar: /$^/,
  closures: /$^/,
  // What of the lots is on the shelves.
  standing: /$^/,
};

/** The columns that functions declare for a table of one name, those of the first function before the others'. */
function declared(
  functionNames: readonly string[],
  table: string,
): Readonly<Record<string, TableColumn<unknown>>> {
  const columns = functionNames.map((name) => {
    const argument = catalogue
      .find((one) => one.name === name)
      ?.arguments.find((one) => one.name === table && one.shape === 'table');
    if (argument?.shape !== 'table') throw new Error(`${name} has no table ${table}`);
    return argument.columns;
  });
  return Object.assign({}, ...columns.reverse()) as Record<string, TableColumn<unknown>>;
}

/**
 * A table of a function, with the columns that the job takes; those with an asterisk it cannot do without, by one with a
 * question mark its table is known.
 */
function wanted(
  name: TableName,
  functionNames: readonly string[],
  columnNames: readonly string[],
  isAsked = false,
  ofWhatIsLeft?: string,
): WantedTable {
  const columns: Readonly<Record<string, TableColumn<unknown>>> = {
    // The room that a lot is in makes it a load that stands there.
    ...(name === 'lots' && {
      room: declared(['LOADPLAN'], 'standing')['room']!,
      [OUT_SINCE]: declared(['LOADPLAN'], 'standing')['loaded']!,
    }),
    ...declared(functionNames, name),
  };
  const own = columnNames.map(bareName);
  const every = name === 'strains' ? declared(['LOADPLAN'], name) : {};
  return {
    name,
    known: Object.entries(every).flatMap(([known, column]) =>
      own.includes(known) ? [] : [{ name: known, column, isNeeded: false }],
    ),
    sheetWords: SHEET_WORDS[name],
    isAsked,
    columns: columnNames.map((marked) => {
      const own = bareName(marked);
      const column = columns[own];
      if (!column) throw new Error(`the table ${name} has no column ${own}`);
      const isNeeded = /[*?]$/.test(marked);
      const mayLack = marked.endsWith('?');
      const isByData = own === OUT_SINCE;
      return { name: own, column, isNeeded, mayLack, isByData, isOfWhatIsLeft: own === ofWhatIsLeft };
    }),
  };
}

const bareName = (marked: string): string => marked.replace(/[*?]$/, '');

/** What is taken off a mass of picks: read where it is, never looked for. */
export const TARE: WantedColumn = {
  name: 'tare',
  column: declared(['YIELDAUDIT'], 'harvests')['tare']!,
  isNeeded: false,
};

const PICKING = ['first pick*', 'pick days*', 'flush gap', 'flushes', 'flush', 'efficiency*', 'loss'];

export const JOB: Record<JobName, Job> = {
  ready: {
    name: 'ready',
    title: 'Which lots are ready?',
    tables: [
      wanted(
        'lots',
        ['LOADPLAN', 'YIELDAUDIT'],
        ['lot*', 'strain*', 'blocks*', 'inoculated*', 'loaded'],
        false,
        'blocks',
      ),
      wanted('strains', ['READYWINDOW'], ['strain*', 'earliest*', 'best*', 'latest?'], true),
    ],
  },
  plan: {
    name: 'plan',
    title: 'Plan my loading',
    tables: [
      wanted(
        'lots',
        ['LOADPLAN', 'YIELDAUDIT'],
        [
          'lot*',
          'strain*',
          'blocks*',
          'block mass*',
          'moisture*',
          'inoculated*',
          'loaded',
          OUT_SINCE,
          'room',
          'product',
        ],
        false,
        'blocks',
      ),
      wanted(
        'strains',
        ['LOADPLAN'],
        ['strain*', 'earliest*', 'best*', 'latest*', ...PICKING, 'product'],
        true,
      ),
      wanted(
        'rooms',
        ['LOADPLAN'],
        ['room*', 'shelves*', 'blocks per shelf*', 'closed from', 'closed to', 'strains'],
        true,
      ),
      wanted('orders', ['LOADPLAN'], ['product*', 'mass*', 'due*', 'from', 'keep days', 'price']),
    ],
  },
  audit: {
    name: 'audit',
    title: 'What came off, and what cannot be right?',
    tables: [
      wanted('harvests', ['YIELDAUDIT'], ['lot*', 'date*', 'mass*', 'flush', 'blocks']),
      wanted(
        'lots',
        ['YIELDAUDIT'],
        ['lot*', 'strain*', 'blocks', 'block mass', 'moisture', 'inoculated', 'loaded', 'total'],
      ),
      wanted(
        'strains',
        ['YIELDAUDIT'],
        ['strain*', 'first pick*', 'pick days*', 'flush gap', 'flushes', 'efficiency*', 'earliest'],
        true,
      ),
    ],
  },
  mix: {
    name: 'mix',
    title: 'Weigh out a mix',
    tables: [wanted('recipe', ['MIX'], ['ingredient*', 'share*', 'moisture*', 'pack'])],
  },
};

/**
 * What is asked of strains whose sheet does not say it: figures that no column of it has; the share of the crop that each
 * flush gives, where only the number of flushes is there.
 */
export const SHARES: WantedTable = {
  ...wanted(
    'strains',
    ['LOADPLAN'],
    ['strain*', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'flush gap', 'efficiency', 'flush'],
  ),
  name: 'shares',
};

/** What is asked of a plan: how much can be picked in a day. */
export const LIMITS: WantedTable = wanted('calendar', ['LOADPLAN'], ['day*', 'pick limit*', 'load limit*']);

/** What is asked where the book says in words when rooms are shut. */
export const CLOSURES: WantedTable = {
  ...wanted('rooms', ['LOADPLAN'], ['room*', 'closed from', 'closed to']),
  name: 'closures',
};

/** What a grower types of each record of a table that the book has. */
export const TYPED_OF_EACH: Partial<Record<TableName, WantedTable>> = { strains: SHARES, rooms: CLOSURES };

/** The table that a grower fills in under this name. */
export const filledTable = (job: Job, name: TableName): WantedTable =>
  job.tables.find((one) => one.name === name) ??
  (name === 'calendar' ? LIMITS : name === 'closures' ? CLOSURES : SHARES);
