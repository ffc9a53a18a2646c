import prepare from './build';

// The pages for the browser tests, built beside the checks of `npm test`, which leave a core free.

void prepare();
