/** The picture of a timeline: well-formed, of text only, nothing over anything else, and told without colour. */
import { timelineSvg } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { textLines, textWidth } from '../../../server/src/render/timeline-measure.ts';
import { hostileProtocol, hostileTexts } from './hostile.ts';
import { type Element, elementsOf, exampleTimeline, timelineIn } from './timelines.ts';

const examples = [
  'protocols/grafted_socket.curette',
  'protocols/staged_implant.curette',
  'protocols/one_stage_implant.curette',
  'protocols/ridge_augmentation.curette',
  'protocols/sinus_floor_elevation.curette',
  'protocols/skin_excision.curette',
  'drafts/grafted_socket_draft.curette',
];

const LANES = `
kind graft "graft" is material { states dry -> wetted -> packed }
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for 10..60 min because "Too soon it floats out" source common_practice
  makes g packed
  takes 5 min
}
action cut (place p) { takes 2..4 min }
action vague (place p)
protocol p "P" {
  given { site : place }
  team { surgeon, assistant }
  materials { g : graft }
  visit v "V" {
    together {
      lane a "Graft" by assistant { wet g }
      lane b "Tooth" by surgeon { cut site takes 20..30 min }
    }
    pack g
    wait 3 min
    vague site
    cut site
  }
}
`;

describe('the picture needs nothing and runs nothing', () => {
  test.each(examples)('%s', (path) => {
    const svg = timelineSvg(exampleTimeline(path));
    const elements = elementsOf(svg);
    expect(elements[0]).toMatchObject({
      name: 'svg',
      attributes: { xmlns: 'http://www.w3.org/2000/svg', role: 'img' },
    });
    const names = new Set(elements.map(({ name }) => name));
    for (const active of ['script', 'foreignObject', 'image', 'use', 'a', 'animate', 'set', 'iframe'])
      expect(names.has(active)).toBe(false);
    const handlers = elements
      .flatMap(({ attributes }) => Object.keys(attributes))
      .filter((name) => /^on|href|src/i.test(name));
    expect(handlers).toEqual([]);
    // Nothing is fetched: the only address in it is that of its own hatching.
    expect(svg.match(/url\([^)]*\)|@import[^;]*/g)).toEqual(['url(#curette-hatch)']);
  });

  test('a reader of the screen has its title, and what it says in words', () => {
    const elements = elementsOf(timelineSvg(exampleTimeline('protocols/grafted_socket.curette')));
    const [svg] = elements;
    const named = (svg?.attributes['aria-labelledby'] ?? '').split(' ');
    const [title, desc] = named.map((id) => elements.find(({ attributes }) => attributes.id === id));
    expect(title).toMatchObject({ name: 'title', text: 'Timeline: Grafted extraction socket without a flap' });
    expect(desc?.name).toBe('desc');
    expect(desc?.text).toContain('Visit 1, Extraction and graft. The chair is occupied for 37–104 min');
    expect(desc?.text).toContain('13, Pack graft into socket in 4 increments: 23–65 min.');
    expect(desc?.text).toContain('Clock: Graft wetted');
  });
});

describe('texts of a protocol are shown as text', () => {
  const shape = (svg: string) => elementsOf(svg).map(({ name, attributes }) => [name, attributes.class]);
  const classes = (svg: string) => new Set(shape(svg).map(([name, className]) => `${name} ${className ?? ''}`));
  const plain = classes(timelineSvg(timelineIn(hostileProtocol('plain'))));

  test.each(hostileTexts)('%j adds nothing', (text) => {
    const svg = timelineSvg(timelineIn(hostileProtocol(text)));
    expect(classes(svg)).toEqual(plain);
    expect(svg).not.toContain('\u202E');
    expect(svg).not.toContain('\u001b');
  });

  test('a text as long as a book is cut, and the picture stays a picture', () => {
    for (const text of ['W'.repeat(20_000), 'word '.repeat(5000), '字'.repeat(20_000)]) {
      const svg = timelineSvg(timelineIn(hostileProtocol(text)));
      expect(overlaps(boxesOf(svg))).toEqual([]);
      expect(outside(svg)).toEqual([]);
      expect(svg.length).toBeLessThan(120_000);
    }
  });

  test('what XML cannot hold is replaced', () => {
    const svg = timelineSvg(timelineIn(hostileProtocol('a\uffffb')));
    expect(svg).not.toContain('\uffff');
    expect(elementsOf(svg).some(({ text }) => text.includes('a\ufffdb'))).toBe(true);
  });
});

describe('nothing lies over anything else', () => {
  test.each(examples)('%s', (path) => {
    const svg = timelineSvg(exampleTimeline(path));
    expect(boxesOf(svg).length).toBeGreaterThan(40);
    expect(overlaps(boxesOf(svg))).toEqual([]);
    expect(outside(svg)).toEqual([]);
  });

  test('a visit of two thousand steps is cut into parts with an axis each', () => {
    const steps = 'cut site\n'.repeat(2000);
    const svg = timelineSvg(
      timelineIn(
        `action cut (place p) { takes 2..4 min }\nprotocol p "P" {\ngiven { site : place }\nvisit v "V" {\n${steps}}\n}`,
      ),
    );
    const elements = elementsOf(svg);
    expect(elements.filter(({ text }) => /^Part \d+ of \d+$/.test(text)).length).toBe(42);
    expect(elements.filter(({ name, text }) => name === 'text' && text === 'Cut site').length).toBe(2000);
    expect(overlaps(boxesOf(svg).slice(0, 1500))).toEqual([]);
  });
});

describe('what is certain, what is not, and what is critical can be told apart without colour', () => {
  const svg = timelineSvg(timelineIn(LANES));
  const elements = elementsOf(svg);
  const classes = (name: string) =>
    elements.filter((one) => one.name === name).map(({ attributes }) => attributes.class);

  test('quickest runs are solid, slowest hatched', () => {
    const bars = classes('rect');
    expect(bars.filter((name) => name?.startsWith('quick'))).not.toEqual([]);
    expect(bars.filter((name) => name?.startsWith('slow'))).not.toEqual([]);
    expect(elements.some(({ name, inside }) => name === 'line' && inside.includes('pattern'))).toBe(true);
  });

  test('critical steps have a thick edge and a sign; others have neither', () => {
    const groups = groupsOf(svg);
    const cut = groups.find(({ told }) => told.startsWith('Cut site, begins 0 min'));
    const wet = groups.find(({ told }) => told.startsWith('Wet g'));
    expect(cut?.told).toMatch(/critical$/);
    expect(cut?.classes).toContain('quick critical');
    expect(cut?.classes).toContain('sign');
    expect(wet?.told).toContain('29 min spare');
    expect(wet?.classes).toContain('quick');
    expect(wet?.classes).not.toContain('quick critical');
    expect(wet?.classes).not.toContain('sign');
  });

  test('where all work is in series nothing is marked, and that is said', () => {
    const series = timelineSvg(exampleTimeline('protocols/grafted_socket.curette'));
    expect(elementsOf(series).some(({ attributes }) => attributes.class?.includes('critical'))).toBe(false);
    expect(series).toContain('All work is in series');
  });

  test('a clock that breaks says so in words and with a sign', () => {
    const draft = elementsOf(timelineSvg(exampleTimeline('drafts/grafted_socket_draft.curette')));
    expect(draft.some(({ text }) => text.includes('Graft wetted: always breaks: too soon'))).toBe(true);
    expect(draft.some(({ name, text }) => name === 'text' && text === '!')).toBe(true);
  });

  test('bands for each role, for those of whom nothing is said, for waiting and for clocks', () => {
    const bands = elements.filter(({ attributes }) => attributes.class === 'band').map(({ text }) => text);
    expect(bands).toEqual(['Surgeon', 'Assistant', 'Nobody named', 'Waiting', 'Clocks']);
  });

  test('what begins no sooner than after a step of no stated length goes on to an arrow', () => {
    const last = groupsOf(svg).find(({ told }) => told.startsWith('Cut site, begins from'));
    expect(last?.classes).toContain('sign');
    expect(last?.told).toContain('from 28 min on');
  });
});

describe('what stands on every picture', () => {
  test('the caution; where there are errors, that it is not fit for use', () => {
    const sound = timelineSvg(exampleTimeline('protocols/grafted_socket.curette'));
    const draft = timelineSvg(exampleTimeline('drafts/grafted_socket_draft.curette'));
    for (const svg of [sound, draft])
      expect(svg).toContain('Local codes, product labelling and licensed practice come first.');
    expect(draft).toMatch(/Not fit for use: the checker found \d+ errors\./);
    expect(sound).not.toMatch(/not fit for use/i);
  });

  test('a protocol without visits, and a visit without steps', () => {
    expect(timelineSvg(timelineIn('protocol p "P" { }'))).toContain('It has no visits.');
    expect(timelineSvg(timelineIn('protocol p "P" { visit v "V" { } }'))).toContain(
      'Nothing in it says how long it takes.',
    );
  });
});

test('a text is broken into lines that fit, and cut where there are too many', () => {
  const words = 'Pack the graft into the socket, in four increments, and no deeper';
  const lines = textLines(words, 120, 13, 9);
  expect(lines.join(' ')).toBe(words);
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines) expect(textWidth(line, 13)).toBeLessThanOrEqual(120);
  const cut = textLines(words, 120, 13, 2);
  expect(cut.length).toBe(2);
  expect(cut[1]).toMatch(/…$/);
  for (const line of cut) expect(textWidth(line, 13)).toBeLessThanOrEqual(120);
  expect(textLines('W'.repeat(50), 60, 13, 20).join('')).toBe('W'.repeat(50));
});

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const SIZES: Readonly<Record<string, number>> = { small: 11.5, title: 24, visit: 18 };

/** Where the texts are: as wide as they are taken to be, as high as their letters. */
function boxesOf(svg: string): Box[] {
  return elementsOf(svg)
    .filter(({ name }) => name === 'text')
    .map(({ attributes, text }) => {
      const classes = (attributes.class ?? '').split(' ');
      const size = classes.map((name) => SIZES[name]).find((one) => one !== undefined) ?? 13;
      const bold = classes.some((name) => ['title', 'visit', 'band', 'bold', 'on-alarm'].includes(name));
      const width = textWidth(text, size, bold);
      const x = Number(attributes.x);
      const y = Number(attributes.y);
      const left =
        attributes['text-anchor'] === 'end' ? x - width : attributes['text-anchor'] === 'middle' ? x - width / 2 : x;
      return { text, left, right: left + width, top: y - size * 0.8, bottom: y + size * 0.22 };
    });
}

function overlaps(boxes: readonly Box[]): string[] {
  const sorted = [...boxes].sort((a, b) => a.top - b.top);
  return sorted.flatMap((a, i) => {
    const found: string[] = [];
    for (let at = i + 1; at < sorted.length; at++) {
      const b = sorted[at];
      if (!b || b.top >= a.bottom) break;
      if (a.left < b.right && b.left < a.right) found.push(`"${a.text}" and "${b.text}"`);
    }
    return found;
  });
}

/** Texts and shapes that leave the page. */
function outside(svg: string): string[] {
  const elements = elementsOf(svg);
  const page = elements[0]?.attributes ?? {};
  const width = Number(page.width);
  const height = Number(page.height);
  const texts = boxesOf(svg).filter(
    ({ left, right, top, bottom }) => left < 0 || right > width || top < 0 || bottom > height,
  );
  const shapes = elements.filter(
    ({ name, attributes, inside }) =>
      name === 'rect' &&
      !inside.includes('pattern') &&
      (Number(attributes.x) < 0 ||
        Number(attributes.x) + Number(attributes.width) > width ||
        Number(attributes.y) + Number(attributes.height) > height),
  );
  return [...texts.map(({ text }) => text), ...shapes.map(({ attributes }) => JSON.stringify(attributes))];
}

/** Each row: what is told of it, and the classes of what is drawn. */
function groupsOf(svg: string): { readonly told: string; readonly classes: readonly string[] }[] {
  const groups: { told: string; classes: string[] }[] = [];
  for (const element of elementsOf(svg)) {
    if (element.name === 'g') groups.push({ told: '', classes: [] });
    const group = groups.at(-1);
    if (!group || !element.inside.includes('g')) continue;
    if (element.name === 'title') group.told = element.text;
    else group.classes.push(classOf(element));
  }
  return groups;
}

function classOf({ attributes }: Element): string {
  return attributes.class ?? '';
}
