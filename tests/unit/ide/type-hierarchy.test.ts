import { expect, test } from 'vitest';
import { implementationsAt, typeDefinitionsAt, typesAt } from '../../support/names.ts';
import { atTop, inVisit } from './house.ts';

const below = 'kind chips is bone_graft\nbone_graft own "Own" { soak 10 min }\nchips fine "Fine"';

test('a kind: what it is, and the kinds and entries that are it, in every file', () => {
  expect(typesAt(atTop(`${below}\naction rinse (bone_$0graft g) { takes 1 min }`))).toEqual([
    'kind bone_graft',
    'is: material',
    'below: bank_graft',
    'below: chips',
    'below: own',
  ]);
  expect(typesAt(atTop(below.replace('fine', 'fi$0ne')))).toEqual(['entry fine', 'is: chips']);
});

test('whatever stands where a kind is asked for', () => {
  expect(implementationsAt(atTop(`${below}\naction rinse (bone_$0graft g) { takes 1 min }`))).toEqual([
    'house.curette:17 bank_graft',
    'main.curette:3 chips',
    'main.curette:4 own',
    'main.curette:5 fine',
  ]);
  expect(implementationsAt(inVisit('clean ga$0p'))).toEqual([]);
});

test('what sort of thing a name stands for', () => {
  expect(typeDefinitionsAt(inVisit('wet gra$0ft with saline'))).toEqual(['house.curette:17 bank_graft']);
  expect(typeDefinitionsAt(inVisit('clean ga$0p'))).toEqual(['house.curette:13 hole']);
  expect(typeDefinitionsAt(atTop('bone_graft ow$0n "Own" { soak 10 min }'))).toEqual(['house.curette:3 bone_graft']);
  expect(typeDefinitionsAt(atTop('action rinse (bone_graft $0g) { takes 1 min }'))).toEqual([
    'house.curette:3 bone_graft',
  ]);
  expect(typeDefinitionsAt(inVisit('wa$0it 10 min'))).toEqual([]);
});
