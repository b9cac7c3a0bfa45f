import { cpSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe, { type AxeResults } from 'axe-core';
import type { Frame, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../scripts/setup.mjs';
import { goToLine, runCommand, textIsDrawn, webviewFrame } from './page.ts';
import { extension, requireBuild } from './run.ts';
import { type LiveEditor, startEditor } from './serve.ts';

/** The preview as a person uses it: by keyboard and pointer, reading what is drawn. */
let folder: string;
let editor: LiveEditor;
let page: Page;

beforeAll(async () => {
  requireBuild();
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'curette-preview-')));
  cpSync(join(import.meta.dirname, 'workspace'), folder, { recursive: true });
  cpSync(join(root, 'examples'), join(folder, 'examples'), { recursive: true });
  editor = await startEditor(extension);
});
afterAll(async () => {
  await editor?.close();
  rmSync(folder, { recursive: true, force: true });
});
afterEach(() => page.close());

/** Opens a file of the folder, with a preview of it beside. */
async function preview(file: string): Promise<Frame> {
  page = await editor.open(folder, { file: join(folder, file) });
  await textIsDrawn(page);
  await runCommand(page, 'Curette: Show Preview Beside the Text');
  return webviewFrame(page, '#preview-page main');
}

function inTheme(name: string): void {
  mkdirSync(join(folder, '.vscode'), { recursive: true });
  writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify({ 'workbench.colorTheme': name }));
}

/** Waits until the cursor stands on a line, as the editor's status line says it. */
async function cursorIsOn(line: number): Promise<void> {
  await page
    .locator('.statusbar-item', { hasText: `Ln ${line},` })
    .first()
    .waitFor();
}

describe('a page', () => {
  test('shows a title with markup in it as the text it is', async () => {
    const frame = await preview('small.curette');
    expect(await frame.locator('h1').first().textContent()).toContain('Small <b>protocol</b>');
    expect(await frame.locator('h1 b').count()).toBe(0);
  });

  test('follows the text while it is typed, and keeps the reader where they were', async () => {
    const frame = await preview('small.curette');
    // A tall page, so that there is somewhere to be.
    await frame.evaluate(() => document.body.style.setProperty('padding-bottom', '3000px'));
    await page.locator('.monaco-editor .view-line', { hasText: 'First visit' }).click();
    await page.keyboard.press('End');
    await frame.evaluate(() => document.documentElement.scrollTo(0, 150));
    await page.keyboard.press('Enter');
    await page.keyboard.type('note "A line that was just typed"');
    await frame.getByText('A line that was just typed').first().waitFor();
    expect(await frame.evaluate(() => document.documentElement.scrollTop)).toBe(150);
  });

  test('runs nothing but its own script and loads nothing', async () => {
    const frame = await preview('small.curette');
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

describe('text and page', () => {
  test('a part of the page leads to its line, and the cursor to its part', async () => {
    const frame = await preview('small.curette');
    await frame.locator('.steps [data-line="29"]').click();
    await cursorIsOn(29);
    await goToLine(page, 28);
    await frame.locator('#preview-lines [aria-current][aria-label^="Go to line 28"]').waitFor();
  });

  test('by keyboard alone: arrows go from tab to tab and from line to line, Enter goes to the text', async () => {
    const frame = await preview('small.curette');
    await frame.locator('[role="tab"][aria-selected="true"]').focus();
    await page.keyboard.press('ArrowRight');
    await frame.locator('svg.timeline').waitFor();
    await page.keyboard.press('ArrowRight');
    await frame.locator('.kicker', { hasText: 'Tray' }).waitFor();
    expect(await frame.evaluate(() => document.activeElement?.textContent)).toBe('Tray');
    const stop = frame.locator('#preview-lines button[tabindex="0"]');
    await stop.focus();
    await page.keyboard.press('End');
    const line = Number(await frame.evaluate(() => document.activeElement?.textContent));
    await page.keyboard.press('Enter');
    await cursorIsOn(line);
  });

  test('a case is chosen by the cursor in it, and a protocol in the next file that is looked at', async () => {
    const frame = await preview('examples/cases/grafted_sockets.curette');
    await frame.locator('h1', { hasText: 'wall intact' }).waitFor();
    await goToLine(page, 13);
    await frame.locator('h1', { hasText: 'wall lost' }).waitFor();
    const cases = frame.locator('label', { hasText: 'Case' }).locator('select');
    await cases.locator('option', { hasText: 'wall intact' }).waitFor({ state: 'attached' });
    expect(await cases.inputValue()).toMatch(/#lost_wall$/);
    await cases.selectOption({ label: 'Upper first premolar, wall intact' });
    await frame.locator('h1', { hasText: 'wall intact' }).waitFor();
  });

  test('a protocol can be looked at for a case that another file declares, and for any patient again', async () => {
    const frame = await preview('examples/protocols/grafted_socket.curette');
    const cases = frame.locator('label', { hasText: 'Case' }).locator('select');
    await cases.locator('option', { hasText: 'wall lost' }).waitFor({ state: 'attached' });
    await cases.selectOption({ label: 'Upper canine, wall lost' });
    await frame.locator('h1', { hasText: 'wall lost' }).waitFor();
    await cases.selectOption({ label: 'Any patient' });
    await frame.locator('h1', { hasText: /^Grafted extraction socket without a flap$/ }).waitFor();
  });
});

/** What a colour theme is called in the editor, and what is looked at in it. */
const themes = ['Default Light Modern', 'Default Dark Modern', 'Default High Contrast'];

describe.each(themes)('in the theme %s', (theme) => {
  test.each(['examples/protocols/grafted_socket.curette', 'examples/drafts/grafted_socket_draft.curette'])(
    'nothing hinders a reader of %s: no serious or critical finding of axe-core in any view',
    async (file) => {
      inTheme(theme);
      const frame = await preview(file);
      await frame.evaluate(axe.source);
      for (const view of ['checklist', 'timeline', 'tray', 'problems']) {
        await frame.locator(`#preview-view-${view}`).click();
        await frame.locator(`#preview-panel[aria-labelledby="preview-view-${view}"]`).waitFor();
        const { violations } = await frame.evaluate(() =>
          (globalThis as unknown as { axe: { run: () => Promise<AxeResults> } }).axe.run(),
        );
        const hindering = violations
          .filter(({ impact }) => impact === 'serious' || impact === 'critical')
          .map(
            ({ id, nodes }) =>
              `${view}: ${id}: ${nodes
                .slice(0, 3)
                .map((node) => `${node.html} ${node.failureSummary}`)
                .join('\n')}`,
          );
        expect(hindering).toEqual([]);
      }
    },
  );
});
