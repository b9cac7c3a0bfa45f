import { cpSync, mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { problemsAreListed, runCommand, textIsDrawn, webviewFrame } from './page.ts';
import { extension, requireBuild } from './run.ts';
import { type LiveEditor, startEditor } from './serve.ts';

/** The window as a person uses it: by keyboard and pointer, reading what is drawn. */
let folder: string;
let editor: LiveEditor;
let page: Page;

beforeAll(async () => {
  requireBuild();
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-window-')));
  cpSync(join(import.meta.dirname, 'workspace'), folder, { recursive: true });
  editor = await startEditor(extension);
});
afterAll(async () => {
  await editor?.close();
  rmSync(folder, { recursive: true, force: true });
});
beforeEach(async () => {
  page = await editor.open(folder, { file: join(folder, 'small.curette') });
  await textIsDrawn(page);
});
afterEach(() => page.close());

test('the code of a problem leads to its page, drawn as a page', async () => {
  await page.locator('.monaco-editor .view-line', { hasText: 'wet grain' }).click();
  await page.keyboard.press('Home');
  await page.keyboard.type('w');
  await runCommand(page, 'Problems: Focus on Problems View');
  expect(await problemsAreListed(page)).toBe(true);
  await page
    .locator('.markers-panel a.monaco-link')
    .first()
    .click({ modifiers: ['ControlOrMeta'] });
  const frame = await webviewFrame(page, '.markdown-body h1, h1');
  expect(await frame.locator('h1').first().textContent()).toMatch(/\w/);
});
