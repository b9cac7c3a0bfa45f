import { expect, test } from 'vitest';
import { hoverAt } from '../../support/editor.ts';

test('of an action, slots are said by what they take, and a state that is called like one stays a state', () => {
  const told = hoverAt(`kind tissue "tissue" is place { states plain -> volume -> numb }
kind drug "drug" is material
action in$0ject (drug d) (volume volume) at (tissue numb) {
  needs   numb plain
  makes   numb volume
  uses up d volume
}`);
  expect(told).toContain('needs tissue plain');
  expect(told).toContain('makes tissue volume');
  expect(told).toContain('uses up drug volume');
});

test('nor is a state called like the slot of another thing taken for it', () => {
  const told = hoverAt(`kind tissue "tissue" is place { states plain -> g }
kind graft "bone graft" is material
action ta$0ke (graft g) from (tissue t) {
  needs t plain
  makes t g
}`);
  expect(told).toContain('makes tissue g');
});
