import { existsSync, mkdtempSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { bundles, startServer } from './server.ts';

/** Starts the server as the extension does, and sees that it finds a fault. */
async function startedFrom(cache: string, flags: readonly string[] = []): Promise<() => Promise<number | null>> {
  const { start } = await bundles;
  const server = await startServer({ program: [...flags, start, `--code-cache=${cache}`] });
  const told = server.told(server.uri('a.curette'));
  server.open(server.uri('a.curette'), 'protocol a "A" {\n  bogus\n}\n');
  expect((await told).length).toBeGreaterThan(0);
  expect(server.said()).toBe('');
  return server.stop;
}

const newFolder = () => join(mkdtempSync(join(tmpdir(), 'curette-cache-')), 'made', 'when needed');
const cached = (folder: string) =>
  existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.cache')) : [];

/** Waits until the server has had the time to keep what it compiled. */
async function until(done: () => boolean): Promise<void> {
  for (let turn = 0; turn < 200 && !done(); turn++) await new Promise((next) => setTimeout(next, 50));
  expect(done()).toBe(true);
}

test('what was compiled is kept once, and the next start runs on it', async () => {
  const folder = newFolder();
  const stop = await startedFrom(folder);
  await until(() => cached(folder).length === 1);
  expect(await stop()).toBe(0);
  const [name = ''] = cached(folder);
  const before = readFileSync(join(folder, name));
  const { mtimeMs } = statSync(join(folder, name));
  const again = await startedFrom(folder);
  await new Promise((next) => setTimeout(next, 3500));
  expect(await again()).toBe(0);
  // Nothing was refused: it would have been written anew.
  expect(statSync(join(folder, name)).mtimeMs).toBe(mtimeMs);
  expect(readFileSync(join(folder, name)).equals(before)).toBe(true);
});

test('what another engine has kept is refused, and replaced', async () => {
  const folder = newFolder();
  const stop = await startedFrom(folder);
  await until(() => cached(folder).length === 1);
  await stop();
  const [name = ''] = cached(folder);
  const file = join(folder, name);
  const before = statSync(file).mtimeMs;
  // The engine's flags go into what it keeps, as its version does.
  const other = await startedFrom(folder, ['--no-opt']);
  await until(() => cached(folder).length === 1 && statSync(file).mtimeMs !== before);
  expect(await other()).toBe(0);
  writeFileSync(file, 'nothing of the kind');
  const mended = await startedFrom(folder);
  await until(() => statSync(file).size > 100_000);
  expect(await mended()).toBe(0);
});

test('where nothing can be kept the server starts all the same', async () => {
  const folder = join(mkdtempSync(join(tmpdir(), 'curette-cache-')), 'a file');
  writeFileSync(folder, '');
  const stop = await startedFrom(folder);
  expect(await stop()).toBe(0);
});

test('without a folder the server starts by itself', async () => {
  const server = await startServer({ program: [(await bundles).start] });
  expect(server.initialized.capabilities.hoverProvider).toBe(true);
  expect(await server.stop()).toBe(0);
});
