/// <reference types="office-js" />
import packageJson from '../../../package.json';
import { openPane } from '../pane/pane';
import '../pane/pane.css';
import { dateSystem } from './dateSystem';
import { officeBook } from './officeBook';
import { solve } from './solving';

const { version } = packageJson;

void Office.onReady(() => {
  openPane(document.getElementById('pane')!, officeBook(version, dateSystem), { version, solve });
});
