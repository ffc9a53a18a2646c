import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';

/** Where Excel on Windows looks for add-ins under development. */
const DEVELOPER_KEY = 'HKCU\\Software\\Microsoft\\Office\\16.0\\WEF\\Developer';

/** Makes the Excel of this machine offer the add-in, where it has a way for that; true where it does. */
export function sideload(manifest: string, id: string): boolean {
  if (process.platform === 'win32') {
    const words = ['add', DEVELOPER_KEY, '/v', id, '/t', 'REG_SZ', '/d', manifest, '/f'];
    return spawnSync('reg', words, { stdio: 'ignore' }).status === 0;
  }
  const excel = path.join(homedir(), 'Library', 'Containers', 'com.microsoft.Excel', 'Data', 'Documents');
  if (process.platform !== 'darwin' || !existsSync(excel)) return false;
  const folder = path.join(excel, 'wef');
  mkdirSync(folder, { recursive: true });
  copyFileSync(manifest, path.join(folder, `${id}.manifest.xml`));
  return true;
}

/** What to do in Excel once the add-in is offered. */
export const OPEN_STEPS =
  'Start Excel (or start it again), open Home, Add-ins, and choose Pinset (development). Then type =PINSETDEV. in a cell.';

/** The same by hand, for Excel on the web. */
export function handSteps(manifest: string): string[] {
  return [
    '1. Open a workbook in Excel on the web, in a browser on this machine.',
    `2. Choose Home, Add-ins, More Add-ins, My Add-ins, Upload My Add-in, and pick ${manifest}.`,
    '3. Type =PINSETDEV. in a cell and choose a function.',
  ];
}
