import { expect, test } from 'vitest';
import { symbolsFor } from '../../support/names.ts';
import { inVisit } from './house.ts';

const text = `${inVisit('clean gap')}//- cases/one.curette
use ../main
case one of filling { gap { } }
`;

test('whatever a file declares is found, with where it is', () => {
  const all = symbolsFor(text, '');
  for (const symbol of [
    'filling (protocol) main.curette',
    'first (visit) filling, main.curette',
    'one (case) cases/one.curette',
    'bone_graft (kind) house.curette',
    'bank_graft (entry) house.curette',
    'clean_and_fill (action) house.curette',
    'handling_sheet (source) house.curette',
    'wall (finding) house.curette',
    'check_in (pause) house.curette',
    'clean_first (rule) house.curette',
  ])
    expect(all).toContain(symbol);
});

test('by letters in their order, those that begin words first', () => {
  const names = (query: string) => symbolsFor(text, query).map((symbol) => symbol.split(' ')[0]);
  expect(names('caf')[0]).toBe('clean_and_fill');
  expect(names('clean')).toEqual(['clean', 'clean_first', 'clean_and_fill']);
  expect(names('bg')).toEqual(expect.arrayContaining(['bone_graft', 'bank_graft']));
  expect(names('fil')[0]).toBe('fill');
  expect(names('xyz')).toEqual([]);
});

test('by what it is called on a page', () => {
  expect(symbolsFor(text, 'First visit')).toEqual(['first (visit) filling, main.curette']);
});

test('the workspace before the library', () => {
  const found = symbolsFor(`kind own_membrane is material\n`, 'membrane', true);
  expect(found[0]).toMatch(/^membrane|^own_membrane/);
  expect(found.some((symbol) => symbol.includes('library:std/'))).toBe(true);
  const same = symbolsFor('//- main.curette\nkind suture is material\n', 'suture', true);
  expect(same[0]).toBe('suture (kind) main.curette');
});
