// npm run bench: prints medians and ratios; it judges nothing. What is measured is bundled as it ships, so that the
// tools that run TypeScript in the tests are not measured with it.
import { join } from 'node:path';
import { asModule, build, shipped } from './build.mjs';
import { ensureInstalled, main, root, run } from './setup.mjs';

await main(async () => {
  await ensureInstalled();
  await build();
  const esbuild = await import('esbuild');
  await esbuild.build({
    ...shipped,
    entryPoints: [join(root, 'tests/bench/main.ts')],
    outfile: join(root, 'tests/dist/bench/main.mjs'),
    // It brings a file of its own that it reads from beside itself.
    external: ['highs'],
    ...asModule,
  });
  await run(process.execPath, ['tests/dist/bench/main.mjs', ...process.argv.slice(2)]);
});
