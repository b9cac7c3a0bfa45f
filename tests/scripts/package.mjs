// npm run package: makes out/curette-<version>.vsix, the extension as one file that an editor installs.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { build, builtForExtension } from './build.mjs';
import { ensureInstalled, Failure, main, root, run, seconds } from './setup.mjs';

/** The most that the file may have, bytes: it is loaded over slow lines, and often. */
const LIMIT = 1_500_000;

/** Folders of the extension that are packaged whole. */
const WHOLE = ['icons', 'media'];

/**
 * Builds and packages.
 * @returns {Promise<string>} the file's path
 * @throws naming what the manifest names and nothing makes, or what is large when the file is above the limit
 */
export async function makePackage() {
  await build();
  return packageBuilt();
}

/** Packages what the last build made. */
export async function packageBuilt() {
  const began = performance.now();
  const client = join(root, 'client');
  const manifest = JSON.parse(readFileSync(join(client, 'package.json'), 'utf8'));
  const folder = join(root, 'out/package');
  const file = join(root, `out/curette-${manifest.version}.vsix`);
  rmSync(folder, { recursive: true, force: true });
  rmSync(file, { force: true });
  mkdirSync(folder, { recursive: true });

  // Everything is bundled: what the bundles were made with is no business of the editor. Where it may run, an editor makes out from
  // `main` and `browser`; the packager refuses the word "web" for it.
  const left = ['private', 'dependencies', 'devDependencies', 'scripts', 'extensionKind'];
  const shipped = Object.fromEntries(Object.entries(manifest).filter(([name]) => !left.includes(name)));
  writeFileSync(join(folder, 'package.json'), `${JSON.stringify(shipped, null, 2)}\n`);
  const copy = (from, to) => {
    mkdirSync(dirname(join(folder, to)), { recursive: true });
    cpSync(join(root, from), join(folder, to), { recursive: true });
  };
  for (const path of builtForExtension()) copy(join('client', path), path);
  for (const name of WHOLE) if (existsSync(join(client, name))) copy(join('client', name), name);
  copy('client/README.md', 'README.md');
  for (const name of ['LICENSE', 'CHANGELOG.md']) copy(name, name);
  const absent = namedIn(shipped).filter((path) => !existsSync(join(folder, path)));
  if (absent.length > 0) throw new Failure(`The manifest names what is not packaged: ${absent.join(', ')}.`);

  // Links lead nowhere but into the package itself, so there is no address to put before them.
  const args = ['package', '--no-dependencies', '--no-rewrite-relative-links', '--allow-missing-repository'];
  await run('vsce', [...args, '--out', file], { cwd: folder, quiet: true });
  const { size } = statSync(file);
  process.stdout.write(`${file}\n${kilobytes(size)} kB of at most ${kilobytes(LIMIT)}, in ${seconds(began)}. `);
  const large = largest(folder);
  process.stdout.write(`Largest: ${large.slice(0, 3).join(', ')}.\n`);
  if (size > LIMIT)
    throw new Failure(`The package is above ${kilobytes(LIMIT)} kB. What is large: ${large.join(', ')}.`);
  return file;
}

/** Paths of the extension's own files that stand anywhere in the manifest. */
function namedIn(value) {
  if (typeof value === 'string')
    return /^(\.\/)?([\w-]+\/)+[\w.-]+\.(js|json|svg|png|md)$/.test(value) ? [value.replace(/^\.\//, '')] : [];
  return value !== null && typeof value === 'object' ? Object.values(value).flatMap(namedIn) : [];
}

/** The largest packaged files with what each takes when packed, as words. */
function largest(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => {
      const path = join(parentPath, name);
      return { path: relative(folder, path), size: deflateRawSync(readFileSync(path)).length };
    })
    .sort((a, b) => b.size - a.size)
    .slice(0, 8)
    .map(({ path, size }) => `${path} ${kilobytes(size)} kB`);
}

function kilobytes(bytes) {
  return Math.ceil(bytes / 1000).toLocaleString('en');
}

if (process.argv[1] === import.meta.filename) {
  await main(async () => {
    await ensureInstalled();
    await makePackage();
  });
}
