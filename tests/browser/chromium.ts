import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import type { LaunchOptions } from 'playwright-core';

/** Programs that can run the tests, in order of preference, for each system. */
function candidates(): string[] {
  const { env, platform } = process;
  if (platform === 'win32') {
    const homes = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA];
    return homes
      .filter((home) => home !== undefined)
      .flatMap((home) => [
        path.join(home, 'Google', 'Chrome', 'Application', 'chrome.exe'),
        path.join(home, 'Microsoft', 'Edge', 'Application', 'msedge.exe'),
        path.join(home, 'Chromium', 'Application', 'chrome.exe'),
      ]);
  }
  if (platform === 'darwin') {
    return ['/Applications', path.join(env.HOME ?? '', 'Applications')].flatMap((folder) =>
      ['Google Chrome', 'Microsoft Edge', 'Chromium'].map((name) =>
        path.join(folder, `${name}.app`, 'Contents', 'MacOS', name),
      ),
    );
  }
  const names = ['google-chrome', 'google-chrome-stable', 'chromium', 'chromium-browser', 'microsoft-edge'];
  const folders = (env.PATH ?? '').split(path.delimiter).filter((folder) => folder !== '');
  return names.flatMap((name) => folders.map((folder) => path.join(folder, name)));
}

const installedBrowser = (): string | undefined => candidates().find((file) => existsSync(file));

const isRoot = (): boolean => process.getuid?.() === 0;

/** Installs Debian's own chromium where that can be done without asking anybody. */
function installChromium(): void {
  const apt = (...words: string[]): boolean =>
    spawnSync('apt-get', words, {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    }).status === 0;
  if (process.platform === 'linux' && isRoot() && apt('update')) {
    apt('install', '--yes', '--no-install-recommends', 'chromium');
  }
}

/**
 * The browser the tests run in: an installed Chrome, Edge or Chromium, or else the system's chromium, installed now.
 * @throws where there is none and none can be installed: one sentence that says what to do.
 */
export function findBrowser(): string {
  const found = installedBrowser();
  if (found !== undefined) return found;
  installChromium();
  const installed = installedBrowser();
  if (installed !== undefined) return installed;
  throw new Error(
    'The browser tests need Chrome, Edge or Chromium: install one of them and run the tests again.',
  );
}

/**
 * Parts of the browser that no test needs: those that playwright-core names, whose list ours takes the place of, and the
 * two lists below the address line. They are pages of their own in every window, and cost as much as the page itself.
 */
const WITHOUT = [
  ...['AvoidUnnecessaryBeforeUnloadCheckSync', 'DestroyProfileOnBrowserClose', 'HttpsUpgrades'],
  ...['HttpsFirstBalancedModeAutoEnable', 'LensOverlay', 'MediaRouter', 'PaintHolding'],
  ...['ThirdPartyStoragePartitioning', 'AvoidCorsURLLoaderRestartOnRedirect', 'TcpPortRandomizationWin'],
  ...['OptimizationHints', 'NetworkTimeServiceQuerying', 'AimEnabled', 'PreconnectToSearch'],
  ...['msForceBrowserSignIn', 'msEdgeUpdateLaunchServicesPreferredVersion'],
  ...['WebUIOmniboxPopup', 'WebUIOmniboxAimPopup'],
];

/** How a headless browser is begun that asks nobody for anything, with the names of what else it may do without. */
export const launchOptions = (...others: string[]): LaunchOptions => ({
  executablePath: findBrowser(),
  args: [
    '--disable-gpu',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    `--disable-features=${[...WITHOUT, ...others].join(',')}`,
    '--no-first-run',
    ...(isRoot() ? ['--no-sandbox'] : []),
  ],
});
