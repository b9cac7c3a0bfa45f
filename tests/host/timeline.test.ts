/** Draws timelines with a real browser and measures what it drew: in light, in dark and on paper. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createWorkspace, timelineOf, timelineSvg } from '@curette/server';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromium as installed } from '../scripts/setup.mjs';
import { hostileProtocol, hostileTexts } from '../unit/render/hostile.ts';

const examples = join(import.meta.dirname, '../../examples');
const folder = mkdtempSync(join(tmpdir(), 'curette-timeline-'));
let browser: Browser;

beforeAll(async () => {
  const executablePath = installed();
  if (executablePath === undefined)
    throw new Error('No Chromium. On Debian, as root: apt-get install -y chromium. Or set CURETTE_CHROMIUM to one.');
  browser = await chromium.launch({ executablePath, args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

const paths = [
  'protocols/grafted_socket.curette',
  'protocols/staged_implant.curette',
  'protocols/skin_excision.curette',
  'drafts/grafted_socket_draft.curette',
];

describe.each(paths)('%s', (path) => {
  const svg = svgOf(
    (id) => (existsSync(join(examples, id)) ? readFileSync(join(examples, id), 'utf8') : undefined),
    path,
  );

  test('no words lie over others or leave the page', async () => {
    const page = await drawn(svg, 'light');
    expect(await collisions(page)).toEqual([]);
    await page.close();
  });

  test.each(['light', 'dark', 'paper'] as const)('words stand out in %s', async (medium) => {
    const page = await drawn(svg, medium);
    const contrasts = await page.evaluate(contrastsOfWords);
    expect(contrasts.length).toBeGreaterThan(3);
    // Web Content Accessibility Guidelines 2.2, 1.4.3: 4.5 to 1.
    for (const { className, ratio } of contrasts)
      expect({ className, enough: ratio >= 4.5 }).toEqual({ className, enough: true });
    await page.close();
  });
});

test('nothing hostile becomes wider than was planned for, and nothing runs or is fetched', async () => {
  for (const text of [...hostileTexts, 'W'.repeat(3000), '字'.repeat(3000), '\u{1f9b7}'.repeat(500)]) {
    const page = await browser.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    page.on('dialog', () => asked.push('a dialog'));
    await show(
      page,
      svgOf((id) => (id === 'a.curette' ? hostileProtocol(text) : undefined), 'a.curette'),
    );
    expect(await collisions(page)).toEqual([]);
    expect(asked.length).toBe(1);
    await page.close();
  }
});

function svgOf(read: (id: string) => string | undefined, id: string): string {
  const workspace = createWorkspace(
    (file) => {
      const text = read(file);
      return text === undefined ? { type: 'absent' } : { type: 'bytes', bytes: new TextEncoder().encode(text) };
    },
    () => '2026-03-01',
  );
  const facts = workspace.facts(id);
  const protocol = facts?.protocols[0];
  if (!facts || !protocol) throw new Error(`no protocol in ${id}`);
  return timelineSvg(timelineOf(facts, protocol, workspace.facts));
}

async function drawn(svg: string, medium: 'light' | 'dark' | 'paper'): Promise<Page> {
  const page = await browser.newPage({ colorScheme: medium === 'dark' ? 'dark' : 'light' });
  if (medium === 'paper') await page.emulateMedia({ media: 'print' });
  await show(page, svg);
  return page;
}

async function show(page: Page, svg: string): Promise<void> {
  const file = join(folder, 'timeline.svg');
  writeFileSync(file, svg);
  await page.goto(pathToFileURL(file).href);
}

/** Pairs of words of which one lies over the other, and words that leave the page, as the browser measures them. */
async function collisions(page: Page): Promise<string[]> {
  const { boxes, width, height } = await page.evaluate(() => ({
    width: Number(document.documentElement.getAttribute('width')),
    height: Number(document.documentElement.getAttribute('height')),
    boxes: Array.from(document.querySelectorAll('text'), (node) => {
      const box = (node as SVGTextElement).getBBox();
      // A line is higher than its letters: the space above and below is nobody's.
      const margin = box.height * 0.14;
      return {
        text: node.textContent ?? '',
        left: box.x,
        right: box.x + box.width,
        top: box.y + margin,
        bottom: box.y + box.height - margin,
      };
    }),
  }));
  boxes.sort((a, b) => a.top - b.top);
  const found = boxes
    .filter((box) => box.left < 0 || box.right > width || box.top < 0 || box.bottom > height)
    .map((box) => box.text);
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      if (b.top >= a.bottom) break;
      if (a.left < b.right && b.left < a.right) found.push(`"${a.text}" and "${b.text}"`);
    }
  });
  expect(boxes.length).toBeGreaterThan(10);
  return found;
}

/** Runs in the page: for each class of words, how far its colour is from what it stands on. */
function contrastsOfWords(): { className: string; ratio: number }[] {
  const luminance = (colour: string): number => {
    const [red = 0, green = 0, blue = 0] = (colour.match(/[\d.]+/g) ?? []).map(Number).map((value) => {
      const part = value / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const fill = (node: Element) => luminance(getComputedStyle(node).fill);
  const ground = (selector: string) => {
    const node = document.querySelector(selector);
    return node ? fill(node) : undefined;
  };
  const seen = new Map<string, { className: string; ratio: number }>();
  for (const node of Array.from(document.querySelectorAll('text'))) {
    const className = node.getAttribute('class') ?? '';
    if (seen.has(className)) continue;
    const under = className.includes('on-alarm')
      ? ground('.alarm')
      : className.includes('band')
        ? ground('.wash')
        : ground('.paper');
    const [bright = 0, dim = 0] = [fill(node), under ?? 0].sort((a, b) => b - a);
    seen.set(className, { className, ratio: (bright + 0.05) / (dim + 0.05) });
  }
  return [...seen.values()];
}
