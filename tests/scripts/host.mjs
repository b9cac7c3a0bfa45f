// npm run test:host: the tests in a real editor only. With "-- --desktop" in a desktop build that is downloaded.
import { build } from './build.mjs';
import { ensureHostPackages, ensureInstalled, main, run } from './setup.mjs';

await main(async () => {
  const desktop = process.argv.includes('--desktop');
  await ensureInstalled();
  if (!desktop) await ensureHostPackages();
  await build();
  const files = desktop ? ['host/editor.test.ts'] : process.argv.slice(2);
  await run('vitest', ['run', '--config', 'tests/vitest.config.ts', '--project', 'host', ...files], {
    env: { CURETTE_HOST: desktop ? 'desktop' : 'page' },
  });
});
