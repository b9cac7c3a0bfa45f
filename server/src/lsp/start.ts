/**
 * What the extension starts: the server beside this file, with what V8 made of it at an earlier start. Compiling is a fifth of the
 * time to the first problems shown. `--code-cache=FOLDER` names a folder of the user's own, since what is kept there is run as
 * it is; without it, or where nothing fits, the server starts as it would by itself.
 */
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createRequire, wrap } from 'node:module';
import { dirname, join } from 'node:path';
import { Script } from 'node:vm';

const OPTION = '--code-cache=';

/** What is compiled while the first problems are found is worth keeping too; by then they have been, ms. */
const SETTLED = 3000;

const file = join(__dirname, 'server.js');
const folder = process.argv.find((argument) => argument.startsWith(OPTION))?.slice(OPTION.length);
if (folder) startFrom(folder);
else createRequire(__filename)(file);

function startFrom(folder: string): void {
  const cache = join(folder, nameOfCache());
  const kept = quietly(() => readFileSync(cache));
  // V8 refuses what another version of it, or one with other flags, has made.
  const script = new Script(wrap(readFileSync(file, 'latin1')), {
    filename: file,
    ...(kept ? { cachedData: kept } : {}),
  });
  const run = script.runInThisContext() as (...scope: unknown[]) => void;
  run({}, createRequire(file), { exports: {} }, file, dirname(file));
  if (kept === undefined || script.cachedDataRejected === true)
    setTimeout(() => quietly(() => keep(cache, script.createCachedData())), SETTLED).unref();
}

/** Another build, or another Node, has another name: V8 itself knows a text by its length alone. */
function nameOfCache(): string {
  const { size, mtimeMs } = statSync(file);
  return `server-${process.version}-${process.arch}-${size}-${mtimeMs}.cache`;
}

/** In one go, so that half a file is never read; what earlier builds left is taken away. */
function keep(cache: string, data: Buffer): void {
  const folder = dirname(cache);
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder)) if (/^server-.*\.cache$/.test(name)) rmSync(join(folder, name));
  const passing = `${cache}.${process.pid}`;
  writeFileSync(passing, data);
  renameSync(passing, cache);
}

/** A start goes on without what cannot be read or written. */
function quietly<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}
