import { spawn } from 'node:child_process';

/** The system's own way to show an address. */
function opener(url: string): [string, string[]] {
  if (process.platform === 'win32') return ['cmd', ['/c', 'start', '""', url]];
  return [process.platform === 'darwin' ? 'open' : 'xdg-open', [url]];
}

/** Opens an address in the person's browser; where that cannot be done, nothing happens: the address was printed. */
export function openInBrowser(url: string): void {
  if (process.env.CI !== undefined || process.env.BROWSER === 'none') return;
  const [command, words] = opener(url);
  const child = spawn(command, words, { detached: true, stdio: 'ignore', windowsVerbatimArguments: true });
  child.on('error', () => {});
  child.unref();
}
