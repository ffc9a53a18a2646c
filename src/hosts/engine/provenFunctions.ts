/** Built-in functions for which the table of known results holds no formula. */
export const UNPROVEN: ReadonlySet<string> = new Set(
  (
    'MINA VARP STDEVA STDEVPA VARA VARPA SKEW.P FORMULATEXT SHEET CELL COS TAN SEC CSC COT ASIN ACOS ATAN ACOT SINH ' +
    'COSH TANH SECH CSCH COTH ASINH ACOSH ATANH ACOTH CEILING.PRECISE ISO.CEILING FLOOR.PRECISE COMBINA PERMUTATIONA ' +
    'BIN2OCT BIN2HEX OCT2DEC DEC2OCT OCT2BIN OCT2HEX HEX2BIN HEX2OCT BITOR BITXOR BITLSHIFT BITRSHIFT'
  ).split(' '),
);

/** Whether the table of known results proves the engine on a function. */
export const isProvenByTable = (name: string): boolean => !UNPROVEN.has(name);
