import { format, parse, tokenize } from '@curette/grammar';
import { parseUnit } from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { comments, isClean, model, shippedTexts, testTexts } from '../support/layouts.ts';
import { referenceBlocks, sample } from '../unit/grammar/samples.ts';

/** What people, editors and merges leave between two words; what would change how a word is read is not kept. */
const gaps = [
  ...['', ' ', '   ', '\t', '\u00a0', ',', ', ', ' ,\n'],
  ...['\n', '\n\n', '\n\n\n\n', '\r\n', '\n      ', '\n  \t\n ', '\n                '],
  ...[' // c', ' // c\n', '\n// c\n', '\n\n  // c\n\n', ' // c\n // d\n', '//c\n//  d  \n', ' //// c\n'],
  ...[' /// c\n', '\n/// c\n', '\n///c\n\n/// d\n', '\n/// c\n// d\n', '\n///\n'],
];

const whole = [sample, ...referenceBlocks(), ...testTexts(), ...shippedTexts().map(({ text }) => text)].filter((text) =>
  isClean(parse(text)),
);

/** Declarations, each a text of its own: a fault in a small text is sooner found. */
const declarations = whole.flatMap((text) => {
  const { items, offsets } = parse(text).body;
  return items.map(({ length }, at) => text.slice(offsets[at], (offsets[at] ?? 0) + length));
});

/** A text with other things between its words, as long as it still reads without a fault. */
const laidOut = fc
  .tuple(
    fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...declarations) }, fc.constantFrom(sample, ...referenceBlocks())),
    fc.array(fc.tuple(fc.nat(), fc.constantFrom(...gaps)), { minLength: 1, maxLength: 25 }),
  )
  .map(([start, edits]) => {
    let text = isClean(parse(start)) ? start : '';
    for (const [where, gap] of edits) {
      const signs = tokenize(text);
      const at = where % (signs.length + 1);
      const next = text.slice(0, signs[at - 1]?.end ?? 0) + gap + text.slice(signs[at]?.start ?? text.length);
      if (isClean(parse(next))) text = next;
    }
    return text;
  });

function formatted(text: string): string {
  const { text: result, refused } = format(text);
  if (result === undefined) throw new Error(`refused: ${refused.code} in ${JSON.stringify(text)}`);
  return result;
}

function looksFormatted(text: string): void {
  expect(text).not.toMatch(/[ \t]$/m);
  expect(text).not.toMatch(/\t/);
  expect(text).not.toMatch(/\n\n\n/);
  expect(text).not.toMatch(/^\n/);
  expect(text).not.toMatch(/\{\n\n/);
  expect(text).not.toMatch(/\n\n *\}/);
  expect(text === '' || /[^\n]\n$/.test(text)).toBe(true);
  for (const line of text.split('\n'))
    expect(/^ */.exec(line)?.[0].length ?? 0, line).toSatisfy((n: number) => n % 2 === 0);
}

describe('a formatted text', () => {
  test('means the same, keeps its comments in their places, and is formatted already', () => {
    let changed = 0;
    fc.assert(
      fc.property(laidOut, (text) => {
        const once = formatted(text);
        expect(model(once)).toBe(model(text));
        expect(comments(once)).toEqual(comments(text));
        expect(formatted(once)).toBe(once);
        looksFormatted(once.replaceAll('\r\n', '\n').replace(/\/\/.*/g, (comment) => comment.replace(/\t/g, ' ')));
        if (once !== text) changed++;
      }),
      { numRuns: 3000 },
    );
    expect(changed).toBeGreaterThan(2000);
  });

  test('is the same whatever its lines were indented by, and however far its words stood apart', () => {
    const spaced = fc.tuple(
      fc.constantFrom(...declarations),
      fc.infiniteStream(fc.constantFrom(' ', '  ', '\t', '     ')),
    );
    fc.assert(
      fc.property(spaced, (written) => {
        const [text, spaces] = written;
        const strings = /"(?:[^"\\\n]|\\.)*"|\/\/.*/g;
        const pieces = text.split(strings);
        const kept = text.match(strings) ?? [];
        const moved = pieces
          .map((piece, at) => piece.replace(/ +/g, () => String(spaces.next().value)) + (kept[at] ?? ''))
          .join('');
        if (model(moved) !== model(text)) return;
        expect(formatted(moved)).toBe(formatted(text));
      }),
      { numRuns: 500 },
    );
  });

  test('means the same with its units spelled as the code has them', () => {
    const spell = (unit: string): string => {
      const known = parseUnit(unit);
      return known.ok ? known.canonical : unit;
    };
    for (const text of whole) {
      const once = format(text, { spell }).text ?? '';
      expect(model(once, spell)).toBe(model(text, spell));
      expect(format(once, { spell }).text).toBe(once);
    }
  });
});

test.each(whole.map((text) => [text.split('\n', 1)[0]?.slice(0, 60) ?? '', text]))('%s …', (_, text) => {
  const once = formatted(text);
  expect(model(once)).toBe(model(text));
  expect(comments(once)).toEqual(comments(text));
  expect(formatted(once)).toBe(once);
});

test('a text is refused when, and only when, something in it could not be read', () => {
  const damaged = fc
    .tuple(
      fc.constantFrom(...declarations, sample),
      fc.array(fc.tuple(fc.nat(), fc.nat(3), fc.constantFrom('', '{', '}', '"', '==', ';', '“', ')', ' x', 'wiht')), {
        minLength: 1,
        maxLength: 3,
      }),
    )
    .map(([text, edits]) =>
      edits.reduce((left, [where, removed, by]) => {
        const at = where % (left.length + 1);
        return left.slice(0, at) + by + left.slice(at + removed);
      }, text),
    );
  let refusals = 0;
  fc.assert(
    fc.property(fc.oneof(damaged, fc.string({ unit: 'binary', maxLength: 60 })), (text) => {
      const { text: result, refused } = format(text);
      expect(refused === undefined).toBe(isClean(parse(text)));
      expect(result === undefined).toBe(refused !== undefined);
      if (refused === undefined) return;
      refusals++;
      expect(refused.start).toBeGreaterThanOrEqual(0);
      expect(refused.end).toBeLessThanOrEqual(text.length);
    }),
    { numRuns: 1500 },
  );
  expect(refusals).toBeGreaterThan(700);
});
