import { tokenize } from '@curette/grammar';
import { expect, test } from 'vitest';
import { sample } from './samples.ts';
import { at } from './show.ts';

test('each word and sign is there in order, with its sort', () => {
  const text = '/// Doc\nlay größe on graft, 1.5 mL "x" § // why\n  wait -5..2 min at least';
  expect(tokenize(text).map((token) => `${token.kind}: ${at(text, token)}`)).toEqual([
    'doc: /// Doc',
    'name: lay',
    'name: größe',
    'preposition: on',
    'name: graft',
    'sign: ,',
    'number: 1.5',
    'name: mL',
    'text: "x"',
    'strange: §',
    'comment: // why',
    'name: wait',
    'number: -5',
    'sign: ..',
    'number: 2',
    'name: min',
    'keyword: at least',
  ]);
});

test('nothing but blanks lies between', () => {
  let end = 0;
  for (const token of tokenize(sample)) {
    expect(sample.slice(end, token.start).trim()).toBe('');
    expect(token.end).toBeGreaterThan(token.start);
    end = token.end;
  }
  expect(sample.slice(end).trim()).toBe('');
});
