import { cpSync, mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
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

describe('the live checklist', () => {
  test('shows a title with markup in it as the text it is', async () => {
    await runCommand(page, 'Curette: Show Live Checklist');
    const frame = await webviewFrame(page, 'h1');
    expect(await frame.locator('h1').first().textContent()).toContain('Small <b>protocol</b>');
    expect(await frame.locator('h1 b').count()).toBe(0);
  });

  test('follows the text while it is typed, and keeps the reader where they were', async () => {
    await runCommand(page, 'Curette: Show Live Checklist');
    const frame = await webviewFrame(page, 'h1');
    // A tall page, so that there is somewhere to be.
    await frame.evaluate(() => document.body.style.setProperty('padding-bottom', '3000px'));
    await frame.evaluate(() => document.documentElement.scrollTo(0, 150));
    await runCommand(page, 'View: Focus First Editor Group');
    await page.keyboard.press('Control+Home');
    await page.locator('.monaco-editor .view-line', { hasText: 'First visit' }).click();
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.keyboard.type('note "A line that was just typed"');
    await frame.getByText('A line that was just typed').first().waitFor();
    expect(await frame.evaluate(() => document.documentElement.scrollTop)).toBe(150);
  });

  test('runs nothing but its own script and loads nothing', async () => {
    await runCommand(page, 'Curette: Show Live Checklist');
    const frame = await webviewFrame(page, 'h1');
    const ran = await frame.evaluate(async () => {
      const image = document.createElement('img');
      image.setAttribute('onerror', 'window.broken = true');
      image.src = 'data:image/png;base64,nothing';
      const script = document.createElement('script');
      script.textContent = 'window.broken = true';
      document.body.append(image, script);
      await new Promise((resolve) => setTimeout(resolve, 200));
      return 'broken' in window;
    });
    expect(ran).toBe(false);
  });
});

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
