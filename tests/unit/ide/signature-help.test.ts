import { describe, expect, test } from 'vitest';
import { signatureAt, signaturesAt } from '../../support/structure.ts';
import { atTop, inVisit } from './house.ts';

describe('the slot that comes next', () => {
  test.each([
    ['fill $0', '* fill «(hole)» with (bone graft) on (optional packer) in (optional count)'],
    ['fill g$0', '* fill «(hole)» with (bone graft) on (optional packer) in (optional count)'],
    ['fill gap with $0', '* fill (hole) «with (bone graft)» on (optional packer) in (optional count)'],
    ['fill gap with graft in $0', '* fill (hole) with (bone graft) on (optional packer) «in (optional count)»'],
    ['fill gap with graft in 3 $0', '* fill (hole) with (bone graft) on (optional packer) «in (optional count)»'],
    ['inject saline $0', '* inject (liquid) «(volume)» at (place)'],
    ['inject saline 1.5 $0', '* inject (liquid) «(volume)» at (place)'],
    ['inject saline 1.5 mL at $0', '* inject (liquid) (volume) «at (place)»'],
    ['fill gap through $0', '* fill (hole) with (bone graft) on (optional packer) in (optional count)'],
  ])('%s', (line, told) => {
    expect(signaturesAt(inVisit(line))).toEqual([told]);
  });

  test('in the middle of a line that is whole', () => {
    expect(signaturesAt(inVisit('fill gap with gr$0aft in 3'))).toEqual([
      '* fill (hole) «with (bone graft)» on (optional packer) in (optional count)',
    ]);
  });

  test('of a procedure, and inside of one', () => {
    expect(signaturesAt(inVisit('clean_and_fill gap with $0'))).toEqual([
      '* clean_and_fill (hole) «with (bone graft)»'.replaceAll('_', ' '),
    ]);
    expect(signaturesAt(atTop('procedure twice (hole h) {\n  clean $0\n}'))).toEqual(['* clean «(hole)»']);
  });
});

describe('of a verb that means several actions', () => {
  const press = (line: string) =>
    signaturesAt(`
kind pad is instrument
kind wound is place
kind lid is material
action press (wound w) with (pad p) { takes 1 min }
action press (lid l) on (wound w) { takes 1 min }
protocol p "P" {
  given { patient : patient, cut : wound }
  team { surgeon }
  materials { cover : lid }
  instruments { pad }
  visit one "One" {
    ${line}
  }
}
`);
  test('the one that the thing fits is meant', () => {
    expect(press('press $0')).toEqual(['* press «(wound)» with (pad)', 'press «(lid)» on (wound)']);
    expect(press('press cover $0')).toEqual(['press «(wound)» with (pad)', '* press «(lid)» on (wound)']);
  });

  test('the one that has the preposition is meant', () => {
    expect(press('press on $0')).toEqual(['press (wound) with (pad)', '* press (lid) «on (wound)»']);
  });
});

describe('nothing is told', () => {
  test.each([
    'fi$0ll gap',
    'note "fill $0"',
    'fill gap with graft because "x" $0',
    'fill gap with graft by $0',
    'nonsense $0',
    'wait $0',
    '// fill $0',
  ])('%s', (line) => {
    expect(signaturesAt(inVisit(line))).toEqual([]);
  });

  test('outside of steps', () => {
    expect(signaturesAt(atTop('action fill $0'))).toEqual([]);
  });
});

test('what the action needs, makes and takes is told, and what is asked of the slot', () => {
  const { action, slot } = signatureAt(inVisit('fill gap with $0'));
  expect(action).toContain('- needs bone graft wetted for soak of bone graft');
  expect(action).toContain('- makes bone graft packed, hole filled');
  expect(action).toContain('- takes 5..10 min');
  expect(slot).toBe(
    'bone graft\n\nTakes up the first liquid only\\.\n\n- needs bone graft wetted for soak of bone graft'.replace(
      '\\.',
      '.',
    ),
  );
});
