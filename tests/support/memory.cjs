// Loaded into a server that is tested (`node --expose-gc --require`): at SIGUSR2 it throws away what nobody holds and
// writes how much is left, in bytes, to the file that CURETTE_TEST_MEMORY names.
const { renameSync, writeFileSync } = require('node:fs');

process.on('SIGUSR2', () => {
  const file = process.env.CURETTE_TEST_MEMORY;
  globalThis.gc();
  globalThis.gc();
  writeFileSync(`${file}.new`, String(process.memoryUsage().heapUsed));
  renameSync(`${file}.new`, file);
});
