/// <reference types="office-js" />
import packageJson from '../../../package.json';
import { openPane } from '../pane/pane';
import { dateSystem } from './dateSystem';
import { officeBook } from './officeBook';
import { solve, works } from './solving';

const { version } = packageJson;

/** The pane beside the workbook that is open. */
export const openBesideBook = (root: HTMLElement): void =>
  openPane(root, officeBook(version, dateSystem), { version, solve, works });
