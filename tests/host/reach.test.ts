import { execFile } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { problemsAreListed, runCommand, textIsDrawn } from './page.ts';
import { extension, requireBuild } from './run.ts';
import { type LiveEditor, startEditor } from './serve.ts';

/** A window whose folder nobody has trusted. */
let folder: string;
let editor: LiveEditor;
let draft: string;
let trap: string;

beforeAll(async () => {
  requireBuild();
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-reach-')));
  cpSync(join(import.meta.dirname, '../../examples'), folder, { recursive: true });
  draft = join(folder, 'drafts/grafted_socket_draft.curette');
  // Programs that a careless extension would run because they lie in the folder.
  trap = join(folder, 'it-ran');
  const program = `require('fs').writeFileSync(${JSON.stringify(trap)}, '')`;
  for (const path of [
    'node_modules/@curette/server/index.js',
    'node_modules/curette/index.js',
    'server.js',
    'start.js',
  ]) {
    mkdirSync(join(folder, path, '..'), { recursive: true });
    writeFileSync(join(folder, path), program);
  }
  editor = await startEditor(extension, {}, 'asked');
});
afterAll(async () => {
  await editor?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

test('in a folder that nobody trusts problems are found, and nothing of it is run', async () => {
  const page = await editor.open(folder, { file: draft });
  await textIsDrawn(page);
  await page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).waitFor();
  await runCommand(page, 'Problems: Focus on Problems View');
  expect(await problemsAreListed(page)).toBe(true);
  expect(await serverProcesses()).not.toEqual([]);
  expect(existsSync(trap)).toBe(false);
  await page.close();
});

/** Language servers that this editor has started on the machine, by the folder that they keep things in. */
async function serverProcesses(): Promise<string[]> {
  const { stdout } = await promisify(execFile)('ps', ['-eww', '-o', 'args']);
  return stdout.split('\n').filter((line) => line.includes('start.js') && line.includes(dirname(editor.installed)));
}
