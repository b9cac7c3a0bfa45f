import { expect, test } from 'vitest';
import { movedFiles } from '../../support/names.ts';

const files = `//- policy.curette
use std/core
use parts/places
note "policy"
//- parts/places.curette
note "places"
//- protocols/a.curette
use ../policy // the house's own
use ../parts/places
use b
//- protocols/b.curette
use std/oral
use ../policy
`;

test('a file that gets another name: every line that brings it in', () => {
  expect(movedFiles(files, { from: 'policy.curette', to: 'house.curette' })).toBe(`//- protocols/a.curette
use ../house // the house's own
use ../parts/places
use b
//- protocols/b.curette
use std/oral
use ../house
`);
});

test('a file that moves takes its own lines with it', () => {
  expect(movedFiles(files, { from: 'policy.curette', to: 'parts/policy.curette' })).toBe(`//- policy.curette
use std/core
use places
note "policy"
//- protocols/a.curette
use ../parts/policy // the house's own
use ../parts/places
use b
//- protocols/b.curette
use std/oral
use ../parts/policy
`);
});

test('of a folder that moves, lines between its files stay as they are', () => {
  const moves = ['a', 'b'].map((name) => ({ from: `protocols/${name}.curette`, to: `old/2026/${name}.curette` }));
  expect(movedFiles(files, ...moves)).toBe(`//- protocols/a.curette
use ../../policy // the house's own
use ../../parts/places
use b
//- protocols/b.curette
use std/oral
use ../../policy
`);
});

test('where no line could lead, none is changed', () => {
  expect(movedFiles(files, { from: 'policy.curette', to: 'policy.txt' })).toBe('');
  expect(movedFiles(files, { from: 'policy.curette', to: 'folder2:policy.curette' })).toBe('');
  expect(movedFiles(files, { from: 'protocols/b.curette', to: 'protocols/my b.curette' })).not.toContain('my b');
});
