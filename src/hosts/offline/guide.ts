import { keepPages } from './keep';

// All that runs in the guide's pages: they link to one another, so one keeps them all.
keepPages('guide.html', 'blanks.html', 'errors.html', 'privacy.html', 'terms.html', 'support.html');
