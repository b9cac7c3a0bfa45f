import { createHash } from 'node:crypto';
import { checklistHtml } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { hostileProtocol, hostileTexts } from './hostile.ts';
import { everyItem, exampleSheet, sheetOf } from './sheets.ts';

const sound = checklistHtml(exampleSheet('protocols/grafted_socket.curette'));
const draft = checklistHtml(exampleSheet('drafts/grafted_socket_draft.curette'));

describe('the page needs nothing and runs nothing', () => {
  test('its policy lets nothing load and admits the one style by its digest', () => {
    const style = /<style>([\s\S]*?)<\/style>/.exec(sound)?.[1] ?? '';
    const digest = createHash('sha256').update(style).digest('base64');
    expect(sound).toContain(
      `content="default-src &#39;none&#39;; style-src &#39;sha256-${digest}&#39;; base-uri &#39;none&#39;; form-action &#39;none&#39;"`,
    );
    expect(style.length).toBeGreaterThan(1000);
  });

  test('no script, no other file, no style or handler by attribute', () => {
    for (const page of [sound, draft]) {
      expect(page).not.toMatch(/<(script|link|img|iframe|object|embed|base|form)\b/i);
      expect(page).not.toMatch(/\s(src|style|on\w+)\s*=/i);
      expect(page).not.toMatch(/url\(|@import/i);
      const addresses = [...page.matchAll(/href="([^"]*)"/g)].map(([, address]) => address);
      expect(addresses.every((address) => /^#source-\d+$/.test(address ?? ''))).toBe(true);
    }
  });

  test('every reference leads to a source on the page', () => {
    for (const [, target] of sound.matchAll(/href="#([^"]*)"/g)) expect(sound).toContain(`id="${target}"`);
  });
});

describe('texts of a protocol are shown as text', () => {
  const tags = (page: string) => [...page.matchAll(/<\/?([a-z0-9]+)/gi)].map(([, tag]) => tag);
  const plain = tags(checklistHtml(sheetOf(hostileProtocol('plain'))));

  test.each(hostileTexts)('%j adds no element', (text) => {
    const page = checklistHtml(sheetOf(hostileProtocol(text)));
    expect(tags(page)).toEqual(plain);
    expect(page).not.toMatch(/\s(src|on\w+)\s*=\s*["']/i);
  });

  test('what was written is what is read', () => {
    const page = checklistHtml(sheetOf(hostileProtocol('a < b & "c"'.replaceAll('"', '\\"'))));
    expect(page).toContain('<h1>a &lt; b &amp; &quot;c&quot;</h1>');
  });

  test('what would turn the direction of writing or steer a terminal is made visible', () => {
    const page = checklistHtml(sheetOf(hostileProtocol('\u202Ex\u001b')));
    for (const hidden of ['\u202E', '\u202C', '\u2066', '\u001b']) expect(page).not.toContain(hidden);
    expect(page).toContain('\ufffdx\u241b');
  });
});

describe('what the sheet shows', () => {
  test('version and status stand in the head that paper repeats, and at the top', () => {
    const running = /<thead[\s\S]*?<\/thead>/.exec(sound)?.[0] ?? '';
    expect(running).toContain('Grafted extraction socket without a flap');
    expect(running).toContain('version 2.1.0, in review');
    expect(sound).toContain('<dt>Version</dt><dd>2.1.0</dd>');
    expect(sound).toContain('<dt>Status</dt><dd>in review</dd>');
  });

  test('a sound protocol carries no mark of unfitness, a faulty one carries it in the repeated head and at the top', () => {
    expect(sound.toLowerCase()).not.toContain('not fit for use');
    expect(/<thead[\s\S]*?<\/thead>/.exec(draft)?.[0]).toContain('NOT FIT FOR USE');
    expect(draft).toMatch(/<p class="banner" role="status">Not fit for use: the checker found \d+ errors\.<\/p>/);
    expect(/<title>.*<\/title>/.exec(draft)?.[0]).toContain('not fit for use');
  });

  test('the caution stands on every sheet', () => {
    for (const page of [sound, draft])
      expect(page).toContain('Local codes, product labelling and licensed practice come first.');
  });

  test('nothing of the model is left out', () => {
    const sheet = exampleSheet('protocols/staged_implant.curette');
    const page = checklistHtml(sheet);
    const shows = (text: string | null) =>
      text === null ||
      page.includes(
        text.replaceAll('&', '&amp;').replaceAll("'", '&#39;').replaceAll('"', '&quot;').replaceAll('<', '&lt;'),
      );
    for (const part of sheet.course) {
      if (part.type !== 'visit') continue;
      for (const item of everyItem(part.steps)) {
        const texts = Object.entries(item).flatMap(([key, value]) => {
          if (key === 'type' || key === 'name') return [];
          if (typeof value === 'string') return [value];
          return Array.isArray(value) ? value.filter((one) => typeof one === 'string') : [];
        });
        for (const text of texts) expect(shows(text), text).toBe(true);
      }
    }
    for (const thing of [...sheet.materials, ...sheet.instruments]) expect(shows(thing.name)).toBe(true);
    for (const { citation } of sheet.sources) expect(shows(citation), citation).toBe(true);
  });

  test('each tick box has a name', () => {
    const boxes = sound.match(/<input class="tick"[^>]*>/g) ?? [];
    expect(boxes.length).toBeGreaterThan(40);
    const labelled = sound.match(/<label[^>]*><input class="tick"/g) ?? [];
    expect(labelled.length).toBe(boxes.length);
  });
});
