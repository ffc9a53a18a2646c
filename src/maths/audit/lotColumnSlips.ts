import { KILOGRAMS_A_POUND } from '../shared/constants';
import type { KnownLot } from './knownBook';
import type { MassUnit, Slip } from './yieldRecords';

const BLOCKS_SPREAD = 1;

export interface Meant {
  readonly value: number;
  readonly slip: Slip;
}

type Meants = (value: number) => readonly (Meant & { readonly often: number })[];

const digitsSwapped = (value: number, scale: number): number | undefined => {
  const digits = value * scale;
  const whole = Math.round(digits);
  if (Math.abs(digits - whole) > 1e-6 || whole < 10 || whole > 99) return undefined;
  const turned = 10 * (whole % 10) + Math.floor(whole / 10);
  return turned === whole || turned < 10 ? undefined : turned / scale;
};

const swappedDigits = (value: number, scale: number): (Meant & { often: number })[] => {
  const turned = digitsSwapped(value, scale);
  return turned === undefined ? [] : [{ value: turned, slip: 'swapped digits', often: 0.002 }];
};

const moistures: Meants = (share) => [
  { value: 1 - share, slip: 'dry share', often: 0.004 },
  ...(share < 0.1 ? [{ value: 10 * share, slip: 'decimal left', often: 0.004 } as const] : []),
  ...swappedDigits(share, 100),
];

const OUNCES_A_POUND = 16;
const GRAMS_A_POUND = 1000 * KILOGRAMS_A_POUND;
/** What a block mass is divided by, where it was typed in another unit than the book's. */
const OTHER_UNITS: Readonly<Record<MassUnit | 'unknown', readonly (readonly [Slip, number])[]>> = {
  kg: [
    ['grams', 1000],
    ['pounds', 1 / KILOGRAMS_A_POUND],
  ],
  lb: [
    ['kilograms', KILOGRAMS_A_POUND],
    ['ounces', OUNCES_A_POUND],
    ['grams', GRAMS_A_POUND],
    ['grams', 1000],
  ],
  g: [
    ['kilograms', 1 / 1000],
    ['pounds', 1 / GRAMS_A_POUND],
    ['ounces', OUNCES_A_POUND / GRAMS_A_POUND],
  ],
  oz: [
    ['pounds', 1 / OUNCES_A_POUND],
    ['grams', GRAMS_A_POUND / OUNCES_A_POUND],
  ],
  unknown: [
    ['grams', 1000],
    ['pounds', 1 / KILOGRAMS_A_POUND],
    ['kilograms', KILOGRAMS_A_POUND],
  ],
};

const blockMasses =
  (unit: MassUnit | undefined): Meants =>
  (mass) => [
    { value: mass / 10, slip: 'decimal right', often: 0.002 },
    { value: mass * 10, slip: 'decimal left', often: 0.002 },
    ...OTHER_UNITS[unit ?? 'unknown'].map(([slip, factor]) => ({ value: mass / factor, slip, often: 0.001 })),
    ...swappedDigits(mass, 10),
  ];

const blockCounts: Meants = (blocks) => [
  { value: blocks / 10, slip: 'decimal right', often: 0.001 },
  { value: blocks * 10, slip: 'decimal left', often: 0.001 },
];

/** One column of lots, the scale on which its values spread, and what may have been meant by one. */
export interface Column {
  readonly name: 'block mass' | 'moisture' | 'blocks';
  readonly of: (lot: KnownLot) => number | undefined;
  readonly onScale: (value: number) => number;
  /** ln of the lot's dry mass with the other value, less with this. */
  readonly moves: (from: number, to: number) => number;
  readonly correct: (lot: KnownLot, value: number) => void;
  readonly spread: number;
  readonly meants: Meants;
  /** How often a lot is given the value of another strain's lots, or one that no lot has. */
  readonly ofAnotherLot: number;
  /** ln of how likely a value is of any lot at all. */
  readonly possible: (value: number) => number;
}

/** No block of sawdust fruits as dry or as wet as beyond these (common practice, no source). */
const MOISTURES = [0.35, 0.85] as const;
const IMPOSSIBLE = -5;
const possibleMoisture = (share: number): number =>
  share < MOISTURES[0] || share > MOISTURES[1] ? IMPOSSIBLE : 0;
const anyIsPossible = (): number => 0;

/** Columns whose slips are factors. */
const BY_FACTOR: Pick<Column, 'onScale' | 'moves'> = {
  onScale: Math.log,
  moves: (from, to) => Math.log(to / from),
};

/** The columns that are judged by other lots, in their order. */
export const columnsOf = (unit: MassUnit | undefined): Column[] => [
  {
    name: 'moisture',
    of: (lot) => lot.moisture,
    onScale: (share) => Math.log(share / (1 - share)),
    moves: (from, to) => Math.log((1 - to) / (1 - from)),
    correct: (lot, value) => (lot.moisture = value),
    spread: 0.06,
    meants: moistures,
    // Each lot has a moisture of its own: what was meant by another's is not known.
    ofAnotherLot: 0,
    possible: possibleMoisture,
  },
  {
    name: 'block mass',
    of: (lot) => lot.blockMass,
    ...BY_FACTOR,
    correct: (lot, value) => (lot.blockMass = value),
    spread: 0.02,
    meants: blockMasses(unit),
    ofAnotherLot: 0.004,
    possible: anyIsPossible,
  },
  {
    name: 'blocks',
    of: (lot) => lot.blocks,
    ...BY_FACTOR,
    correct: (lot, value) => (lot.blocks = value),
    spread: BLOCKS_SPREAD,
    meants: blockCounts,
    ofAnotherLot: 0,
    possible: anyIsPossible,
  },
];
