import {
  type Change,
  forEachStatement,
  parse,
  pathAt,
  reparse,
  type Statement,
  type SyntaxTree,
} from '@curette/grammar';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { referenceBlocks, sample } from './samples.ts';

/** Everything but ids. */
function plain(tree: SyntaxTree): string {
  return JSON.stringify(tree, (key, value) => (key === 'id' || key === 'nextId' ? undefined : (value ?? null)));
}

function all(tree: SyntaxTree): Statement[] {
  const found: Statement[] = [];
  forEachStatement(tree, (statement) => {
    found.push(statement);
  });
  return found;
}

function edit(text: string, start: number, oldEnd: number, by: string): { text: string; change: Change } {
  return { text: text.slice(0, start) + by + text.slice(oldEnd), change: { start, oldEnd, newEnd: start + by.length } };
}

/** What people and editors insert, and what is likeliest to change how the lines around it are read. */
const snippets = [
  ...[
    '\n',
    '{',
    '}',
    '"',
    ',',
    ';',
    '//',
    '///',
    '/',
    '->',
    '..',
    ' ',
    '(',
    ')',
    ':',
    '=',
    '-',
    '5',
    'a',
    'é',
    '°C',
    '\t',
    '\r\n',
  ],
  ...[
    'with',
    'by',
    'and',
    'takes 5 min',
    'exactly',
    'at least',
    'in a visit',
    'is',
    'needs',
    'visit',
    'item "x"',
    'otherwise',
  ],
  ...[
    '{ }',
    ' {\n',
    '\n}\n',
    'visit x { }',
    '\n    lay a on b\n',
    'note "x"',
    '(a b)',
    'option a { note "x" }',
    '"abc {',
    '“q”',
    '==',
  ],
  ...['<<<<<<< x', '\n=======\n', '// c\n', '/// d\n', '\n/// d\n  lay a,\n', ' \n  '],
];

const texts = [
  sample,
  ...referenceBlocks(),
  'a\n b,\n  c',
  '',
  'team { surgeon, assistant }\ninstruments {\n a, b\n c : d 5, e\n}\n',
];

describe('a change gives the tree that reading the whole text gives', () => {
  test('for any edits of any text', () => {
    const part = fc
      .tuple(fc.constantFrom(...texts), fc.nat(), fc.integer({ min: 1, max: 40 }), fc.boolean())
      .map(([text, from, count, whole]) => {
        const lines = text.split('\n');
        const at = from % lines.length;
        return whole ? text : lines.slice(at, at + count).join('\n');
      });
    const edits = fc.array(
      fc.record({
        at: fc.nat(),
        removed: fc.oneof(fc.constant(0), fc.nat(4), fc.nat(60)),
        by: fc.oneof(fc.constant(''), fc.constantFrom(...snippets)),
      }),
      { minLength: 1, maxLength: 4 },
    );
    let compared = 0;
    fc.assert(
      fc.property(part, edits, (start, changes) => {
        let text = start;
        let tree = parse(text);
        for (const { at, removed, by } of changes) {
          const from = at % (text.length + 1);
          const next = edit(text, from, Math.min(text.length, from + removed), by);
          tree = reparse(tree, next.text, next.change);
          text = next.text;
          expect(plain(tree)).toBe(plain(parse(text)));
          const ids = all(tree).map(({ id }) => id);
          expect(new Set(ids).size).toBe(ids.length);
          compared++;
        }
      }),
      { numRuns: 2500 },
    );
    expect(compared).toBeGreaterThan(2500);
  });

  test('for edits in files whose braces do not pair', () => {
    const broken = fc
      .tuple(fc.constantFrom(...texts), fc.array(fc.nat(), { minLength: 1, maxLength: 3 }))
      .map(([text, cuts]) =>
        cuts.reduce((left, cut) => {
          const braces = [...left.matchAll(/[{}]/g)].map(({ index }) => index);
          const brace = braces[cut % Math.max(1, braces.length)];
          return brace === undefined ? left : left.slice(0, brace) + left.slice(brace + 1);
        }, text),
      );
    const letter = fc.constantFrom(
      'a',
      ' ',
      '5',
      '.',
      ',',
      '"',
      '/',
      ' is',
      '-',
      ' by c',
      ' "x"',
      ' at least',
      ' // c',
      '(',
      '=',
      '',
      '{',
      '}',
      '\n',
    );
    fc.assert(
      fc.property(
        broken,
        fc.array(fc.tuple(fc.nat(), fc.nat(3), letter), { minLength: 1, maxLength: 4 }),
        (start, edits) => {
          let text = start;
          let tree = parse(text);
          for (const [at, removed, by] of edits) {
            const from = at % (text.length + 1);
            const next = edit(text, from, Math.min(text.length, from + removed), by);
            tree = reparse(tree, next.text, next.change);
            text = next.text;
            expect(plain(tree)).toBe(plain(parse(text)));
          }
        },
      ),
      { numRuns: 800 },
    );
  });

  test('for a merge marker that becomes a continuation of the line above', () => {
    const text = 'a\n<<<<<<<with xb\n  c';
    const next = edit(text, 8, 9, 'é');
    expect(plain(reparse(parse(text), next.text, next.change))).toBe(plain(parse(next.text)));
  });

  test('for a file typed letter by letter', () => {
    const target = sample.slice(sample.indexOf('  visit surgery'), sample.indexOf('    together {'));
    let tree = parse('');
    for (let at = 0; at < target.length; at++) {
      const { text, change } = edit(target.slice(0, at), at, at, target.charAt(at));
      tree = reparse(tree, text, change);
      if (at % 7 === 0) expect(plain(tree)).toBe(plain(parse(text)));
    }
    expect(plain(tree)).toBe(plain(parse(target)));
  });
});

describe('what a change leaves alone', () => {
  const tree = parse(sample);
  const lines = sample.split('\n');
  const places = lines.flatMap((line, index) => {
    // The last word: the first one says what line it is.
    const word = /[a-z]{4,}(?=[^a-z]*$)/.exec(line);
    const start = lines.slice(0, index).join('\n').length + (index > 0 ? 1 : 0);
    return word === null ? [] : [{ line: line.trim(), at: start + word.index + 2 }];
  });

  test.each(places)('is the same object, after a letter in: $line', ({ at }) => {
    const { text, change } = edit(sample, at, at, 'x');
    const changed = reparse(tree, text, change);
    const path = pathAt(tree, at).map(({ statement }) => statement);
    const after = new Set(all(changed));
    const lost = all(tree).filter((statement) => !after.has(statement));
    // An entry is read whole, for its block may tell what it is.
    const entry = path.find(({ type }) => type === 'entry');
    const around = new Set([...path, ...(entry?.body?.items ?? [])]);
    expect(lost.filter((statement) => !around.has(statement)).map(({ type }) => type)).toEqual([]);
  });

  test('keeps its id where it is read anew', () => {
    const at = sample.indexOf('cover on graft') + 2;
    const { text, change } = edit(sample, at, at + 1, 'w');
    const before = pathAt(tree, at).map(({ statement }) => statement.id);
    expect(pathAt(reparse(tree, text, change), at).map(({ statement }) => statement.id)).toEqual(before);
  });

  test('keeps its id and its block when its head is read anew', () => {
    const at = sample.indexOf('Extraction and graft');
    const { text, change } = edit(sample, at, at, 'Staged ');
    const visit = pathAt(tree, at).at(-1)?.statement;
    const changed = pathAt(reparse(tree, text, change), at).at(-1)?.statement;
    expect(changed?.id).toBe(visit?.id);
    expect(changed?.body?.items).toBe(visit?.body?.items);
    expect(changed?.type === 'visit' && changed.label?.value).toBe('Staged Extraction and graft');
  });

  test('is the same object beside a line that is added or taken away', () => {
    const at = sample.indexOf('    lay cover on graft');
    const added = edit(sample, at, at, '    rinse site with saline\n');
    const longer = reparse(tree, added.text, added.change);
    const old = all(tree);
    const fresh = all(longer).filter((statement) => !old.includes(statement));
    expect(fresh.map(({ type }) => type)).toEqual(['protocol', 'visit', 'step']);
    const { change, text } = edit(added.text, at, at + '    rinse site with saline\n'.length, '');
    expect(
      all(reparse(longer, text, change))
        .filter((statement) => !old.includes(statement))
        .map(({ type }) => type),
    ).toEqual(['protocol', 'visit']);
  });

  test('is the same object while braces do not pair, as long as one line changes', () => {
    const open = sample.indexOf('    lay cover on graft');
    const broken = `${sample.slice(0, open)}    repeat {\n${sample.slice(open)}`;
    const before = parse(broken);
    const at = broken.indexOf('remove pack') + 3;
    const { text, change } = edit(broken, at + 6, at + 6, 'x');
    const after = reparse(before, text, change);
    expect(after.sound).toBe(false);
    const path = new Set(pathAt(before, at + 6).map(({ statement }) => statement));
    const kept = new Set(all(after));
    expect(all(before).filter((statement) => !kept.has(statement) && !path.has(statement))).toEqual([]);
  });

  test('is the same object when braces cease to pair', () => {
    const at = sample.indexOf('    lay cover on graft');
    const { text, change } = edit(sample, at, at, '    repeat {\n');
    const broken = reparse(tree, text, change);
    expect(broken.sound).toBe(false);
    const kept = all(broken).filter((statement) => all(tree).includes(statement)).length;
    expect(kept).toBeGreaterThan(all(tree).length - 15);
  });
});

test('a change that does not fit the text is answered with the tree of the text', () => {
  const text = 'kind a\nkind b\n';
  for (const change of [
    { start: 5, oldEnd: 3, newEnd: 5 },
    { start: -1, oldEnd: 3, newEnd: 5 },
    { start: 0, oldEnd: 400, newEnd: 5 },
    { start: 0, oldEnd: 0, newEnd: 50 },
  ]) {
    expect(plain(reparse(parse('kind a'), text, change))).toBe(plain(parse(text)));
  }
});
