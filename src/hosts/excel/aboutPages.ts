import { PREFIX } from '../../worksheet/constants';
import { node, type PageNode } from '../pane/node';
import { staticPage } from './staticPage';

// The pages that a store asks for, and what they say is what the code does.

/** Who publishes this build, and the e-mail or https address where people get help; the build is told. */
interface About {
  readonly filename: string;
  readonly publisher?: string;
  readonly support?: string;
}

const section = (title: string, ...paragraphs: readonly (string | PageNode)[]): PageNode =>
  node(
    'section',
    {},
    node('h2', {}, title),
    paragraphs.map((one) => (typeof one === 'string' ? node('p', {}, one) : one)),
  );
const steps = (...items: readonly string[]): PageNode =>
  node(
    'ol',
    {},
    items.map((item) => node('li', {}, item)),
  );

function helpLink(support: string | undefined): PageNode {
  if (support === undefined) return node('p', {}, 'Ask the person or the firm that gave you Pinset.');
  const href = support.includes('@') ? `mailto:${support}` : support;
  return node('p', {}, 'Write to ', node('a', { href }, support), '.');
}

const privacy = ({ publisher = 'whoever gave you Pinset', support }: About): PageNode[] => [
  section(
    'Your figures stay in your workbook',
    'Pinset calculates on your own computer, inside the spreadsheet program. It sends nothing from your workbook to anybody. It has no accounts, no advertising, and counts no visits.',
  ),
  section(
    'What is asked for over the network',
    `The files of Pinset come from the server of ${publisher}, which sees that they were asked for, as any web server does. In Excel the pages also load Microsoft’s office.js from Microsoft, as Microsoft requires. Microsoft’s own privacy statement holds for that and for Excel.`,
  ),
  section(
    'What is kept',
    'On your computer: whether you want examples in metric or US units, and whether the guide and the workbench are light or dark. Of the workbench also whether the panel is folded, and the workbook that was open with the cell you were on, until you click Forget. In your workbook: the version of Pinset that last wrote into it, and the sheets that you let Pinset add.',
  ),
  section('Questions', helpLink(support)),
];

const terms = ({ publisher = 'Whoever gave you Pinset', support }: About): PageNode[] => [
  section(
    'What Pinset is',
    'Pinset is free software under the MIT licence: you may use, copy and change it. It comes as it is, without warranty of any kind.',
    `${publisher} offers this copy of it.`,
    node(
      'p',
      {},
      'It holds parts by others, each free software too: ',
      node('a', { href: 'licences.txt' }, 'all licences'),
      '.',
    ),
  ),
  section(
    'What it is not',
    'Pinset calculates from the figures that it is given. It does not know your room, your steriliser or your law. Local codes and licensed practitioners decide about pressure, gas and food.',
    'Check an answer that matters against your own records before you act on it.',
  ),
  section('Questions', helpLink(support)),
];

const support = ({ support: address }: About): PageNode[] => [
  section(
    'Before you ask',
    node(
      'ul',
      {},
      node('li', {}, node('a', { href: 'errors.html' }, 'Cells that show an error'), ': what each means.'),
      node('li', {}, node('a', { href: 'guide.html' }, 'The guide'), ': every function with examples.'),
      node('li', {}, 'The pane’s Check tab looks through the whole workbook and names what is wrong.'),
    ),
  ),
  section('Get help', helpLink(address)),
  section(
    'What to tell',
    steps(
      'The formula, and what its cell shows.',
      'The reason that the cell or Check this workbook gives.',
      'The version of Excel: File, Account, About Excel.',
    ),
  ),
];

const review = (): PageNode[] => [
  section(
    'Notes for a reviewer',
    'Pinset needs no account, no licence key and no service. It runs in Excel for Microsoft 365 on Windows and Mac and in Excel on the web.',
  ),
  section(
    'A first formula',
    steps(
      `In an empty workbook type =${PREFIX}DEWPOINT(18,0.9) and press Enter: the cell shows about 16.3, a dew point in °C.`,
      `Type =${PREFIX}DEWPOINT(18,9): the cell shows #VALUE!, and the mark in its corner the reason.`,
    ),
  ),
  section(
    'The pane',
    steps(
      'Choose Home, Pinset functions. Type “water”: functions are listed. Open one and click Insert this example.',
      'Open the tab Starters and add one: a new sheet with invented rows and formulas appears.',
      'Open the tab Check and click Check this workbook: the cell of the second formula above is listed with its reason, and Go to the cell selects it.',
    ),
  ),
];

const PAGES: Readonly<Record<string, readonly [string, string, (about: About) => PageNode[]]>> = {
  'privacy.html': ['Privacy', 'What Pinset does with your figures: nothing leaves your workbook.', privacy],
  'terms.html': ['Terms', 'What you may do with Pinset, and what it does not promise.', terms],
  'support.html': ['Help with Pinset', 'Where answers are, and whom to ask.', support],
  'review.html': ['Pinset, for a reviewer', 'How to try all of it in five minutes.', review],
};

/** The text of one of the pages, for the build. */
export default function aboutPage(about: About): string {
  const [title, what, body] = PAGES[about.filename]!;
  return staticPage(
    title,
    what,
    node('p', {}, node('a', { href: 'guide.html' }, 'The guide')),
    ...body(about),
  );
}
