import './engineLayout.css';
import '../pane/pane.css';
import './workbench.css';
import { openWorkbench } from './page';

void openWorkbench();
