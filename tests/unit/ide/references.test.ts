import { expect, test } from 'vitest';
import { referencesAt } from '../../support/names.ts';
import { atTop, inVisit } from './house.ts';

const aCase = `//- cases/one.curette
use ../main

case one of filling {
  gap { }
  wall lost
}
`;

test('a thing is named in its protocol, and in the cases of it in any file', () => {
  expect(referencesAt(`${inVisit('clean ga$0p\nwet graft with saline\nfill gap with graft')}${aCase}`)).toEqual([
    'main.curette:9 gap',
    'main.curette:19 gap',
    'main.curette:21 gap',
    'cases/one.curette:4 gap',
  ]);
});

test('without its declaration where that is not asked for', () => {
  expect(referencesAt(inVisit('clean ga$0p'), false)).toEqual(['main.curette:19 gap']);
});

test('a finding and its values are found in decisions and in cases', () => {
  const text = `${inVisit('decide wall {\n  option lo$0st { }\n  otherwise { }\n}')}${aCase}`;
  expect(referencesAt(text)).toEqual(['house.curette:23 lost', 'main.curette:20 lost', 'cases/one.curette:5 lost']);
  expect(referencesAt(text.replace('$0', '').replace('decide wall', 'decide wa$0ll'))).toEqual([
    'house.curette:23 wall',
    'main.curette:19 wall',
    'cases/one.curette:5 wall',
  ]);
});

test('a state is the same in a kind and in what is that kind; a property, too', () => {
  const below =
    'kind chips is bone_graft {\n  states packed -> resorbed\n}\naction dry (chips c) {\n  needs c we$0tted for c.soak\n}';
  expect(referencesAt(atTop(below))).toEqual([
    'house.curette:6 wetted',
    'house.curette:7 wetted',
    'house.curette:33 wetted',
    'house.curette:41 wetted',
    'main.curette:7 wetted',
  ]);
  expect(referencesAt(atTop(below.replace('$0', '').replace('c.soak', 'c.so$0ak')))).toEqual([
    'house.curette:5 soak',
    'house.curette:7 soak',
    'house.curette:19 soak',
    'house.curette:41 soak',
    'main.curette:7 soak',
  ]);
});

test('of a verb, the lines that mean this one of its actions', () => {
  const overload = `${inVisit('we$0t graft with saline')}//- other.curette\nuse house\naction wet (packer p) with (liquid l) { takes 1 min }\n`;
  expect(referencesAt(overload)).toEqual(['house.curette:31 wet', 'main.curette:19 wet']);
});

test('a slot is named in its block alone', () => {
  expect(referencesAt(atTop('action rinse (bone_graft g) {\n  needs $0g dry\n  makes g wetted\n}'))).toEqual([
    'main.curette:3 g',
    'main.curette:4 g',
    'main.curette:5 g',
  ]);
});

test('what is listed by its own name is the entry or kind itself', () => {
  expect(referencesAt(inVisit('fill gap with graft on pac$0ker'))).toEqual([
    'house.curette:12 packer',
    'house.curette:40 packer',
    'main.curette:16 packer',
    'main.curette:19 packer',
  ]);
});

test('a file is named by every line that brings it in', () => {
  expect(
    referencesAt(`${inVisit('clean gap').replace('use house', 'use ho$0use')}//- sub/b.curette\nuse ../house\n`),
  ).toEqual(['main.curette:1 house', 'sub/b.curette:1 ../house']);
});

test('a name of the library is found in the workspace and in the library', () => {
  const found = referencesAt(
    'use std/grafting\n\nallo$0graft own "Own"\n//- b.curette\nuse std/grafting\nkind chips is allograft\n',
  );
  expect(found).toContain('main.curette:3 allograft');
  expect(found).toContain('b.curette:2 allograft');
  expect(found.filter((at) => at.startsWith('library:std/grafting')).length).toBeGreaterThan(0);
});

test('what two files call alike is two things, and a word in a text or a remark is none', () => {
  const text = `//- a.curette
kind clip is material
// clip "clip"
material own "A clip" is cl$0ip
//- b.curette
kind clip is material
material other is clip
`;
  expect(referencesAt(text)).toEqual(['a.curette:1 clip', 'a.curette:3 clip']);
});
