// Loaded before a program: when it ends, writes the most memory it held, in bytes, to the file MEMORY_TO names. The
// most that Node itself tells of would be that of the process it was started from; where Linux's own figure is not to
// be had, what is held at the end must do.
const { readFileSync, writeFileSync } = require('node:fs');

function mostHeld() {
  try {
    return 1024 * Number(/^VmHWM:\s*(\d+) kB$/m.exec(readFileSync('/proc/self/status', 'utf8'))[1]);
  } catch {
    return process.memoryUsage.rss();
  }
}

process.on('exit', () => writeFileSync(process.env.MEMORY_TO, String(mostHeld())));
