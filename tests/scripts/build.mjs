// npm run build: bundles the extension, the language server and the command.
import { cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, Failure, main, root, seconds } from './setup.mjs';

/**
 * @typedef {{ entry: string, out: string, format: 'cjs' | 'esm' | 'iife', platform?: 'browser', external?: string[] }} Bundle
 * @type {Bundle[]}
 */
const bundles = [
  { entry: 'client/src/extension.ts', out: 'client/dist/extension.js', format: 'cjs', external: ['vscode'] },
  { entry: 'client/src/webview/preview-page.ts', out: 'client/dist/preview-page.js', format: 'iife' },
  // The server stands beside the client, so that the packaged extension is one folder.
  { entry: 'server/src/lsp/main.ts', out: 'client/dist/server.js', format: 'cjs' },
  { entry: 'server/src/lsp/start.ts', out: 'client/dist/start.js', format: 'cjs' },
  { entry: 'server/src/lsp/worker.ts', out: 'client/dist/server.web.js', format: 'iife' },
  {
    entry: 'client/src/extension.web.ts',
    out: 'client/dist/extension.web.js',
    format: 'cjs',
    platform: 'browser',
    external: ['vscode'],
  },
  {
    entry: 'server/src/cli/main.ts',
    out: 'server/dist/curette.js',
    format: 'esm',
  },
];

/**
 * Bundled CommonJS packages ask for Node's modules with `require`, which an ES module does not have.
 * @type {import('esbuild').BuildOptions}
 */
export const asModule = {
  format: 'esm',
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module';\nconst require = __createRequire(import.meta.url);",
  },
};

/**
 * How what runs on Node is bundled. Names stay as they are written, where size does not matter: a stack in a report can be read.
 * They are not given back at the start, which would cost time.
 * @type {import('esbuild').BuildOptions}
 */
export const shipped = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  // Packages that carry both forms: the ES module one, which bundles without a loader at run time.
  mainFields: ['module', 'main'],
  logLevel: 'warning',
};

/**
 * Writes the signs that esbuild leaves as they are, those in patterns and templates, as escapes. With a single one the engine
 * keeps the whole bundle in memory at two bytes a character.
 */
export function inAscii(path) {
  const text = readFileSync(path, 'utf8');
  const escaped = text.replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
  if (escaped !== text) writeFileSync(path, escaped);
}

/** What the extension ships as it is, made elsewhere. */
const copies = [
  { from: 'grammar/curette.tmLanguage.json', to: 'client/dist/curette.tmLanguage.json' },
  { from: 'grammar/language-configuration.json', to: 'client/dist/language-configuration.json' },
  { from: 'shared/settings.schema.json', to: 'client/dist/settings.schema.json' },
  { from: 'examples', to: 'client/dist/examples' },
  // The command serves other editors with the same server; it loads it only then.
  { from: 'client/dist/server.js', to: 'server/dist/language-server.cjs' },
];

/** What the build makes for the extension, as paths from its folder: what else lies in `dist` is not of this build. */
export function builtForExtension() {
  const made = [...bundles.map(({ out }) => out), ...copies.map(({ to }) => to)];
  return made.filter((path) => path.startsWith('client/')).map((path) => path.slice('client/'.length));
}

/** Makes everything under `client/dist` and `server/dist`. @throws naming what it is made from, when that is not there */
export async function build() {
  const began = performance.now();
  const { generate, withoutTrees } = await import('./generate.mjs');
  await generate();
  const esbuild = await import('esbuild');
  const missing = [];
  for (const { entry, out, format, platform, external } of bundles) {
    if (!existsSync(join(root, entry))) {
      missing.push(entry);
      continue;
    }
    await esbuild.build({
      ...shipped,
      ...(format === 'iife' || platform
        ? { platform: 'browser', target: 'chrome124', minify: true, plugins: [withoutTrees] }
        : {}),
      ...(format === 'esm' ? asModule : { format }),
      // A tenth of what the packaged extension takes; the command, which nobody loads over a line, keeps its names.
      minifyIdentifiers: out.startsWith('client/'),
      entryPoints: [join(root, entry)],
      outfile: join(root, out),
      external: external ?? [],
    });
    inAscii(join(root, out));
  }
  for (const { from, to } of copies) {
    if (!existsSync(join(root, from))) {
      missing.push(from);
      continue;
    }
    mkdirSync(join(root, to, '..'), { recursive: true });
    cpSync(join(root, from), join(root, to), { recursive: true });
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
