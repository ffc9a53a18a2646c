/// <reference types="office-js" />
import packageJson from '../../../package.json';
import { openPane } from '../pane/pane';
import { dateSystem } from './dateSystem';
import { officeBook } from './officeBook';
import { solve, works } from './solving';

const { version } = packageJson;

/** Office's own theme, where it tells one: a pane in a dark window is dark whatever the device is. */
function isOfficeDark(): boolean | undefined {
  const theme = (Office.context as Office.Context | undefined)?.officeTheme;
  if (theme?.isDarkTheme !== undefined) return theme.isDarkTheme;
  const [, ...channels] =
    /^#?([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(theme?.bodyBackgroundColor ?? '') ?? [];
  if (channels.length === 0) return undefined;
  return channels.reduce((sum, one) => sum + parseInt(one, 16), 0) < (3 * 255) / 2;
}

/** The pane beside the workbook that is open. */
export function openBesideBook(root: HTMLElement): void {
  const isDark = isOfficeDark();
  openPane(root, officeBook(version, dateSystem), {
    version,
    solve,
    works,
    ...(isDark !== undefined && { isDark }),
  });
}
