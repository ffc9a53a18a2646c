import { Theme } from '../pane/theme';
import { enableSearch } from './guideSearch';

// What runs in the pages to read, which are whole without it. The theme comes before anything is drawn.

const theme = new Theme();

document.addEventListener('DOMContentLoaded', () => {
  const choice = document.querySelector<HTMLElement>('#theme');
  if (choice) choice.hidden = false;
  theme.listen();
  enableSearch();
});
