// Made by `npm run docs` from the function files beside it.

import { catalogue } from './catalogue';
import { withWords, type DescribedFunction } from './words';
import { words as READYDATE } from './ripening/readyDate.words';
import { words as READYWINDOW } from './ripening/readyWindow.words';

/** The catalogue with its words: for the guide, the pane, the README and the tests, not for what Excel loads first. */
export const described: readonly DescribedFunction[] = withWords(catalogue, {
  READYDATE,
  READYWINDOW,
});
