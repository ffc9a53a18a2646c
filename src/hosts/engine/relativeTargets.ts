/** The engine's reader finds parts by relative names only, and many programs write `/xl/worksheets/sheet1.xml`. */
export function withRelativeTargets(parts: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(parts).map(([name, text]) => {
      const folder = /^(.*?)_rels\/[^/]*\.rels$/i.exec(name)?.[1];
      if (folder === undefined || folder === '' || !/Target\s*=\s*["']\//.test(text)) return [name, text];
      const relative = text.replace(
        /(\sTarget\s*=\s*)(["'])\/([^"']*)\2/g,
        (_, before: string, quote: string, target: string) =>
          `${before}${quote}${fromFolder(folder, target)}${quote}`,
      );
      return [name, relative];
    }),
  );
}

/** `xl/tables/table1.xml` as `xl/worksheets/` names it: `../tables/table1.xml`. */
function fromFolder(folder: string, target: string): string {
  const here = folder.split('/').slice(0, -1);
  const there = target.split('/');
  let shared = 0;
  while (shared < here.length && here[shared] === there[shared]) shared++;
  return [...here.slice(shared).map(() => '..'), ...there.slice(shared)].join('/');
}
