/** The parts with what one says of another as the engine's reader takes it: `worksheets/sheet1.xml` for `/xl/worksheets/…`. */
export function withRelativeTargets(parts: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(parts).map(([name, text]) => {
      if (!/^xl\/.*\.rels$/.test(name)) return [name, text];
      const up = name.startsWith('xl/_rels/') ? '' : '../';
      return [name, text.replace(/ Target="\/xl\//g, ` Target="${up}`)];
    }),
  );
}
