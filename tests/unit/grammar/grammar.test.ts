import { parse, words } from '@curette/grammar';
import { expect, test } from 'vitest';
import { forms } from '../../../grammar/src/forms.ts';
import { LineParser } from '../../../grammar/src/parser/line-parser.ts';
import { keywords } from '../../../grammar/src/tokens.ts';
import { referenceBlocks, sample } from './samples.ts';
import { read } from './show.ts';

test('the grammar is sound: no line can be read in two ways', () => {
  expect(() => new LineParser(false)).not.toThrow();
});

test('the word list names every word that begins a line, and no other', () => {
  for (const [container, known] of Object.entries(forms)) {
    const listed = words.lines[container as keyof typeof words.lines].map(({ word }) => word);
    const first = listed.map((word) => (known.has(word) ? word : (word.split(' ')[0] ?? '')));
    expect([...new Set(first)].sort(), container).toEqual([...known.keys()].sort());
  }
});

test('the word list says which lines own a block', () => {
  for (const [container, known] of Object.entries(forms)) {
    for (const { word, block } of words.lines[container as keyof typeof words.lines]) {
      const form = known.get(word) ?? known.get(word.split(' ')[0] ?? '');
      if (block) expect(form?.body, `${container}: ${word}`).toBeDefined();
    }
  }
});

test('reserved words are no names, all others are', () => {
  for (const word of words.reserved) {
    expect(keywords.has(word), word).toBe(true);
    expect(read(`kind ${word}`), word).toMatch(/^kind( parent=\S+)? !/);
  }
  for (const word of [...keywords.keys()].filter((word) => !words.reserved.some((reserved) => reserved === word))) {
    expect(read(`kind ${word}`), word).toBe(`kind name=${word}`);
  }
});

test('every code block of the language reference is read without a flaw', () => {
  const blocks = referenceBlocks();
  expect(blocks.length).toBeGreaterThan(6);
  for (const block of blocks) {
    const text = block.startsWith('visit') ? `protocol p {\n${block}}\n` : block;
    expect(
      read(text)
        .split('\n')
        .filter((line) => line.includes(' !')),
    ).toEqual([]);
    expect(parse(text).flaws).toEqual([]);
  }
});

test('the sample, which has every sort of line, is read without a flaw', () => {
  const shown = read(sample);
  expect(shown.split('\n').filter((line) => line.includes(' !'))).toEqual([]);
  expect(parse(sample).sound).toBe(true);
});
