// npm run faults: makes single mistakes in the sound protocols of the demo workspace, and prints by family which of them
// the checker catches, and what it says about edits that are harmless.

import { join } from 'node:path';
import { writeLibrary } from './generate.mjs';
import { ensureInstalled, main, root, run } from './setup.mjs';

await main(async () => {
  await ensureInstalled();
  writeLibrary();
  await run(process.execPath, ['--import', 'tsx', join(root, 'tests/faults/main.ts')]);
});
