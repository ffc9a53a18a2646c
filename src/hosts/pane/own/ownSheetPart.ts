import { JOB, JOBS } from '../../fit/jobs';
import { jobLink } from '../jobPage';
import { node, type PageNode } from '../node';
import { onDemand } from '../onDemand';
import type { OwnSheet, Setting } from './ownSheet';

/** The jobs to choose from. */
export const ownSheetPart = (): PageNode[] => [
  node(
    'p',
    {},
    'What do you want to know? Pinset reads your own sheets where they are and changes nothing in them.',
  ),
  node(
    'ul',
    { class: 'jobs' },
    JOBS.map((job) =>
      node(
        'li',
        {},
        node('fluent-button', { 'data-act': 'job', 'data-for': job }, JOB[job].title),
        ' ',
        jobLink(job),
      ),
    ),
  ),
  node('div', { id: 'fitted' }),
];

/** What reads the grower's own sheets, loaded once a job is chosen. */
export const ownSheetOf = (setting: Setting): (() => Promise<OwnSheet>) =>
  onDemand(
    () => import('./ownSheet'),
    ({ OwnSheet: Own }) => new Own(setting),
  );
