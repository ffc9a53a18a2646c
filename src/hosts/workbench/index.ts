import './engineLayout.css';
import './workbench.css';
import { openWorkbench } from './page';

void openWorkbench();
