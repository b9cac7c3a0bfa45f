// npm run bench: prints medians and ratios; it judges nothing.
import { build } from './build.mjs';
import { ensureInstalled, main, run } from './setup.mjs';

await main(async () => {
  await ensureInstalled();
  await build();
  await run('tsx', ['tests/bench/main.ts', ...process.argv.slice(2)]);
});
