import { textOf, type BookSheet, type GrowersBook } from './book';
import type { Place } from './candidate';
import type { TableFit } from './fitted';

// Fills of rows say something only where the grower wrote down what. No formula can read them.

const COLOURS =
  'red|green|yellow|orange|pink|purple|blue|gr[ae]y|rot|gr[üu]n|gelb|blau|rouge|vert|jaune|bleu|roj[oa]|verde|amarill[oa]|azul|rood|groen|geel|blauw|ross[oi]|giall[oi]|vermelh[oa]|amarel[oa]|r[øo]d|gr[øo]n|gul|czerwon\\p{L}*|zielon\\p{L}*|ż[óo]łt\\p{L}*';
/** `red = mouldy`, `yellow rows: picking`; of a lone colour with a colon only those that name no mushroom. */
const SAYS_WHAT = new RegExp(
  `(?<!\\p{L})(?:${COLOURS})(?:\\s+(?:rows?|cells?|lines?|means))?\\s*=\\s*\\p{L}|(?<!\\p{L})(?:${COLOURS})\\s+(?:(?:rows?|cells?|lines?)\\s*[:–-]|means)\\s*\\p{L}|\\p{L}\\s*=\\s*(?:${COLOURS})(?!\\p{L})|(?<!\\p{L})(?:red|green|yellow)\\s*:\\s*\\p{L}`,
  'iu',
);
const LONGEST = 160;

/** A cell that says what colours mean. */
export interface ColourKey extends Place {
  readonly says: string;
}

const keyOn = ({ name, rows }: BookSheet): ColourKey | undefined => {
  for (const [row, cells] of rows.entries()) {
    const column = cells.findIndex((cell) => {
      const text = typeof cell === 'string' ? cell.trim() : '';
      return text.length <= LONGEST && SAYS_WHAT.test(text);
    });
    if (column >= 0) return { sheet: name, row, column, says: textOf(cells[column]!).trim() };
  }
  return undefined;
};

/** The first such cell of each sheet that a job reads. */
export function colourKeys(book: GrowersBook, tables: ReadonlyMap<string, TableFit>): ColourKey[] {
  const read = new Set(
    [...tables.values()].flatMap(({ candidate }) =>
      (candidate.parts ?? [candidate]).map(({ sheet }) => sheet.name),
    ),
  );
  return book.sheets.flatMap((sheet) => (read.has(sheet.name) ? (keyOn(sheet) ?? []) : []));
}
