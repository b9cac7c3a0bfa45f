import { expect, test } from 'vitest';
import { highlightsAt } from '../../support/names.ts';
import { atTop, inVisit } from './house.ts';

test('of a thing, where it is listed and where a step makes something else of it are changes', () => {
  expect(
    highlightsAt(
      inVisit('clean gap\nwet gra$0ft with saline\nfill gap with graft\nverify soak of graft within 1..2 min'),
    ),
  ).toEqual(['13 graft *', '20 graft *', '21 graft *', '22 graft']);
  expect(highlightsAt(inVisit('wet graft with sal$0ine'))).toEqual(['14 saline *', '19 saline']);
});

test('what a procedure does to it counts', () => {
  expect(highlightsAt(inVisit('wet graft with saline\nclean_and_fill ga$0p with graft'))).toEqual([
    '9 gap *',
    '20 gap *',
  ]);
});

test('of a state, where it comes about; of a property, where it gets its value', () => {
  expect(highlightsAt(atTop('action rinse (bone_graft g) {\n  needs g d$0ry\n  makes g wetted\n}'))).toEqual(['4 dry']);
  expect(highlightsAt(atTop('action rinse (bone_graft g) {\n  needs g dry\n  makes g wet$0ted\n}'))).toEqual([
    '5 wetted *',
  ]);
  expect(highlightsAt(atTop('bone_graft own "Own" { so$0ak 10 min }'))).toEqual(['3 soak *']);
});

test('a word that names nothing has none', () => {
  expect(highlightsAt(inVisit('wa$0it 10 min'))).toEqual([]);
  expect(highlightsAt(inVisit('clean gap because "ga$0p"'))).toEqual([]);
});
