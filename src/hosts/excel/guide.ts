import { catalogue } from '../../worksheet/catalogue';
import type { Argument } from '../../worksheet/cells/arguments';
import { NUMBER_FORMATS, type Format } from '../../worksheet/cells/cell';
import { columnsOf } from '../../worksheet/cells/table';
import {
  FAMILIES,
  FAMILY_TITLES,
  type ExampleArgument,
  type Result,
  type WorksheetFunction,
} from '../../worksheet/define';
import { exampleFormula, exampleGrid } from '../../worksheet/examples';
import { signature } from '../../worksheet/functionTable';

/** Markup: what has been escaped, or was written here. */
class Html {
  constructor(readonly text: string) {}
}

type Part = Html | string | readonly (Html | string)[];

function markup(part: Part): string {
  if (part instanceof Html) return part.text;
  if (typeof part !== 'string') return part.map(markup).join('');
  return part.replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
}

/** A template whose holes are escaped unless they are markup already. */
function html(fixed: TemplateStringsArray, ...holes: readonly Part[]): Html {
  return new Html(fixed.map((text, i) => text + (i < holes.length ? markup(holes[i]!) : '')).join(''));
}

const NOTHING = html``;

function argumentRow(argument: Argument): Html {
  const needed = argument.shape === 'table' ? [] : [argument.kind.needed];
  const leftOut = argument.shape !== 'range' && argument.role === 'optional' ? ['may be left out'] : [];
  return html`<tr>
    <th scope="row">${argument.name}</th>
    <td>${argument.meaning}${columnList(argument)}</td>
    <td>${[...needed, ...leftOut].join('; ')}</td>
  </tr>`;
}

/** The headers a table argument is read by, and what stands below each. */
function columnList(argument: Argument): Html {
  if (argument.shape !== 'table') return NOTHING;
  const items = columnsOf(argument.columns).map(([header, { kind, role }]) => {
    const shown =
      role === 'numbered' ? `${header} 1, ${header} 2, …` : role === 'others' ? 'any other header' : header;
    const rest = role === 'optional' || role === 'numbered' ? `${kind.needed}, may be missing` : kind.needed;
    return html`<li><b>${shown}</b> ${rest}</li>`;
  });
  return html`<ul>
    ${items}
  </ul>`;
}

function resultLine({ shape, columns }: Result<unknown>): Html {
  const names = columns.map(({ header, format }) =>
    format === 'plain' ? header : `${header} (${NUMBER_FORMATS[format]})`,
  );
  switch (shape) {
    case 'value':
      return html`<p><b>Gives</b> ${names.join('')}.</p>`;
    case 'row':
      return html`<p><b>Gives</b> beside each row: ${names.join(', ')}.</p>`;
    case 'table':
      return html`<p><b>Gives</b> a table with the columns ${names.join(', ')}.</p>`;
    case 'freeTable':
      return html`<p><b>Gives</b> a table whose columns depend on what you give.</p>`;
  }
}

/** A cell of an example's answer as the sheet shows it. */
function shownCell(cell: string | number | boolean | null, format: Format = 'plain'): string {
  if (typeof cell !== 'number') return cell === null ? '' : String(cell);
  if (format === 'percent') return `${Number((100 * cell).toPrecision(4))}%`;
  if (format === 'plain') return String(Number(cell.toPrecision(10)));
  const written = new Date(DAY_ZERO + Math.round(cell * 1440) * MINUTE).toISOString();
  return format === 'date' ? written.slice(0, 10) : written.slice(0, 16).replace('T', ' ');
}

const MINUTE = 60_000;
/** Serial 0 of the 1900 system, for dates after February 1900. */
const DAY_ZERO = Date.UTC(1899, 11, 30);

function answerOf({ result }: WorksheetFunction, gives: ExampleArgument): Html {
  const rows = exampleGrid(gives) as readonly (readonly (string | number | boolean | null)[])[];
  const formatAt = (column: number): Format | undefined =>
    (result.shape === 'value' ? result.columns[0] : result.columns[column])?.format;
  const shown = rows.map((row) => row.map((cell, column) => shownCell(cell, formatAt(column))));
  if (rows.length === 1 && rows[0]!.length === 1) return html`<p>gives <b>${shown[0]![0]!}</b></p>`;
  const lines = shown.map(
    (row) =>
      html`<tr>
        ${row.map((cell) => html`<td>${cell}</td>`)}
      </tr>`,
  );
  return html`<p>gives</p>
    <div class="wide">
      <table class="sheet">
        ${lines}
      </table>
    </div>`;
}

function examples(definition: WorksheetFunction): Html {
  const items = definition.examples.map(
    (example) =>
      html`<h4>${example.title}</h4>
        <pre>${exampleFormula(definition, example.arguments)}</pre>
        ${answerOf(definition, example.gives)}`,
  );
  return html`<h3>Examples</h3>
    ${items}`;
}

function faults(definition: WorksheetFunction): Html {
  const items = definition.faults.map(
    ({ code, says, remedy }) =>
      html`<tr>
        <td><code>${code}</code></td>
        <td>… ${says} …</td>
        <td>${remedy}</td>
      </tr>`,
  );
  return html`<h3>When it has no answer</h3>
    <div class="wide">
      <table>
        <tr>
          <th>cell</th>
          <th>reason</th>
          <th>what to do</th>
        </tr>
        ${items}
      </table>
    </div>`;
}

function listed(title: string, entries: readonly string[]): Html {
  return entries.length === 0
    ? NOTHING
    : html`<h3>${title}</h3>
        <ul>
          ${entries.map((entry) => html`<li>${entry}</li>`)}
        </ul>`;
}

function page(definition: WorksheetFunction): Html {
  const { name, summary, notes, cautions = [], sources } = definition;
  return html`<article id="${name}">
    <h2>${name}</h2>
    <p>${summary}</p>
    <pre>=PINSET.${signature(definition)}</pre>
    ${notes === undefined ? NOTHING : html`<p>${notes}</p>`} ${resultLine(definition.result)}
    <h3>What you give it</h3>
    <div class="wide">
      <table>
        ${definition.arguments.map(argumentRow)}
      </table>
    </div>
    ${examples(definition)} ${faults(definition)} ${listed('Cautions', cautions)}
    ${listed('Sources', sources)}
  </article> `;
}

const families = FAMILIES.map((family) => ({
  title: FAMILY_TITLES[family],
  members: catalogue.filter((definition) => definition.family === family),
})).filter(({ members }) => members.length > 0);

const contents = families.map(
  ({ title, members }) =>
    html`<p><b>${title}</b> ${members.map(({ name }) => html`<a href="#${name}">${name}</a> `)}</p>`,
);

/** The text of guide.html, for the build: every function with what it takes, gives, and says when it has no answer. */
export default function guide(): string {
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta
          http-equiv="Content-Security-Policy"
          content="default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'"
        />
        <title>Pinset guide</title>
        <link rel="icon" href="icons/icon-32.png" />
        <link rel="stylesheet" href="guide.css" />
      </head>
      <body>
        <header>
          <h1>Pinset guide</h1>
          <p>Every function: what it takes, what it gives, and what it says when it has no answer.</p>
          <nav aria-label="Functions">${contents}</nav>
        </header>
        <main>
          <article>
            <h2>Rules for all of them</h2>
            <ul>
              <li>
                Give one call the whole column: it answers beside every row, and far quicker than a call in
                each row.
              </li>
              <li>
                Percentages are fractions: 62% or 0.62. Dates are the sheet’s own dates. Masses come back in
                the unit you gave.
              </li>
              <li>
                Tables are found by their headers, in any order; case, spaces and anything in brackets do not
                matter.
              </li>
              <li>
                A row whose first argument is blank or 0 reads blank, so a range may run past your data. Name
                a range with an end (A2:A500) or a table’s column, not a whole column (A:A): Excel on the web
                may refuse that.
              </li>
              <li>
                A fault stays in its own row. Point at the cell, or at the mark in its corner, to read the
                reason; Excel shows one with #VALUE! and #N/A.
              </li>
              <li>
                Pinset calculates; it does not know your room, your steriliser or your law. Local codes and
                licensed practitioners decide.
              </li>
            </ul>
          </article>
          ${families.flatMap(({ members }) => members.map(page))}
        </main>
      </body>
    </html> `.text;
}
