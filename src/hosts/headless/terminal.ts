/** Signs that steer a terminal (ISO/IEC 6429) or turn the direction of writing (Unicode, annex 9). */
const STEERING = /[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;

/** A line as it may go to a terminal, its tabs and the breaks of a longer text kept. */
export const safeLine = (text: string): string =>
  text.replace(STEERING, (sign) => (sign === '\t' || sign === '\n' ? sign : ''));

/** A text on one line, as it may go to a terminal. */
export const plainText = (text: string): string => text.replace(/\s+/g, ' ').replace(STEERING, '');

/**
 * An object as JSON that may go to a terminal: what it holds can be read from it unchanged. It is one line unless it is
 * to be indented.
 */
export const jsonText = (object: object, indent?: number): string =>
  JSON.stringify(object, undefined, indent).replace(STEERING, (sign) =>
    sign === '\n' ? sign : `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );

/** A text that is a field of its own, without spaces around it. */
export const oneLine = (text: string): string => plainText(text).trim();
