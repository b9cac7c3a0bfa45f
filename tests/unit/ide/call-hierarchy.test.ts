import { expect, test } from 'vitest';
import { callsAt } from '../../support/names.ts';
import { inVisit } from './house.ts';

const next = `//- b.curette
use main
protocol next "Next" {
  follows filling
}
case one of filling { gap { } }
`;

test('a procedure: who has it as a step, and its own steps', () => {
  expect(
    callsAt(inVisit('wet graft with saline\nclean_an$0d_fill gap with graft\nclean_and_fill gap with graft')),
  ).toEqual([
    'procedure clean_and_fill, house.curette',
    'from: protocol filling, main.curette: main.curette:20 clean_and_fill, main.curette:21 clean_and_fill',
    'to: action clean, house.curette: house.curette:49 clean',
    'to: action fill, house.curette: house.curette:50 fill',
  ]);
});

test('an action is used by protocols and procedures in every file, and uses nothing', () => {
  expect(callsAt(inVisit('cl$0ean gap'))).toEqual([
    'action clean, house.curette',
    'from: procedure clean_and_fill, house.curette: house.curette:49 clean',
    'from: protocol filling, main.curette: main.curette:19 clean',
  ]);
});

test('a protocol: which follow it, and what it does', () => {
  expect(callsAt(`${inVisit('clean gap').replace('protocol fil', 'protocol fi$0l')}${next}`)).toEqual([
    'protocol filling, main.curette',
    'from: protocol next, b.curette: b.curette:3 filling',
    'to: action clean, house.curette: main.curette:19 clean',
  ]);
  expect(callsAt(`${inVisit('clean gap')}${next.replace('protocol ne', 'protocol ne$0')}`)).toEqual([
    'protocol next, b.curette',
    'to: protocol filling, main.curette: b.curette:3 filling',
  ]);
});

test('what is carried out by nobody has none', () => {
  expect(callsAt(inVisit('clean ga$0p'))).toEqual([]);
});
