import fc from 'fast-check';

/** How many half characters the code points hold. */
const HALVES = 0x800;
const whole = fc
  .integer({ min: 0, max: 0x10ffff - HALVES })
  .map((point) => String.fromCodePoint(point < 0xd800 ? point : point + HALVES));

/**
 * Any text of whole characters: that of `unit: 'binary'`, which lists every one of the million characters before the
 * first call.
 */
export const anyText = (length: { readonly minLength?: number } = {}): fc.Arbitrary<string> =>
  fc.string({ unit: whole, ...length });
