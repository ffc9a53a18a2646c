import './engineLayout.css';
import '../pane/pane.css';
import './workbench.css';
import './editing.css';
import { keepPages } from '../offline/keep';
import { openWorkbench } from './page';

void openWorkbench();
// The page and its worker: a scope is all that begins so.
keepPages('workbench');
