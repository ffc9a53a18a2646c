import { keepPages } from './keep';

// The guide's pages link to one another, so one keeps them all.
keepPages(
  ...['guide.html', 'blanks.html', 'errors.html'],
  ...['ready.html', 'plan.html', 'audit.html', 'mix.html'],
  ...['privacy.html', 'terms.html', 'support.html'],
);
