import type { JobName } from '../fit/jobs';

/** The page of a job in the guide. */
export const jobPage = (name: JobName): string => `${name}.html`;
