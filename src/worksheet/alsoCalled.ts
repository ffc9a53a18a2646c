// What growers call the columns that many tables have.

// Of other headers those are listed that SAME_WORDS of headerWords.ts and the order of words do not give.

const LOT_HEADERS = ['lot no', 'lot id', 'lot code', 'lot name', 'batch', 'id'];
const STRAIN_HEADERS = [
  'strain no',
  'strain name',
  'strain id',
  'strain code',
  'variety',
  'culture',
  'species',
];
const BLOCKS_HEADERS = [
  'bags',
  'qty',
  'number of blocks',
  'block count',
  'total blocks',
  'blocks made',
  'blocks inoculated',
  'blocks filled',
  'qty made',
  'how many',
  'pieces',
  'pcs',
  'unit count',
];
const BLOCK_MASS_HEADERS = [
  'block weight',
  'bag wt',
  'block size',
  'kg per block',
  'lb per block',
  'lbs per block',
  'block wet weight',
  'fill weight',
  'unit weight',
  'weight each',
  'kg per piece',
];
const MOISTURE_HEADERS = [
  'moist',
  'moisture content',
  'moisture percent',
  'block moisture',
  'mc',
  'water content',
  'water percent',
  'hydration',
];
const INOCULATED_HEADERS = [
  'inoc',
  'date inoculated',
  'day inoculated',
  'spawned',
  'spawn date',
  'date made',
  'production date',
  'start date',
  'started',
];
const LOADED_HEADERS = [
  'date loaded',
  'load date',
  'loading date',
  'opened',
  'date opened',
  'opening date',
  'to fruiting',
  'date to fruiting',
  'moved to fruiting',
  'fruiting date',
  'fruited',
];

/** Where a lot tells the day or how many of its blocks. */
const LOADED_SO_FAR_HEADERS = [
  ...LOADED_HEADERS,
  'loaded so far',
  'opened so far',
  'blocks opened',
  'bags opened',
  'blocks loaded',
  'bags loaded',
];

const PRODUCT_HEADERS = ['sold as', 'product name', 'sold under'];
const ROOM_HEADERS = ['location', 'building', 'bldg', 'grow room', 'fruiting room', 'tent', 'chamber'];

export const HEADERS = {
  lot: LOT_HEADERS,
  strain: STRAIN_HEADERS,
  blocks: BLOCKS_HEADERS,
  blockMass: BLOCK_MASS_HEADERS,
  moisture: MOISTURE_HEADERS,
  loaded: LOADED_HEADERS,
  loadedSoFar: LOADED_SO_FAR_HEADERS,
  inoculated: INOCULATED_HEADERS,
  product: PRODUCT_HEADERS,
  room: ROOM_HEADERS,
} as const;
