import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { packageBuilt } from '../scripts/package.mjs';
import { root } from '../scripts/setup.mjs';
import { type Activation, activation } from './activation-report.ts';
import { problemsAreListed, runCommand, textIsDrawn, webviewFrame } from './page.ts';
import { requireBuild } from './run.ts';
import { type LiveEditor, startEditor } from './serve.ts';

/** The packaged extension, installed into an editor that has nothing else, on a path without any program. */
let folder: string;
let report: string;
let editor: LiveEditor;
let inEditor: string;
/** One for each window: an editor opens again what was open in a folder. */
const workspaces = ['first', 'later', 'looked at'];

beforeAll(async () => {
  requireBuild();
  const file = await packageBuilt();
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-package-')));
  report = join(folder, 'report.json');
  for (const name of workspaces) {
    cpSync(join(root, 'examples'), join(folder, name, 'examples'), { recursive: true });
    writeFileSync(join(folder, name, 'notes.txt'), 'Nothing for an extension.\n');
  }
  inEditor = join(folder, 'watcher/activation.cjs');
  await build({
    entryPoints: [join(import.meta.dirname, 'activation.ts')],
    outfile: inEditor,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    external: ['vscode'],
    logLevel: 'warning',
  });
  writeFileSync(
    join(folder, 'watcher/package.json'),
    JSON.stringify({ name: 'watcher', publisher: 'tests', version: '0.0.1', engines: { vscode: '*' } }),
  );
  editor = await startEditor(file, { CURETTE_HOST_REPORT: report, PATH: join(folder, 'no-programs') });
});
afterAll(async () => {
  await editor?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

test('nothing is packaged that is only needed to make it, nor a path of the machine that made it', () => {
  const [name = '', ...others] = readdirSync(editor.installed, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name);
  expect(name).toMatch(/^curette\.curette-vscode-\d/);
  expect(others).toEqual([]);
  const installed = join(editor.installed, name);
  const files = readdirSync(installed, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(installed, join(entry.parentPath, entry.name)));
  const expected =
    /^(package\.json|readme\.md|changelog\.md|LICENSE\.txt|\.vsixmanifest|(dist|icons|media)\/[\w/-]+(\.\w+)+)$/i;
  expect(files.filter((file) => !expected.test(file) || /\.(ts|map)$/.test(file))).toEqual([]);
  expect(files.filter((file) => readFileSync(join(installed, file)).includes(root))).toEqual([]);
});

test('a text file does not start it, a protocol does, and its problems are shown', async () => {
  // Twice: the second window starts with what the first one has compiled.
  for (const which of workspaces.slice(0, 2)) {
    const seen = await watched(join(folder, which));
    if (seen.kind === 'failed') throw new Error(`${seen.why}\n${editor.output()}`);
    expect(seen.path.startsWith(editor.installed)).toBe(true);
    expect(seen.activeWithText).toBe(false);
    expect(seen.codes).toContain('outside_plausible');
    const [toActive, toProblems] = [seen.toActive, seen.toProblems].map((time) => `${Math.round(time)} ms`);
    process.stdout.write(`${which} start, from opening a protocol: active ${toActive}, first problems ${toProblems}\n`);
  }
});

test('a person sees problems and the preview', async () => {
  const workspace = join(folder, 'looked at');
  const file = join(workspace, 'examples/drafts/grafted_socket_draft.curette');
  const page = await editor.open(workspace, { file });
  await textIsDrawn(page);
  await runCommand(page, 'Problems: Focus on Problems View');
  expect(await problemsAreListed(page)).toBe(true);
  await page.locator('.monaco-editor .view-line').first().click();
  await runCommand(page, 'Curette: Show Preview Beside the Text');
  const frame = await webviewFrame(page, '#preview-page h1');
  expect(await frame.locator('h1').first().textContent()).toContain('Grafted extraction socket');
  await page.close();
});

/** Opens a window in which `activation.ts` runs. @returns what it has found */
async function watched(workspace: string): Promise<Activation> {
  rmSync(report, { force: true });
  const page = await editor.open(workspace, { tests: inEditor });
  const patience = Date.now() + 90_000;
  while (!existsSync(report)) {
    if (Date.now() > patience) throw new Error(`The editor told of nothing.\n${editor.output()}`);
    await sleep(100);
  }
  await page.close();
  return activation.parse(JSON.parse(readFileSync(report, 'utf8')));
}
