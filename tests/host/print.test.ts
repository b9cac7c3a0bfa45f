/** Prints checklists with a real browser and reads what stands on each page. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checklistHtml, checklistOf, createWorkspace } from '@curette/server';
import { type Browser, chromium } from 'playwright-core';
import { extractText, getDocumentProxy } from 'unpdf';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromium as installed } from '../scripts/setup.mjs';
import { hostileProtocol, hostileTexts } from '../unit/render/hostile.ts';

const examples = join(import.meta.dirname, '../../examples');
let browser: Browser;

beforeAll(async () => {
  const executablePath = installed();
  if (executablePath === undefined)
    throw new Error('No Chromium. On Debian, as root: apt-get install -y chromium. Or set CURETTE_CHROMIUM to one.');
  browser = await chromium.launch({ executablePath, args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
});
afterAll(() => browser?.close());

/** In points of 1/72 inch. */
const sizes = { A4: { width: 595, height: 842 }, Letter: { width: 612, height: 792 } } as const;

describe.each(['A4', 'Letter'] as const)('on %s', (format) => {
  test('every page of a sound protocol has its name, version, status and number', async () => {
    const { pages, width, height } = await printed('protocols/grafted_socket.curette', format);
    expect(Math.abs(width - sizes[format].width)).toBeLessThan(2);
    expect(Math.abs(height - sizes[format].height)).toBeLessThan(2);
    expect(pages.length).toBeGreaterThan(2);
    pages.forEach((page, i) => {
      expect(page).toContain('Grafted extraction socket without a flap');
      expect(page).toContain('version 2.1.0, in review');
      expect(page).toContain(`${i + 1} / ${pages.length}`);
      expect(page).toContain('Local codes, product labelling and licensed practice come first.');
      expect(page.toUpperCase()).not.toContain('NOT FIT FOR USE');
    });
  });

  test('every page of a faulty draft says that it is a draft and not fit for use', async () => {
    const { pages } = await printed('drafts/grafted_socket_draft.curette', format);
    expect(pages.length).toBeGreaterThan(2);
    for (const page of pages) {
      expect(page).toContain('version 0.3.0, draft');
      expect(page).toContain('DRAFT');
      expect(page).toContain('NOT FIT FOR USE');
    }
  });

  test('nothing is lost between two pages, and a pause is not torn', async () => {
    const { pages } = await printed('protocols/staged_implant.curette', format);
    const text = pages.join('\n');
    for (const words of [
      'Pause: Hand over to recovery',
      'Implant, its width and its length read aloud',
      'Over to the restorative team',
    ])
      expect(text).toContain(words);
    for (const page of pages) {
      const opened = page.split('Pause: Sign in').length - 1;
      const closed = page.split('what was taken today').length - 1;
      expect(closed).toBe(opened);
    }
  });
});

describe('on screen', () => {
  test('nothing runs, nothing is asked for, and nothing is wider than a narrow window', async () => {
    const page = await browser.newPage({ viewport: { width: 480, height: 800 } });
    const said: string[] = [];
    page.on('console', (message) => said.push(message.text()));
    page.on('request', (request) => {
      if (!request.url().startsWith('data:') && request.url() !== 'about:blank') said.push(request.url());
    });
    await page.setContent(htmlOf('protocols/staged_implant.curette'));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    expect(await page.locator('.frame > thead').isVisible()).toBe(false);
    // The policy in the page admitted its own style.
    const border = await page
      .locator('.pause')
      .first()
      .evaluate((pause) => getComputedStyle(pause).borderTopStyle);
    expect(border).toBe('solid');
    expect(said).toEqual([]);
    await page.close();
  });

  test.each(hostileTexts)('%j is read and does nothing', async (text) => {
    const page = await browser.newPage();
    const done: string[] = [];
    page.on('dialog', (dialog) => {
      done.push(dialog.message());
      void dialog.dismiss();
    });
    page.on('request', (request) => done.push(request.url()));
    await page.setContent(
      sheetHtml('main.curette', (id) => (id === 'main.curette' ? Buffer.from(hostileProtocol(text)) : undefined)),
    );
    expect(await page.locator('h1').isVisible()).toBe(true);
    expect(await page.locator('script, img').count()).toBe(0);
    expect(done).toEqual([]);
    await page.close();
  });

  test.each(['light', 'dark'] as const)('text stands out from its ground in %s', async (colorScheme) => {
    const page = await browser.newPage({ colorScheme });
    await page.setContent(htmlOf('drafts/grafted_socket_draft.curette'));
    const colours = await page.evaluate(() => {
      const ground = (element: Element | null): string => {
        for (let at = element; at; at = at.parentElement) {
          const { backgroundColor } = getComputedStyle(at);
          if (backgroundColor !== 'rgba(0, 0, 0, 0)') return backgroundColor;
        }
        return 'rgb(255, 255, 255)';
      };
      const pairs = new Set<string>();
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const element = node.parentElement;
        if (element && node.textContent?.trim()) pairs.add(`${getComputedStyle(element).color}|${ground(element)}`);
      }
      return [...pairs];
    });
    expect(colours.length).toBeGreaterThan(3);
    for (const pair of colours) {
      const [text = '', ground = ''] = pair.split('|');
      expect(contrast(text, ground), pair).toBeGreaterThanOrEqual(4.5);
    }
    await page.close();
  });
});

async function printed(path: string, format: 'A4' | 'Letter') {
  const page = await browser.newPage();
  await page.setContent(htmlOf(path));
  const bytes = await page.pdf({ format });
  await page.close();
  const document = await getDocumentProxy(new Uint8Array(bytes));
  const { text } = await extractText(document, { mergePages: false });
  const [, , width = 0, height = 0] = (await document.getPage(1)).view;
  return { pages: text.map((one) => one.replace(/\s+/g, ' ')), width, height };
}

function htmlOf(path: string): string {
  return sheetHtml(path, (id) => (existsSync(join(examples, id)) ? readFileSync(join(examples, id)) : undefined));
}

/** @param read undefined for a file that is not there */
function sheetHtml(path: string, read: (id: string) => Buffer | undefined): string {
  const workspace = createWorkspace(
    (id) => {
      const bytes = read(id);
      return bytes ? { type: 'bytes', bytes } : { type: 'absent' };
    },
    () => '2026-03-01',
  );
  const facts = workspace.facts(path);
  const [protocol] = facts?.protocols ?? [];
  if (!facts || !protocol) throw new Error(`no protocol in ${path}`);
  return checklistHtml(checklistOf(facts, protocol, workspace.facts));
}

/** Contrast ratio of WCAG 2.2 (definitions of relative luminance and contrast ratio) of two colours as `rgb(r, g, b)`. */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const [red = 0, green = 0, blue = 0] = (colour.match(/[\d.]+/g) ?? []).map((part) => {
      const share = Number(part) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}
