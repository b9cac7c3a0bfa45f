import type { Frame, Page } from 'playwright-core';

/** What a person does in a window of the editor, for the tests and pictures that drive it from outside. */

/** Waits until the window has drawn the text of the file it was opened with. */
export async function textIsDrawn(page: Page): Promise<void> {
  await page.locator('.monaco-editor .view-line').first().waitFor();
}

/** Runs a command by its title, from the command palette. */
export async function runCommand(page: Page, title: string): Promise<void> {
  const row = page.locator('.quick-input-list .monaco-list-row', { hasText: title }).first();
  // A palette that was opened before the window knew of the command does not learn of it any more.
  for (let left = 5; ; left--) {
    await page.keyboard.press('F1');
    const box = page.locator('.quick-input-widget input').first();
    await box.waitFor();
    await box.fill(`>${title}`);
    const isThere = await row.waitFor({ timeout: left > 0 ? 3_000 : 30_000 }).then(
      () => true,
      () => false,
    );
    if (isThere) break;
    if (left === 0) throw new Error(`There is no command ${title}.`);
    await page.keyboard.press('Escape');
  }
  await page.keyboard.press('Enter');
}

/** Puts the cursor on a line, counted from 1; the line is then in the middle of the window. */
export async function goToLine(page: Page, line: number): Promise<void> {
  await page.keyboard.press('Control+g');
  const box = page.locator('.quick-input-widget input').first();
  await box.waitFor();
  await box.fill(`:${line}`);
  await page.keyboard.press('Enter');
}

/** The innermost frame of the only open webview, once it holds an element that `selector` finds. */
export async function webviewFrame(page: Page, selector: string): Promise<Frame> {
  const deadline = Date.now() + 30_000;
  while (Date.now() < deadline) {
    for (const frame of page.frames()) {
      if (!frame.url().includes('/webview/browser/pre/')) continue;
      // A frame may go away between two looks.
      if (
        (await frame
          .locator(selector)
          .count()
          .catch(() => 0)) > 0
      )
        return frame;
    }
    await page.waitForTimeout(50);
  }
  throw new Error(`No webview showed ${selector} within 30 s.`);
}

/** Waits until the open problems panel lists something, 10 s at most. @returns whether it does */
export async function problemsAreListed(page: Page): Promise<boolean> {
  const first = page.locator('.markers-panel .marker-icon').first();
  return first.waitFor({ timeout: 10_000 }).then(
    () => true,
    () => false,
  );
}
