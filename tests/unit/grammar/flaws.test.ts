import { parse, type SyntaxTree } from '@curette/grammar';
import { expect, test } from 'vitest';
import { at, read } from './show.ts';

/** Every flaw of a text with the words it lies on. */
function flaws(text: string): string[] {
  const tree = parse(text);
  const found = tree.flaws.map((flaw) => `${flaw.code}: ${at(text, flaw)}`);
  const walk = (body: SyntaxTree['body'] | undefined, from: number): void => {
    for (const [index, statement] of (body?.items ?? []).entries()) {
      const start = from + (body?.offsets[index] ?? 0);
      for (const flaw of statement.flaws) {
        found.push(`${flaw.code}: ${at(text, flaw, start)}${flaw.expected === undefined ? '' : ` → ${flaw.expected}`}`);
      }
      walk(statement.body, start);
    }
  };
  walk(tree.body, 0);
  return found;
}

const inVisit = (line: string): string => `protocol p {\n  visit v {\n    ${line}\n    lay cover on graft\n  }\n}\n`;
const inRule = (line: string): string => `rule r {\n  ${line}\n}\n`;

test.each([
  ['expect a == b', 'foreign_sign: == → "="', 'expect condition=(a = b)'],
  ['expect a === b', 'foreign_sign: === → "="', 'expect condition=(a = b)'],
  ['expect a != b', 'foreign_sign: != → "is not"', 'expect condition=(a is not b)'],
  ['expect a is b && c is d', 'foreign_sign: && → "and"', 'expect condition=((a is b) and (c is d))'],
  ['expect a is b || c is d', 'foreign_sign: || → "or"', 'expect condition=((a is b) or (c is d))'],
  ['expect !a is b', 'foreign_sign: ! → "not"', 'expect condition=(not (a is b))'],
  ['expect a ≥ 5 mm', 'foreign_sign: ≥ → ">="', 'expect condition=(a >= 5 mm)'],
  ['severity error;', 'foreign_sign: ; → a new line', 'severity level=error'],
  ['why “It works loose”', 'foreign_sign: “It works loose” → straight quotes "…"', 'why text="It works loose"'],
])('a sign from elsewhere is named and read as ours: %s', (line, flaw, shown) => {
  expect(flaws(inRule(line))).toEqual([flaw]);
  expect(read(line, 'rule').replace(/ !.*/, '')).toBe(shown);
});

test('signs of ranges and sizes that a word processor puts in are read', () => {
  expect(read('extract site takes 10–40 min', 'steps')).toMatch(/takes=10\.\.40 min !foreign_sign/);
  expect(read('trim cover to 15 mm × 20 mm', 'steps')).toMatch(/to\(15 mm by 20 mm\) !foreign_sign/);
  expect(read('states dry => wet → packed', 'kind')).toMatch(
    /chains=\[\[dry, wet, packed\]\] !foreign_sign.*!foreign_sign/,
  );
});

test('a hyphen in a time is a range, and a dash before a number is its sign', () => {
  expect(read('extract site takes 10-40 min', 'steps')).toMatch(/takes=10\.\.40 min !foreign_sign\["\.\."\]/);
  expect(read('wait 30 min - 2 h', 'steps')).toMatch(/duration=30 min\.\.2 h !foreign_sign\["\.\."\]/);
  expect(read('wait 30 min–2 h', 'steps')).toMatch(/duration=30 min\.\.2 h !foreign_sign\["\.\."\]/);
  for (const dash of ['–', '—', '−'])
    expect(read(`wait ${dash}5 min`, 'steps')).toMatch(/duration=-5 min !foreign_sign\["-"\]/);
  expect(read('wait -5 min', 'steps')).toBe('wait duration=-5 min');
  expect(read('expect a.size >= b.size - 5 mm', 'rule')).not.toContain('!');
});

test('a semicolon parts lines', () => {
  expect(read('lay a; lay b', 'steps')).toBe(
    'step verb=lay parts=(a) !foreign_sign[a new line]\nstep verb=lay parts=(b)',
  );
});

test('lines that a merge left behind are told, and both sides are read', () => {
  const text = 'protocol p {\n<<<<<<< HEAD\n  version 1.0.0\n=======\n  version 2.0.0\n>>>>>>> theirs\n}\n';
  expect(flaws(text)).toEqual(['merge_marker: <<<<<<< HEAD', 'merge_marker: =======', 'merge_marker: >>>>>>> theirs']);
  expect(read(text)).toContain('version version=1.0.0');
  expect(read(text)).toContain('version version=2.0.0');
});

test('a text without its closing quote ends with its line, and gives the brace back', () => {
  expect(flaws(inVisit('note "It works'))).toEqual(['unclosed_text: "It works → a closing quote']);
  expect(flaws('protocol p "T {\n  version 1.0.0\n}\n')).toEqual(['unclosed_text: "T → a closing quote']);
  expect(read('note "a \\"', 'steps')).toBe('note text="a \\"" !unclosed_text[a closing quote]');
});

test('characters that are nothing here are told once, and the rest of the line is read', () => {
  expect(flaws(inVisit('lay § ¤ cover on graft'))).toEqual([
    'unreadable: § → words, numbers, texts in quotes',
    'unreadable: ¤ → words, numbers, texts in quotes',
  ]);
  expect(read('lay § cover on graft', 'steps')).toMatch(/^step verb=lay parts=\(cover\) on\(graft\)/);
});

test('words that do not fit are one flaw over all of them', () => {
  expect(flaws(inVisit('lay cover on graft gently and slowly'))).toEqual([
    'unreadable: gently and slowly → a preposition such as "with" or "on", one of "takes", "by", "because", "source", or the end of the line',
  ]);
});

test('a first word that fits nowhere says what could stand there', () => {
  expect(flaws('rule r {\n  ( what )\n}\n')).toEqual([
    'unreadable: ( what ) → one of: whenever, expect, between, for each, for all, order, count, pause, every, severity, why, source, replaces, note',
  ]);
});

test('a misspelt first word is read as the word it is near', () => {
  expect(read('verison 1.0.0', 'protocol')).toBe('version version=1.0.0 !unreadable["version"]');
  expect(read('vist surgery "S" { lay a }', 'protocol')).toBe(
    'visit name=surgery label="S" !unreadable["visit"]\n  {steps}\n  step verb=lay parts=(a)',
  );
  expect(read('decde wall { option lost { } }', 'steps')).toMatch(
    /^decide findings=\[wall\] !unreadable\["decide"\]\n {2}\{options\}\n {2}option/,
  );
  expect(read('protocl p "T" {\n  version 1.0.0\n  visit v { lay a }\n}')).toMatch(
    /^protocol name=p label="T" !unreadable\["protocol"\]\n {2}\{protocol\}\n {2}version/,
  );
});

test('an entry whose kind resembles a word of the language stays an entry', () => {
  expect(read('kinds k "K" {\n  colour 5\n}')).toMatch(/^entry group=kinds name=k/);
  expect(read('base b "B" {\n  depth 5 mm\n}')).toMatch(/^entry group=base name=b/);
});

test('a block whose head can not be read is read by what it holds', () => {
  expect(read('¤ {\n  visit v { lay a }\n}')).toMatch(/\{protocol\}\n {2}visit name=v/);
  expect(read('?? x {\n  needs g dry\n}')).toMatch(/\{action\}\n {2}needs/);
  expect(read('123 { option lost { } }', 'steps')).toMatch(/\{options\}\n {2}option/);
});

test('a line in the wrong place is read as what it is, and told where it belongs', () => {
  expect(read('visit v { lay a }')).toBe(
    'visit name=v !misplaced[inside a protocol]\n  {steps}\n  step verb=lay parts=(a)',
  );
  expect(read('lay cover on graft', 'protocol')).toBe(
    'step verb=lay parts=(cover) on(graft) !misplaced[inside a visit]',
  );
  expect(read('kind k is material { x : text }', 'protocol')).toMatch(
    /^kind name=k parent=material !misplaced\[outside of every block\]\n {2}\{kind\}\n {2}property/,
  );
  expect(read('option lost { }', 'steps')).toMatch(/^option values=\[\[lost\]\] !misplaced\[inside a decision\]/);
});

test('a block on a line that has none is told, and read', () => {
  expect(read('lay a { lay b }', 'steps')).toBe(
    'step verb=lay parts=(a) !unreadable[the end of the line: no block belongs to it]\n  {steps}\n  step verb=lay parts=(b)',
  );
});

test('a block that is not closed ends where the indentation shows', () => {
  const text = 'protocol p {\n  visit v {\n    lay a\n\n  wait 4 mo\n}\nkind k { x : text }\n';
  expect(flaws(text)).toEqual(['unclosed_block: { → "}"']);
  expect(read(text)).toBe(
    'protocol name=p\n  {protocol}\n  visit name=v !unclosed_block["}"]\n    {steps}\n    step verb=lay parts=(a)\n  wait duration=4 mo\nkind name=k\n  {kind}\n  property name=x value=text',
  );
});

test('a head that lost its brace opens its block by indentation', () => {
  const text = 'protocol p {\n  visit v\n    lay a\n  }\n  wait 4 mo\n}\n';
  expect(flaws(text)).toEqual(['unreadable:  → "{" at the end of the line']);
  expect(read(text)).toContain(
    'visit name=v !unreadable["{" at the end of the line]\n    {steps}\n    step verb=lay parts=(a)\n  wait',
  );
});

test('a closing brace that closes nothing is told, and what follows stands where it did', () => {
  const text = 'protocol p {\n  visit v {\n    lay a\n    }\n  }\n  wait 4 mo\n}\n';
  expect(flaws(text)).toEqual(['stray_close: }']);
  expect(read(text)).toContain('\n  wait duration=4 mo');
});

test('a sound file is never read by its indentation', () => {
  const text = 'protocol p {\nvisit v {\nlay a\n        }\n    wait 4 mo\n  visit w {\n lay b\n}\n}\nkind k {\n}\n';
  expect(flaws(text)).toEqual([]);
});

test('blocks and brackets beyond any use are told once, and what follows is read', () => {
  const deep = `rule r {\n  expect ${'('.repeat(300)}a${')'.repeat(300)}\n  severity error\n}\n`;
  expect(flaws(deep).map((flaw) => flaw.slice(0, 9))).toEqual(['too_deep:']);
  expect(read(deep)).toContain('severity level=error');
  const blocks = `protocol p {\n  visit v {\n${'repeat { '.repeat(200)}lay a${' }'.repeat(200)}\n    lay b\n  }\n}\n`;
  expect(flaws(blocks).map((flaw) => flaw.slice(0, 9))).toEqual(['too_deep:']);
  expect(read(blocks)).toContain('step verb=lay parts=(b)');
});
