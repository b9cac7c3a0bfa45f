import { parse } from '@curette/grammar';
import { formatBrace, formatDocument, formatNewLine, formatRange, type LayoutEdit, layOut } from '@curette/server';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { shippedTexts } from '../../support/layouts.ts';

function applied(text: string, edits: readonly LayoutEdit[]): string {
  let result = '';
  let at = 0;
  for (const { start, end, text: by } of edits) {
    expect(start).toBeGreaterThanOrEqual(at);
    result += text.slice(at, start) + by;
    at = end;
  }
  return result + text.slice(at);
}

const crooked = `kind a "A"{note "x"}
protocol p "P" {
version 1.0.0
    status draft
  visit v "V" {
      pause   sign_in
   inject a 2 ml at b  // slowly
  lay   c on d
  }
}
`;

describe('a document', () => {
  test('is laid out by edits that leave every word in its place', () => {
    const edits = formatDocument(crooked);
    expect(applied(crooked, edits)).toBe(`kind a "A" { note "x" }
protocol p "P" {
  version 1.0.0
  status  draft
  visit v "V" {
    pause sign_in
    inject a 2 mL at b // slowly
    lay c on d
  }
}
`);
    const touched = edits.map(({ start, end }) => crooked.slice(start, end)).filter((old) => /\S/.test(old));
    expect(touched).toEqual(['l']);
  });

  test('that is laid out already is not touched', () => {
    expect(formatDocument(applied(crooked, formatDocument(crooked)))).toEqual([]);
  });

  test('with something that can not be read is not touched', () => {
    expect(formatDocument(`${crooked}kind b "B" == { }\n`)).toEqual([]);
  });

  test('comes out the same, however large the difference', () => {
    const lines = Array.from({ length: 3000 }, (_, at) => `inject a${at} ${at} ml at b`);
    const text = `protocol p {visit v {\n${lines.join('\n')}\n}}`;
    expect(applied(text, formatDocument(text))).toBe(layOut(text).text);
  });

  test('of the library or the examples, its white space shaken', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...shippedTexts()),
        fc.infiniteStream(fc.constantFrom(' ', '   ', '\n')),
        ({ text }, spaces) => {
          const shaken = text.replace(/\n *(?=[a-z}])/g, (end) => end + String(spaces.next().value));
          const { text: whole } = layOut(shaken);
          if (whole !== undefined) expect(applied(shaken, formatDocument(shaken))).toBe(whole);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('a part', () => {
  const part = (from: string, to: string) => {
    const start = crooked.indexOf(from);
    return applied(crooked, formatRange(crooked, parse(crooked), start, crooked.indexOf(to, start) + to.length));
  };

  test('is the statements that the range touches, each whole', () => {
    expect(part('inject', 'a 2')).toBe(crooked.replace('   inject a 2 ml at b  //', '    inject a 2 mL at b //'));
    expect(part('status', 'draft')).toBe(crooked.replace('    status draft', '  status  draft'));
  });

  test('that reaches over the edge of a block is the whole block', () => {
    const text = part('visit', 'sign_in');
    expect(text).toContain(
      '  visit v "V" {\n    pause sign_in\n    inject a 2 mL at b // slowly\n    lay c on d\n  }\n',
    );
    expect(text).toContain('kind a "A"{note "x"}\n');
    expect(text).toContain('\nversion 1.0.0\n');
  });

  test('is laid out although something elsewhere can not be read', () => {
    const text = `kind b == "B"\n${crooked}`;
    const start = text.indexOf('lay   c');
    expect(applied(text, formatRange(text, parse(text), start, start + 1))).toBe(
      text.replace('  lay   c on', '    lay c on'),
    );
  });

  test('in which something can not be read is not touched, and neither are blank lines', () => {
    const text = crooked.replace('lay   c', 'lay   == c');
    expect(formatRange(text, parse(text), text.indexOf('pause'), text.indexOf('pause') + 3)).toEqual([]);
    const [above, within] = ['\n\n\nkind   a\n', 'protocol   p {\n\n\n}\n'];
    expect(formatRange(above, parse(above), 0, 1)).toEqual([]);
    expect(formatRange(within, parse(within), 15, 16)).toEqual([]);
  });
});

/** The text with the cursor at `$0`, after the sign before it was typed. */
function typed(marked: string, format: typeof formatBrace): string {
  const at = marked.indexOf('$0');
  const text = marked.replace('$0', '');
  return applied(text, format(text, parse(text), at));
}

describe('a new line', () => {
  test.each([
    ['in a block', 'protocol p {\n$0', 'protocol p {\n  '],
    [
      'in a block within',
      'protocol p {\n  visit v {\n    lay a on b\n$0\n  }\n}',
      'protocol p {\n  visit v {\n    lay a on b\n    \n  }\n}',
    ],
    ['behind a block', 'protocol p {\n  visit v {\n  }\n      $0\n}', 'protocol p {\n  visit v {\n  }\n  \n}'],
    ['outside of all', 'kind a {\n}\n  $0', 'kind a {\n}\n'],
    ['with words behind the cursor', 'protocol p {\n$0visit v', 'protocol p {\n  visit v'],
    [
      'behind a head that goes on',
      'protocol p {\n  visit v {\n    extract a with b,\n$0',
      'protocol p {\n  visit v {\n    extract a with b,\n        ',
    ],
    [
      'behind a comma that ends a statement',
      'protocol p {\n  team {\n    surgeon,\n  $0',
      'protocol p {\n  team {\n    surgeon,\n    ',
    ],
    [
      'behind a head of two lines',
      'action a "A" (b c)\n    with (d e) {\n    $0',
      'action a "A" (b c)\n    with (d e) {\n  ',
    ],
    ['in a file with a fault above', 'knid x ==\nprotocol p {\n$0', 'knid x ==\nprotocol p {\n  '],
    ['where it is right already', 'protocol p {\n  $0', 'protocol p {\n  '],
  ])('%s', (_, marked, expected) => {
    expect(typed(marked, formatNewLine)).toBe(expected);
  });
});

describe('a closing brace', () => {
  test.each([
    [
      'below the head of its block',
      'protocol p {\n  visit v {\n    lay a on b\n    }$0\n}',
      'protocol p {\n  visit v {\n    lay a on b\n  }\n}',
    ],
    ['behind words stays', 'protocol p {\n  visit v { lay a on b }$0\n}', 'protocol p {\n  visit v { lay a on b }\n}'],
    ['that closes nothing stays', 'kind a { }\n  }$0', 'kind a { }\n  }'],
    [
      'below a head of two lines',
      'action a "A" (b c)\n    with (d e) {\n  takes 5 min\n    }$0',
      'action a "A" (b c)\n    with (d e) {\n  takes 5 min\n}',
    ],
  ])('%s', (_, marked, expected) => {
    expect(typed(marked, formatBrace)).toBe(expected);
  });
});
