import { forEachStatement, parse, reparse, type SyntaxTree, tokenize } from '@curette/grammar';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** Walks everything and checks that statements lie inside each other in order; answers how many there are. */
function walk(text: string, tree: SyntaxTree): number {
  expect(tree.length).toBe(text.length);
  let count = 0;
  let last = 0;
  forEachStatement(tree, (statement, start) => {
    count++;
    if (start < last) throw new Error(`a statement at ${start} stands behind ${last}`);
    if (start + statement.length > text.length) throw new Error('a statement runs past the end of the text');
    last = start;
  });
  return count;
}

describe('reading never throws and never hangs', () => {
  test('on any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (text) => {
        walk(text, parse(text));
      }),
      { numRuns: 3000 },
    );
  });

  test('on any run of the language’s own words and signs', () => {
    const words = [
      'kind',
      'protocol',
      'visit',
      '{',
      '}',
      '(',
      ')',
      '\n',
      '\n  ',
      '"a"',
      '"',
      ',',
      ':',
      '..',
      '->',
      '5',
      'min',
      'mL',
      '/min',
      'by',
      'with',
      'takes',
      'is',
      'not',
      'and',
      'or',
      'has',
      'until',
      'at',
      'least',
      'most',
      'x',
      '.',
      '=',
      '<',
      '///d\n',
      '//c\n',
      'exactly',
      'once',
      'total',
      '%',
      '°C',
      '-',
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...words), { maxLength: 120 }), (parts) => {
        const text = parts.join(' ');
        const tree = parse(text);
        walk(text, tree);
        const cut = text.length >> 1;
        const shorter = text.slice(0, cut);
        walk(shorter, reparse(tree, shorter, { start: cut, oldEnd: text.length, newEnd: cut }));
      }),
      { numRuns: 3000 },
    );
  });

  test('on bytes that are no text', () => {
    const bytes = new Uint8Array(200_000);
    let state = 7;
    for (let at = 0; at < bytes.length; at++) {
      state = (state * 1103515245 + 12345) & 0x7fffffff;
      bytes[at] = state >> 16;
    }
    for (const encoding of ['utf8', 'latin1', 'utf16le'] as const) {
      const text = Buffer.from(bytes).toString(encoding);
      expect(walk(text, parse(text))).toBeGreaterThan(0);
    }
  });

  test('on an empty file, white space, a lone mark', () => {
    for (const text of ['', ' ', '\n', '\r\n\r\n', '\ufeff', '\0', '{', '}', '"', '///', '/', '\ud800'])
      walk(text, parse(text));
    expect(parse('').body.items).toEqual([]);
  });
});

describe('size and depth', () => {
  const megabytes = 5_000_000;

  test('a file of 5 MB is read whole', () => {
    const line = '    lay cover on graft with forceps takes 1..2 min\n';
    const count = Math.ceil(megabytes / line.length);
    const text = `protocol p {\n  visit v {\n${line.repeat(count)}  }\n}\n`;
    expect(walk(text, parse(text))).toBe(count + 2);
  });

  test.each([
    ['words', 'lay '],
    ['letters', 'x'],
    ['spaces', ' '],
    ['quotes', '"'],
    ['opening braces', '{'],
    ['closing braces', '}'],
    ['opening brackets', '('],
    ['commas', ','],
    ['operators', '+ a '],
    ['negations', 'not '],
    ['digits', '7'],
    ['strange signs', '§'],
    ['slashes', '/'],
    ['backslashes in a text', '"\\'],
    ['numbers with units', '5 mm by '],
    ['prepositions', 'with '],
    ['dots', '.a'],
    ['merge signs', '<'],
  ])('a line of a megabyte of %s', (_, piece) => {
    const text = `rule r {\n  expect ${piece.repeat(Math.ceil(1_000_000 / piece.length))}\n  severity error\n}\n`;
    walk(text, parse(text));
    expect(tokenize(text.slice(0, 100_000)).length).toBeGreaterThan(0);
  });

  test('half a million blank lines', () => {
    expect(walk('\n'.repeat(500_000), parse('\n'.repeat(500_000)))).toBe(0);
    const text = `kind a${'\n'.repeat(500_000)}kind b`;
    expect(walk(text, parse(text))).toBe(2);
  });

  test('a line of 5 MB', () => {
    const text = `protocol p {\n  visit v {\n    lay ${'cover, '.repeat(megabytes / 7)}\n    lay b\n  }\n}\n`;
    expect(walk(text, parse(text))).toBe(4);
  });

  test('10,000 nested blocks, and what follows is read', () => {
    const text = `protocol p {\n  visit v {\n${'repeat {\n'.repeat(10_000)}lay a\n${'}\n'.repeat(10_000)}    lay b\n  }\n}\nkind after\n`;
    const tree = parse(text);
    expect(walk(text, tree)).toBeLessThan(200);
    expect(tree.body.items.map(({ type }) => type)).toEqual(['protocol', 'kind']);
    const open = text.slice(0, text.indexOf('lay a'));
    walk(open, parse(open));
  });

  test('10,000 nested brackets, and what follows is read', () => {
    const text = `rule r {\n  expect ${'('.repeat(10_000)}a${')'.repeat(10_000)} < 5\n  severity error\n}\n`;
    const [rule] = parse(text).body.items;
    expect(rule?.body?.items.map(({ type }) => type)).toEqual(['expect', 'severity']);
    expect(rule?.body?.items[0]?.flaws.map(({ code }) => code)).toEqual(['too_deep']);
  });

  test('10,000 lines, each further in than the last, and as many closing braces', () => {
    const lines = Array.from({ length: 10_000 }, (_, depth) => `${' '.repeat(depth)}lay a\n`);
    const text = `${lines.join('')}${'}\n'.repeat(10_000)}`;
    expect(walk(text, parse(text))).toBeGreaterThan(9_999);
  });

  test('a change in a file of 5 MB that is one line', () => {
    const text = `rule r {\n  expect ${'a + '.repeat(megabytes / 4)}b\n}\n`;
    const tree = parse(text);
    const next = `${text.slice(0, 30)}x${text.slice(30)}`;
    walk(next, reparse(tree, next, { start: 30, oldEnd: 30, newEnd: 31 }));
  });
});
