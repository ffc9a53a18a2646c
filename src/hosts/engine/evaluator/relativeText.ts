import { placeOf } from '../../xlsx/address';

/** Text in quotes, a quoted sheet name, what brackets hold (one inside another allowed), or a word that may be a cell. */
const PIECES =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'|\[(?:[^[\]]|\[(?:[^[\]])*\])*\]|\$?[A-Za-z]{1,3}\$?\d{1,7}(?![\w.(!\\?])|[\w.\\?$\u0080-\uffff]+/g;
const ADDRESS = /^(\$?)([A-Za-z]{1,3})(\$?)(\d{1,7})$/;
const LINES = /^(\$?)(\d+|[A-Za-z]{1,3})$/;

/**
 * A formula with its relative addresses written as distances from its cell: formulas filled down or to the right all
 * read alike. Two formulas that read alike mean the same seen from their cells.
 */
export function relativeText(formula: string, row: number, column: number): string {
  return formula.replace(PIECES, (piece, at: number) => {
    const found = ADDRESS.exec(piece);
    if (found && placeOf(piece)) {
      const place = placeOf(piece)!;
      const down = found[3] ? `$${place.row}` : place.row - row;
      const right = found[1] ? `$${place.column}` : place.column - column;
      return `\u0001${down},${right}\u0001`;
    }
    // B:B and 2:2 are as relative as a cell is.
    const beside = formula[at - 1] === ':' || formula[at + piece.length] === ':';
    const line = beside ? LINES.exec(piece) : null;
    if (line && line[1] === '') return `\u0002${piece}@${/\d/.test(piece) ? row : column}\u0002`;
    return piece;
  });
}
