import { mayBeLeftOut } from '../../worksheet/cells/arguments';
import { PREFIX } from '../../worksheet/constants';
import type { DescribedFunction } from '../../worksheet/words';

/** The extension's name among those of an office, and the interface and service of its functions. */
export const IDENTIFIER = 'org.pinset.calc';
export const INTERFACE = 'org.pinset.XFunctions';
export const SERVICE = 'Pinset';
/** The service that the menu calls. */
export const MENU_SERVICE = 'org.pinset.Menu';

/** How files of the other spreadsheet program name a function, which Calc reads and writes from version 25.2 on. */
const storedName = (name: string): string => `_xldudf_PINSET_${name}`;

const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);

const DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>\n';
const REGISTRY =
  'xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"';

/**
 * The types of the functions, in the plain text that an office reads. Each has the workbook as a first, hidden
 * argument; the others take whatever a cell, a block of cells or a formula may give.
 */
export function typeLibrary(functions: readonly DescribedFunction[]): string {
  const methods = functions.map(({ name, arguments: given }) => {
    const own = given.map((_, n) => `, [in] any argument${n + 1}`).join('');
    return `    sequence< sequence< any > > ${name}([in] com::sun::star::beans::XPropertySet workbook${own});`;
  });
  return `module org { module pinset {
  interface XFunctions {
${methods.join('\n')}
  };
}; };
`;
}

const property = (name: string, value: string): string =>
  `<prop oor:name="${name}"><value xml:lang="en">${escaped(value)}</value></prop>`;

/** What the function wizard shows, and the names functions have in files (`CalcAddIns.xcu`). */
export function functionNames(functions: readonly DescribedFunction[]): string {
  const nodes = functions.map(({ name, summary, arguments: given }) => {
    const parameters = given.map((argument, n) => {
      const { name: called, meaning } = argument;
      const choices = argument.shape === 'table' ? undefined : argument.kind.choices;
      const words = choices === undefined ? '' : ` (${Object.keys(choices).join(', ')})`;
      const optional = mayBeLeftOut(argument) ? 'May be left out: ' : '';
      return (
        `<node oor:name="argument${n + 1}" oor:op="replace">` +
        `${property('DisplayName', called)}${property('Description', `${optional}${meaning}${words}`)}</node>`
      );
    });
    return (
      `<node oor:name="${name}" oor:op="replace">${property('DisplayName', PREFIX + name)}` +
      `${property('Description', summary)}<prop oor:name="Category"><value>Add-In</value></prop>` +
      `<prop oor:name="CompatibilityName"><value xml:lang="en">${storedName(name)}</value></prop>` +
      `<node oor:name="Parameters">${parameters.join('')}</node></node>`
    );
  });
  return (
    `${DECLARATION}<oor:component-data ${REGISTRY} oor:name="CalcAddIns" oor:package="org.openoffice.Office">` +
    `<node oor:name="AddInInfo"><node oor:name="${SERVICE}" oor:op="replace"><node oor:name="AddInFunctions">` +
    `${nodes.join('\n')}</node></node></node></oor:component-data>\n`
  );
}

/** The entries of the menu: what the component is told, and what a grower reads. */
const ENTRIES = [
  ['here', 'What is wrong ~here'],
  ['workbook', 'What is wrong in this ~workbook'],
  ['format', '~Format these results'],
  ['names', '~Read the formulas of an Excel file'],
] as const;

/** The menu *Pinset* of Calc (`Addons.xcu`). */
export function menu(): string {
  const entries = ENTRIES.map(
    ([word, title], n) =>
      `<node oor:name="m${n + 1}" oor:op="replace">` +
      `<prop oor:name="URL"><value>service:${MENU_SERVICE}?${word}</value></prop>${property('Title', title)}` +
      '<prop oor:name="Context"><value>com.sun.star.sheet.SpreadsheetDocument</value></prop></node>',
  );
  return (
    `${DECLARATION}<oor:component-data ${REGISTRY} oor:name="Addons" oor:package="org.openoffice.Office">` +
    `<node oor:name="AddonUI"><node oor:name="OfficeMenuBar"><node oor:name="${IDENTIFIER}" oor:op="replace">` +
    `${property('Title', '~Pinset')}<prop oor:name="Context"><value>com.sun.star.sheet.SpreadsheetDocument</value></prop>` +
    `<node oor:name="Submenu">${entries.join('')}</node></node></node></node></oor:component-data>\n`
  );
}

/** The extension's own sheet of facts (`description.xml`). */
export const facts = (version: string): string =>
  `${DECLARATION}<description xmlns="http://openoffice.org/extensions/description/2006" ` +
  'xmlns:l="http://libreoffice.org/extensions/description/2011">' +
  `<identifier value="${IDENTIFIER}"/><version value="${version}"/>` +
  '<display-name><name lang="en">Pinset</name></display-name>' +
  '<dependencies><l:LibreOffice-minimal-version value="7.4" l:name="LibreOffice 7.4"/></dependencies></description>\n';

/** What the files of the extension are (`META-INF/manifest.xml`). */
export function contents(): string {
  const files: readonly (readonly [string, string])[] = [
    ['pinset.idl', 'application/vnd.sun.star.uno-typelibrary;type=RDB'],
    ['pinset.py', 'application/vnd.sun.star.uno-component;type=Python'],
    ['CalcAddIns.xcu', 'application/vnd.sun.star.configuration-data'],
    ['Addons.xcu', 'application/vnd.sun.star.configuration-data'],
  ];
  return (
    `${DECLARATION}<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">` +
    files
      .map(
        ([path, type]) => `<manifest:file-entry manifest:full-path="${path}" manifest:media-type="${type}"/>`,
      )
      .join('') +
    '</manifest:manifest>\n'
  );
}
