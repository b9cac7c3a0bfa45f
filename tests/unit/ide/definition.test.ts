import { expect, test } from 'vitest';
import { definitionsAt } from '../../support/editor.ts';
import { atTop, inVisit } from './house.ts';

test('a thing leads to where it is listed', () => {
  expect(definitionsAt(inVisit('wet gra$0ft with saline'))).toEqual(['main.curette:13 graft']);
});

test('a verb leads to the action that the step means', () => {
  expect(definitionsAt(inVisit('we$0t graft with saline'))).toEqual(['house.curette:31 wet']);
});

test('what is listed leads to the catalogue, also in another file', () => {
  expect(definitionsAt(inVisit('clean gap').replace('bank_graft 0.5', 'bank$0_graft 0.5'))).toEqual([
    'house.curette:17 bank_graft',
  ]);
});

test('a property, a state, a slot and a value of a finding are found', () => {
  expect(definitionsAt(atTop('bone_graft own "Own" {\n  so$0ak 10 min\n}'))).toEqual(['house.curette:5 soak']);
  expect(definitionsAt(inVisit('wait until graft is pa$0cked'))).toEqual(['house.curette:6 packed']);
  expect(definitionsAt(atTop('action rinse (bone_graft g) {\n  needs $0g dry\n}'))).toEqual(['main.curette:3 g']);
  expect(definitionsAt(inVisit('decide wall {\n  option lo$0st { }\n}'))).toEqual(['house.curette:23 lost']);
});

test('what a rule about totals gives a name to is found in its conditions', () => {
  const rule = (name: string) =>
    `rule most "Most" {\n  for each bone_graft g given in a visit\n  expect total ${name} <= 2 g\n}`;
  expect(definitionsAt(atTop(rule('$0g')))).toEqual(['main.curette:4 g']);
  expect(definitionsAt(atTop(rule('$0g.soak')))).toEqual(['main.curette:4 g']);
  expect(definitionsAt(atTop(rule('g.so$0ak')))).toEqual(['house.curette:5 soak']);
});

test('what a condition asks about is found at the kind it belongs to', () => {
  const [found] = definitionsAt(
    atTop('protocol p "P" {\n  given { patient : patient }\n  exclude when patient has dia$0betes\n}'),
  );
  expect(found).toMatch(/^library:std\/core\.curette:\d+ diabetes$/);
});

test('the shipped library is walked into', () => {
  const [found] = definitionsAt('use std/grafting\n\nallo$0graft own "Own"\n');
  expect(found).toMatch(/^library:std\/grafting\.curette:\d+ allograft$/);
});

test('a file in use leads to its beginning', () => {
  expect(definitionsAt('//- a.curette\nuse sub/$0b\n//- sub/b.curette\nnote "b"\n')).toEqual(['sub/b.curette:1']);
});

test('a name nobody knows leads nowhere', () => {
  expect(definitionsAt(inVisit('wet gra$0vel with saline'))).toEqual([]);
  expect(definitionsAt(inVisit('wa$0it 10 min'))).toEqual([]);
});
