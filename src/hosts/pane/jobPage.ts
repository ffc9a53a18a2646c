import { JOB, type JobName } from '../fit/jobs';
import { node, type PageNode } from './node';

/** The guide's page of a job. */
export const jobPage = (name: JobName): string => `${name}.html`;

/** A link beside a job to its page in the guide, which opens beside the workbook. */
export const jobLink = (name: JobName): PageNode =>
  node(
    'a',
    {
      href: jobPage(name),
      target: '_blank',
      rel: 'noopener',
      'aria-label': `${JOB[name].title} Step by step, in a new window`,
    },
    'Step by step',
  );
