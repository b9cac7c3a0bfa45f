// npm run generate: writes the files that are made from other files; "--check" only tells which committed
// ones are stale, "--library" makes only the first sort below.
//
// Three sorts:
// * `shared/src/library.generated.ts`, the shipped library as text, is made from `shared/library/*.curette` and `shared/skeletons/*.curette` and is not
//   committed: it is written anew before every build, test run and install.
// * `server/src/problems/index.generated.ts`, every kind of problem by its code, is made from the files of its folder and is
//   committed.
// * What a module named `*.generate.ts` in a package's `src` answers is committed. The module exports
//   `generate(): ReadonlyArray<{ path: string; text: string }>`, paths from the project's root, and reads no file.
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Failure, main, root } from './setup.mjs';

/** Writes what is stale. @returns {Promise<string[]>} the paths written */
export async function generate() {
  const written = writeLibrary() ? ['shared/src/library.generated.ts'] : [];
  // Before the rest, since the reference page of problems is made with it.
  const index = problemIndex();
  if (writeIfChanged(index.path, index.text)) written.push(index.path);
  for (const { path, text } of await committed()) {
    if (writeIfChanged(path, text)) written.push(path);
  }
  return written;
}

/** Fails, naming them, when committed generated files are not what their generators now answer. */
export async function checkGenerated() {
  writeLibrary();
  const files = [problemIndex(), ...(await committed())];
  const stale = files.filter(({ path, text }) => current(path) !== text).map(({ path }) => path);
  if (stale.length > 0)
    throw new Failure(`Generated files are stale: ${stale.join(', ')}. Run "npm run generate" and commit them.`);
  process.stdout.write(`${files.length} generated files are current.\n`);
}

/**
 * The shipped library as a module: each file's text, and what it reads as, so that a start need not read it again.
 * @returns {boolean} whether it changed
 */
export function writeLibrary() {
  const folder = join(root, 'shared/library');
  const names = existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => name.endsWith('.curette'))
        .sort()
    : [];
  const { parse } = loadGrammar();
  const files = names.map((name) => {
    const text = readFileSync(join(folder, name), 'utf8').replaceAll('\r\n', '\n');
    const tree = JSON.stringify(JSON.stringify(parse(text)));
    return `  {\n    path: ${JSON.stringify(`std/${name}`)},\n    text: ${JSON.stringify(text)},\n    tree: ${tree},\n  },\n`;
  });
  return writeIfChanged(
    'shared/src/library.generated.ts',
    '// Made by "npm run generate" from shared/library/*.curette. Do not edit.\n\n' +
      '/**\n * The shipped library: `path` is what `use` names, with the file ending; `text` is the file; `tree` is what the text reads as,\n' +
      ' * a syntax tree as JSON; empty where it is left out to be read at the start.\n */\n' +
      'export const libraryFiles: ReadonlyArray<{ readonly path: string; readonly text: string; readonly tree: string }> = [\n' +
      `${files.join('')}];\n\n` +
      '/** Small sound protocols, one for each kind of operation, that new ones are made from; made from shared/skeletons. */\n' +
      'export const skeletonFiles: ReadonlyArray<{ readonly name: string; readonly text: string }> = [\n' +
      `${skeletons().join('')}];\n`,
  );
}

/** The protocols that new ones are made from, as lines of the module. */
function skeletons() {
  const folder = join(root, 'shared/skeletons');
  return readdirSync(folder)
    .filter((name) => name.endsWith('.curette'))
    .sort()
    .map((name) => {
      const text = readFileSync(join(folder, name), 'utf8').replaceAll('\r\n', '\n');
      return `  { name: ${JSON.stringify(name.slice(0, -'.curette'.length))}, text: ${JSON.stringify(text)} },\n`;
    });
}

/**
 * Leaves the trees out of a bundle, a third of what the library takes when packed: what is loaded over a line is read at the start.
 * @type {import('esbuild').Plugin}
 */
export const withoutTrees = {
  name: 'without trees',
  setup: (build) =>
    build.onLoad({ filter: /library\.generated\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8').replace(/^ {4}tree: ".*",$/gm, "    tree: '',"),
      loader: 'ts',
    })),
};

/** The grammar as it stands in the sources. */
function loadGrammar() {
  const require = createRequire(import.meta.url);
  const { buildSync } = require('esbuild');
  const { outputFiles } = buildSync({
    entryPoints: [join(root, 'grammar/src/index.ts')],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    write: false,
    logLevel: 'warning',
  });
  const module = { exports: {} };
  new Function('module', 'exports', 'require', outputFiles[0].text)(module, module.exports, require);
  return module.exports;
}

/** Every kind of problem by its code: one import for each file of the folder that declares one. */
export function problemIndex() {
  const folder = join(root, 'server/src/problems');
  const kinds = readdirSync(folder)
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.generated.ts'))
    .sort()
    .flatMap((name) => {
      const declared = /^export const (\w+) = problemKind</m.exec(readFileSync(join(folder, name), 'utf8'));
      return declared ? [{ file: name, code: name.slice(0, -'.ts'.length), constant: declared[1] }] : [];
    });
  return {
    path: 'server/src/problems/index.generated.ts',
    text: [
      '// Made by "npm run generate" from the files of this folder. Do not edit.',
      ...kinds.map(({ file, constant }) => `import { ${constant} } from './${file}';`),
      "import type { AnyProblemKind } from './problem.ts';",
      '',
      '/** Every kind of problem, by its code. */',
      'export const problemKinds: Readonly<Record<string, AnyProblemKind>> = {',
      ...kinds.map(({ code, constant }) => `  ${code}: ${constant},`),
      '};',
      '',
    ].join('\n'),
  };
}

/** Everything the `*.generate.ts` modules answer. */
async function committed() {
  const modules = ['grammar', 'shared', 'server', 'client'].flatMap((name) => find(join(root, name, 'src'))).sort();
  if (modules.length === 0) return [];
  const { tsImport } = await import('tsx/esm/api');
  const files = [];
  for (const entry of modules) {
    const { generate } = await tsImport(pathToFileURL(entry).href, import.meta.url);
    files.push(...generate());
  }
  return files;
}

function find(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.generate.ts'))
    .map((name) => join(folder, name));
}

function writeIfChanged(path, text) {
  if (current(path) === text) return false;
  const target = join(root, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(`${target}.${process.pid}.tmp`, text);
  renameSync(`${target}.${process.pid}.tmp`, target);
  return true;
}

function current(path) {
  return existsSync(join(root, path)) ? readFileSync(join(root, path), 'utf8') : undefined;
}

if (process.argv[1] === import.meta.filename) {
  await main(async () => {
    if (process.argv.includes('--check')) return checkGenerated();
    if (process.argv.includes('--library')) return void writeLibrary();
    const written = await generate();
    process.stdout.write(written.length > 0 ? `Wrote ${written.join(', ')}.\n` : 'Everything generated is current.\n');
  });
}
