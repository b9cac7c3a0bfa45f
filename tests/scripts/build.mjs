// npm run build: bundles the extension, the language server and the command.
import { cpSync, existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, Failure, main, root, seconds } from './setup.mjs';

/**
 * @typedef {{ entry: string, out: string, format: 'cjs' | 'esm' | 'iife', external?: string[], banner?: string }} Bundle
 * @type {Bundle[]}
 */
const bundles = [
  { entry: 'client/src/extension.ts', out: 'client/dist/extension.js', format: 'cjs', external: ['vscode'] },
  { entry: 'client/src/webview/checklist-page.ts', out: 'client/dist/checklist-page.js', format: 'iife' },
  // The server stands beside the client, so that the packaged extension is one folder.
  { entry: 'server/src/lsp/main.ts', out: 'client/dist/server.js', format: 'cjs' },
  {
    entry: 'server/src/cli/main.ts',
    out: 'server/dist/curette.js',
    format: 'esm',
    // Bundled CommonJS packages ask for Node's modules with `require`, which an ES module does not have.
    banner:
      "import { createRequire as __createRequire } from 'node:module';\nconst require = __createRequire(import.meta.url);",
  },
];

/** What the extension ships as it is, made elsewhere. */
const copies = [
  { from: 'grammar/curette.tmLanguage.json', to: 'client/dist/curette.tmLanguage.json' },
  { from: 'grammar/language-configuration.json', to: 'client/dist/language-configuration.json' },
  { from: 'LICENSE', to: 'client/dist/LICENSE' },
];

/** Makes everything under `client/dist` and `server/dist`. @throws naming what it is made from, when that is not there */
export async function build() {
  const began = performance.now();
  const { generate } = await import('./generate.mjs');
  await generate();
  const esbuild = await import('esbuild');
  const missing = [];
  for (const { entry, out, format, external, banner } of bundles) {
    if (!existsSync(join(root, entry))) {
      missing.push(entry);
      continue;
    }
    await esbuild.build({
      entryPoints: [join(root, entry)],
      outfile: join(root, out),
      bundle: true,
      platform: format === 'iife' ? 'browser' : 'node',
      target: format === 'iife' ? 'chrome124' : 'node20',
      format,
      minify: true,
      keepNames: true,
      legalComments: 'none',
      // Packages that carry both forms: the ES module one, which bundles without a loader at run time.
      mainFields: ['module', 'main'],
      external: external ?? [],
      ...(banner ? { banner: { js: banner } } : {}),
      logLevel: 'warning',
    });
  }
  for (const { from, to } of copies) {
    if (!existsSync(join(root, from))) {
      missing.push(from);
      continue;
    }
    mkdirSync(join(root, to, '..'), { recursive: true });
    cpSync(join(root, from), join(root, to));
  }
  // Told last, so that what can be built is there to work with.
  if (missing.length > 0) throw new Failure(`Not all was built. Missing: ${missing.join(', ')}.`);
  process.stdout.write(`Built in ${seconds(began)}.\n`);
}

if (process.argv[1] === import.meta.filename) {
  await main(async () => {
    await ensureInstalled();
    await build();
  });
}
