// Formulas that read what a grower typed.

/** The word by which each strain is sold, as the grower gave it; its own name where there is none. */
export const productFormula = (strain: string, products: string, otherwise: string): string =>
  `=IF(${strain}="","",IFERROR(VLOOKUP(${strain},${products}[[strain]:[read as]],3,FALSE),${otherwise}))`;

/** What the grower typed of each strain or room, in a column of the table that was filled in. */
export function typedFormula(label: string, typed: string, column: number): string {
  const own = `VLOOKUP(${label},${typed},${column},FALSE)`;
  return `=IF(${label}="","",IFERROR(IF(${own}="","",${own}),""))`;
}
