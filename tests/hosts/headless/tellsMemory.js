// Loaded before a program: when it ends, writes the most memory it ever held, in bytes, to the file MEMORY_TO names.
const { writeFileSync } = require('node:fs');

process.on('exit', () => {
  writeFileSync(process.env.MEMORY_TO, String(process.resourceUsage().maxRSS * 1024));
});
