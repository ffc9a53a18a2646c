import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';

// Figures that share a cell: `50/30/20` under `Flush split`, `45 / 18 / 7` under `Colonise / brown / rest`.

/** Which of the figures of a cell is meant, from 0, and what parts them. */
export interface Piece {
  readonly at: number;
  readonly signs: readonly string[];
  /** Whether words may follow the figure: `8 shelves x 24 blocks`. */
  readonly isFigure?: boolean;
  /** Whether some cells have three figures: the first two are then multiplied for the first, and the third is the second. */
  readonly isOfThree?: boolean;
  /** Whether its signs may be capitals: `24 X 5 lb`. */
  readonly isLowered?: boolean;
  /** Whether a cell that begins with no figure has none: `kg` beside `20 kg sacks`. */
  readonly isNothingElse?: boolean;
}

const SIGNS = ['/', '+', '|', ';', '\n', ' & ', ' and ', ' then '];
/** Signs that may lie within a figure or a range: only where no other parts the cell. */
const [COMMA, DASH] = [',', '-'];

/** The signs that part the figures of some cells. */
export function signsIn(texts: readonly string[]): string[] {
  const found = SIGNS.filter((sign) => texts.some((text) => text.includes(sign)));
  if (found.length > 0) return found;
  const has = (sign: string): boolean => texts.some((text) => text.includes(sign));
  return has(`${COMMA} `) || texts.some((text) => text.split(COMMA).length > 2)
    ? [COMMA]
    : has(DASH)
      ? [DASH]
      : [];
}

export const piecesOf = (text: string, signs: readonly string[]): string[] =>
  signs
    .reduce((rest, sign) => rest.replaceAll(sign, '|'), text)
    .split('|')
    .map((piece) => piece.trim());

/** One of the figures in a cell; a figure alone is the first. */
export function pieceOf(cell: Cell, piece: Piece): Cell {
  const { at, signs, isFigure, isLowered, isOfThree, isNothingElse } = piece;
  if (isOfThree) {
    const figureAt = (one: number): Cell => pieceOf(cell, { at: one, signs, isFigure: true });
    const third = figureAt(2);
    if (isBlank(third)) return figureAt(at);
    return at === 0 ? Number(figureAt(0)) * Number(figureAt(1)) : third;
  }
  if (isBlank(cell) || isCellError(cell)) return cell;
  if (typeof cell !== 'string') return at === 0 ? cell : null;
  const text = isFigure || isLowered ? textOf(cell).toLowerCase() : textOf(cell);
  const own = piecesOf(text, signs)[at] ?? '';
  if (isNothingElse && !/^\d/.test(own)) return null;
  return (isFigure ? own.split(' ')[0]! : own) || null;
}

/** Longer than any figure. */
const WIDTH = 40;

/** The same as a formula says it: nothing where a cell has no such figure. */
export function pieceText(
  cells: string,
  { at, signs, isFigure, isLowered, isOfThree, isNothingElse }: Piece,
): string {
  if (isOfThree) {
    const [first, second, third] = [0, 1, 2].map((one) =>
      pieceText(cells, { at: one, signs, isFigure: true }),
    );
    return at === 0 ? `IF(${third}="",${first},${first}*${second})` : `IF(${third}="",${second},${third})`;
  }
  const texts = signs.map((sign) => (sign === '\n' ? 'CHAR(10)' : `"${sign}"`));
  const parted = texts.reduce(
    (rest, sign) => `SUBSTITUTE(${rest},${sign},"|")`,
    isFigure || isLowered ? `LOWER(${cells})` : cells,
  );
  const whole = `TRIM(MID(SUBSTITUTE(${parted},"|",REPT(" ",${WIDTH})),${at * WIDTH + 1},${WIDTH}))`;
  const held = isNothingElse ? `IF(ISNUMBER(VALUE(LEFT(${whole},1))),${whole},"")` : whole;
  const piece = isFigure ? `LEFT(${whole},FIND(" ",${whole}&" ")-1)` : held;
  return `IF(ISNUMBER(${cells}),${at === 0 ? cells : '""'},${piece})`;
}
