import { described } from '../../worksheet/described';
import { JOB, type JobName } from '../fit/jobs';
import { jobPage } from '../pane/jobPage';
import { node, type PageNode } from '../pane/node';
import { finder, type Found } from '../pane/search';

// What the search of the guide's pages loads once somebody searches: the pane's own finder, with the words of all.

const find = finder(described, [], Object.values(JOB));

function answer(found: Found): PageNode {
  const link = (href: string, title: string, words: string): PageNode =>
    node('li', {}, node('a', { href }, node('b', {}, title), node('span', {}, words)));
  switch (found.kind) {
    case 'function':
      return link(`guide.html#${found.f.name}`, found.f.name, found.f.summary);
    case 'view':
      return link(`guide.html#${found.f.name}`, `${found.f.name}, view ${found.view}`, found.meaning);
    case 'sheet':
    case 'job':
      return link(jobPage(found.name as JobName), found.title, 'Step by step, with the formulas to type.');
  }
}

/** What plain words find, as links to the guide's pages. */
export const answersTo = (words: string): readonly PageNode[] => find(words).map(answer);
