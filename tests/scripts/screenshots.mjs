// npm run screenshots: pictures of the live editor, in out/screenshots.
import { build } from './build.mjs';
import { ensureHostPackages, ensureInstalled, main, run } from './setup.mjs';

await main(async () => {
  await ensureInstalled();
  await ensureHostPackages();
  await build();
  await run('tsx', ['tests/host/screenshots.ts', ...process.argv.slice(2)]);
});
