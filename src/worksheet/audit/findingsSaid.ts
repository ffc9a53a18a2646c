import type { AuditedColumn, Cause, Finding, MassUnit, Slip } from '../../maths/audit/yieldRecords';

// What an audit says of a finding. Growers read it in a cell.

type Says = string | ((finding: Finding) => string);

const isDate = (column: AuditedColumn): boolean =>
  column === 'date' || column === 'loaded' || column === 'inoculated';
const rowsOf = ({ rows }: Finding, things: string): string =>
  rows.length > 1 ? ` (${rows.length} ${things})` : '';

const SAYS: Readonly<Record<Cause, Says>> = {
  'lot missing': 'no lot',
  'lot unknown': (finding) => `this lot is not in lots${rowsOf(finding, 'rows')}`,
  'lot spelling': (finding) => `spelled another way in lots${rowsOf(finding, 'rows')}`,
  'lot other': ({ slip }) =>
    slip === 'label'
      ? 'another lot with a similar name fits better'
      : 'another lot fits better than this lot',
  'lot twice': ({ about }) => `this lot has two rows in lots; the first is row ${about}`,
  'lot not loaded': 'picked, but not loaded yet: another lot’s name, or no load date typed',
  'lot not picked': 'loaded long ago and never picked',
  'not a number': ({ column }) => `text or an error where a ${isDate(column) ? 'date' : 'number'} should be`,
  'out of range': ({ column }) => `not a possible ${column}`,
  'mass missing': 'no mass, or 0',
  'mass negative': ({ tare }) =>
    tare === undefined ? 'the mass is below 0' : 'the mass is less than its tare',
  mass: ({ tare }) =>
    `the mass${tare === undefined ? '' : ' without its tare'} does not fit the lot’s other picks`,
  'mass odd': 'the mass is far from the lot’s other picks',
  group: ({ rows, about, added }) =>
    added === undefined
      ? `${rows.length} masses${about ? ` of ${about}` : ''} are off by one factor`
      : `${rows.length} masses of ${about} are all heavier by about ${added}`,
  book: 'all masses together are not a possible yield of the dry mass',
  'date missing': 'no date',
  date: 'the date does not fit the lot',
  'date odd': 'the date does not fit the lot',
  'load date': 'all picks of the lot contradict the load date',
  inoculated: 'the time from inoculation to loading is not this strain’s',
  unripe: 'loaded before the strain can be ready',
  flush: 'the flush does not fit the date',
  'flush missing': ({ about }) => `no pick of flush ${about}`,
  twice: ({ about }) => `the same as row ${about}`,
  'blocks over': 'more blocks picked than loaded',
  'block mass': 'not like the block mass of other lots',
  moisture: 'not like the moisture of other lots',
  blocks: 'the number of blocks does not fit the yield',
  efficiency: 'the yield is far from that of other lots',
  total: 'the total is not the sum of the lot’s picks',
  'not judged': (finding) => {
    const what =
      finding.column === 'strain' && finding.value !== ''
        ? 'the strain is not in strains'
        : `no ${finding.column === 'loaded' ? 'load date' : finding.column}`;
    return `not judged: ${what}${rowsOf(finding, 'lots')}`;
  },
};

/** What was expected, where it is no figure. */
const EXPECTED: Readonly<Partial<Record<Cause, Says>>> = {
  'lot missing': 'one of your lots',
  'lot unknown': 'one of your lots',
  'lot not loaded': 'a load date, or another lot',
  'lot not picked': 'picks by now',
  'not a number': ({ column }) => (isDate(column) ? 'a date' : `${column} as a number`),
  'out of range': ({ column }) =>
    column === 'moisture' ? 'a share, such as 62%' : isDate(column) ? 'a date' : `${column} above 0`,
  'mass missing': 'a mass, or none',
  'mass negative': 'a mass above 0',
  'date missing': 'the day of the pick',
};

const UNIT_NAMES: Readonly<Record<MassUnit, string>> = {
  kg: 'kilograms',
  lb: 'pounds',
  g: 'grams',
  oz: 'ounces',
};

const SLIPS: Readonly<Record<Exclude<Slip, 'grams' | 'kilograms' | 'pounds' | 'ounces'>, string>> = {
  'decimal right': 'decimal point one place to the right',
  'decimal left': 'decimal point one place to the left',
  'two decimals right': 'decimal point two places to the right',
  'two decimals left': 'decimal point two places to the left',
  'swapped date': 'day and month swapped',
  'other year': 'another year',
  'other month': 'another month',
  'other day': 'another day of the month',
  label: 'a slip in the label',
  'other lot': 'another lot’s label',
  spelling: 'another spelling',
  flush: 'another flush',
  twice: 'row typed twice',
  minus: 'a minus sign too many',
  text: 'typed or pasted as text',
  percent: 'percent sign left out',
  'dry share': 'dry share typed for moisture',
  'swapped digits': 'two digits swapped',
  'other strain': 'another strain’s block mass',
  'unusual mass': 'not the block mass of the strain’s other lots',
  'extra digit': 'a digit too many',
  crate: 'weighed with the crate',
};

const said = (says: Says | undefined, finding: Finding): string =>
  typeof says === 'function' ? says(finding) : (says ?? '');

/** What is wrong. */
export const findingSaid = (finding: Finding): string => said(SAYS[finding.cause], finding);

/** What was expected, where it is no figure. */
export const expectedSaid = (finding: Finding): string => said(EXPECTED[finding.cause], finding);

/** The slip, in the unit of the book. */
export function slipSaid(slip: Slip | undefined, unit: MassUnit | undefined): string {
  if (slip === undefined) return '';
  if (slip !== 'grams' && slip !== 'kilograms' && slip !== 'pounds' && slip !== 'ounces') return SLIPS[slip];
  const meant =
    unit === undefined || UNIT_NAMES[unit] === slip
      ? slip === 'kilograms'
        ? 'pounds'
        : 'kilograms'
      : UNIT_NAMES[unit];
  return `${slip} typed for ${meant}`;
}

/** The slip that is suspected; the two likeliest where none is sure enough to be corrected. */
export function slipsSaid({ slip, corrected, rivals }: Finding, unit: MassUnit | undefined): string {
  if (corrected !== undefined || !rivals) return slipSaid(slip, unit);
  const said = new Set(rivals.map((rival) => slipSaid(rival.slip, unit)));
  return [...said].slice(0, 2).join(' or ');
}

/** How sure, in words. */
export function surenessSaid(sure: number): string {
  if (sure === 1) return 'certain';
  if (sure >= 0.95) return 'almost certain';
  if (sure >= 0.8) return 'very likely';
  return sure >= 0.6 ? 'likely' : 'look again';
}
