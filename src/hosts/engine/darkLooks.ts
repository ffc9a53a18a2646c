// Colours of a book on a dark sheet. A fill keeps its hue and becomes as dark as it was light; what is written on it is
// made so much lighter that it can be read there.

type Colour = readonly [red: number, green: number, blue: number];

/** A colour by lightness, from 0 to 1, and two measures of hue (Björn Ottosson, Oklab, 2020). */
type Lab = readonly [lightness: number, a: number, b: number];

/** The sheet, and what is written on it where the book gives no colour. */
export const DARK_SHEET = '#1f1c19';
export const DARK_INK = '#ece5d9';

/** The least contrast of text that WCAG 2.2 asks for (1.4.3), and a little more for rounding. */
const LEAST_CONTRAST = 4.6;
/** Fills are no lighter than this, so that white can be read on any. */
const LIGHTEST_FILL = 0.45;
const DARKEST_FILL = 0.27;

/** A fill and the text on it as they are on a dark sheet; without a fill the sheet itself is behind the text. */
export function darkened(
  fill: string | undefined,
  text: string | undefined,
): { readonly fill: string | undefined; readonly text: string } {
  const given = fill === undefined ? undefined : colourOf(fill);
  const isSheet = given === undefined || given.every((channel) => channel > 0.995);
  const behind = isSheet ? colourOf(DARK_SHEET)! : darkFill(given);
  const ink = (text === undefined ? undefined : colourOf(text)) ?? ([0, 0, 0] as const);
  return { fill: isSheet ? undefined : written(behind), text: written(legible(ink, behind)) };
}

/** A line of the book as it is on a dark sheet. */
export const darkLine = (line: string): string => {
  const colour = colourOf(line);
  if (!colour) return line;
  const [lightness, a, b] = labOf(colour);
  return written(ofLab([0.85 - 0.5 * lightness, a, b]));
};

function darkFill(fill: Colour): Colour {
  const [lightness, a, b] = labOf(fill);
  if (lightness <= LIGHTEST_FILL) return ofLab([Math.max(lightness, DARKEST_FILL), a, b]);
  const share = (1 - lightness) / (1 - LIGHTEST_FILL);
  return ofLab([DARKEST_FILL + share * (LIGHTEST_FILL - DARKEST_FILL), a, b]);
}

/** The colour itself where it can be read, else the least lighter one that can. */
function legible(ink: Colour, behind: Colour): Colour {
  const [lightness, a, b] = labOf(ink);
  // Nearly black and grey are what is usual: they become what is usual here.
  const isGrey = Math.hypot(a, b) < 0.02;
  const from = isGrey ? Math.max(lightness, 0.92 - 0.25 * lightness) : lightness;
  for (let tried = from; tried < 1; tried += 0.02) {
    const colour = ofLab([tried, a, b]);
    if (contrast(colour, behind) >= LEAST_CONTRAST) return colour;
  }
  return [1, 1, 1];
}

/** How well two colours can be told apart, from 1 to 21 (WCAG 2.2, contrast ratio). */
export function contrastOf(one: string, other: string): number {
  return contrast(colourOf(one)!, colourOf(other)!);
}

function contrast(one: Colour, other: Colour): number {
  const [a, b] = [luminance(one), luminance(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

const linear = (channel: number): number =>
  channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
const curved = (channel: number): number =>
  channel <= 0.0031308 ? channel * 12.92 : 1.055 * channel ** (1 / 2.4) - 0.055;

const luminance = ([red, green, blue]: Colour): number =>
  0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);

/** `#1F4E78`, `#fff` or `#1F4E78FF` */
function colourOf(text: string): Colour | undefined {
  const short = /^#([\da-f])([\da-f])([\da-f])$/i.exec(text);
  if (short) return short.slice(1).map((digit) => parseInt(digit + digit, 16) / 255) as unknown as Colour;
  const long = /^#([\da-f]{2})([\da-f]{2})([\da-f]{2})(?:[\da-f]{2})?$/i.exec(text);
  return long?.slice(1, 4).map((digits) => parseInt(digits, 16) / 255) as unknown as Colour | undefined;
}

/** With its opacity, as no book writes it, so that what is dark already is known. */
const written = (colour: Colour): string =>
  `#${colour.map((channel) => hexOf(Math.round(255 * channel))).join('')}ff`;
const hexOf = (byte: number): string => byte.toString(16).padStart(2, '0');

function labOf(colour: Colour): Lab {
  const [r, g, b] = colour.map(linear) as unknown as Colour;
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

function ofLab([lightness, a, b]: Lab): Colour {
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const channels = [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
  return channels.map((one) => curved(Math.min(1, Math.max(0, one)))) as unknown as Colour;
}
