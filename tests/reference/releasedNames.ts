/** Every function name that has been released, sorted. A name in a grower's workbook works for ever: only add. */
export const RELEASED_NAMES: readonly string[] = [
  'BIOEFFICIENCY',
  'BLOCKSFOR',
  'EXPECTEDYIELD',
  'MIX',
  'MIXWATER',
  'PICKDATE',
  'READYDATE',
  'READYWINDOW',
];
