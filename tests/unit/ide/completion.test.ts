import { describe, expect, test } from 'vitest';
import { completionsAt, namesAt } from '../../support/editor.ts';
import { atTop, inVisit } from './house.ts';

describe('at the start of a step', () => {
  test('verbs are offered for which the protocol has something, those first whose thing is ready', () => {
    const names = namesAt(inVisit('$0'));
    expect(names).toContain('wet');
    expect(names).toContain('clean');
    expect(names.indexOf('wet')).toBeLessThan(names.indexOf('decide'));
    expect(names).toContain('clean_and_fill');
  });

  test('a verb whose thing is not listed is left out', () => {
    const names = namesAt(inVisit('$0').replace('    graft  : bank_graft 0.5 mL\n', ''));
    expect(names).not.toContain('wet');
    expect(names).toContain('clean');
  });

  test('words that begin a line of a visit are offered, those of other blocks are not', () => {
    const names = namesAt(inVisit('$0'));
    expect(names).toEqual(expect.arrayContaining(['pause', 'wait', 'decide', 'together', 'stop']));
    expect(names).not.toContain('option');
    expect(names).not.toContain('version');
  });
});

describe('after a verb or a preposition', () => {
  test('a thing that is not in the state the step needs comes last, with the reason', () => {
    expect(completionsAt(inVisit('clean gap\nfill gap with $0')).offered).toEqual(['graft: dry here: wet it first']);
    expect(completionsAt(inVisit('wet graft with saline\nclean gap\nfill gap with $0')).offered).toEqual([
      'graft: Graft of the bank',
    ]);
  });

  test('a thing in different states on different paths names them all', () => {
    const lines = `
decide wall {
  option intact { wet graft with saline }
  option lost { }
}
clean gap
fill gap with $0`;
    expect(completionsAt(inVisit(lines)).offered).toEqual(['graft: wetted or dry here: wet it first']);
  });

  test('the state is that of the branch the line is in', () => {
    const lines = `
decide wall {
  option intact {
    wet graft with saline
    clean gap
    fill gap with $0
  }
  option lost { }
}`;
    expect(completionsAt(inVisit(lines)).offered).toEqual(['graft: Graft of the bank']);
  });

  test('things of another kind are not offered', () => {
    expect(namesAt(inVisit('wet $0'))).toEqual(['graft']);
    expect(namesAt(inVisit('wet graft with $0'))).toEqual(['saline']);
  });

  test('places of the catalogue follow those of the protocol', () => {
    expect(namesAt(inVisit('clean $0'))).toEqual(['gap', 'front_hole']);
  });

  test('a half-typed name is the word that is replaced', () => {
    expect(completionsAt(inVisit('wet gr$0'))).toEqual({ typed: 'gr', offered: ['graft: Graft of the bank'] });
  });

  test('a line in the middle of others is told from them', () => {
    expect(namesAt(inVisit('clean gap\nwet $0\nwait 10 min'))).toEqual(['graft']);
  });
});

describe('after a thing', () => {
  test('prepositions come that still have something to introduce, then what a line says of itself', () => {
    expect(namesAt(inVisit('fill gap $0'))).toEqual(['with', 'on', 'in', 'takes', 'by', 'because', 'source']);
    expect(namesAt(inVisit('fill gap with graft $0'))).toEqual(['on', 'in', 'takes', 'by', 'because', 'source']);
  });

  test('on a line that goes on below, too', () => {
    expect(namesAt(inVisit('fill gap\n  with $0'))).toEqual(['graft']);
  });
});

describe('after a number', () => {
  test('units of the slot come, the most usual first', () => {
    expect(namesAt(inVisit('inject saline 2 $0')).slice(0, 2)).toEqual(['mL', 'uL']);
    expect(namesAt(inVisit('fill gap with graft in 4 $0'))).toContain('increments');
    expect(namesAt(inVisit('fill gap with graft in 4 $0'))).not.toContain('mL');
  });

  test('a half-typed unit is replaced with all its signs', () => {
    expect(completionsAt(inVisit('inject saline 2 m$0')).typed).toBe('m');
  });

  test('a wait in a visit takes hours and minutes, a wait between visits months', () => {
    expect(namesAt(inVisit('wait 10 $0'))).toEqual(expect.arrayContaining(['min', 'h']));
    expect(namesAt(inVisit('wait 10 $0'))).not.toContain('mo');
    expect(namesAt(atTop('protocol p "P" {\n  wait 4 $0\n}'))[0]).toBe('mo');
  });

  test('how long a step takes is a time', () => {
    expect(namesAt(inVisit('clean gap takes 5..10 $0'))[0]).toBe('min');
  });

  test('a property takes the units of what it measures', () => {
    const names = namesAt(atTop('bone_graft own "Own" {\n  particle 200..850 $0\n}'));
    expect(names).toEqual(expect.arrayContaining(['mm', 'um']));
    expect(names).not.toContain('min');
  });
});

describe('closed lists', () => {
  test('after "by" the team is offered', () => {
    expect(namesAt(inVisit('clean gap by $0'))).toEqual(['surgeon', 'assistant']);
  });

  test('"by" inside a size asks for nobody', () => {
    expect(namesAt(inVisit('clean gap by 3 $0'))).not.toContain('surgeon');
  });

  test('after "source" what is declared, and common practice', () => {
    expect(namesAt(inVisit('clean gap source $0'))).toEqual(
      expect.arrayContaining(['handling_sheet', 'common_practice']),
    );
  });

  test('a decision asks for a finding, an option for a value no other option names', () => {
    expect(namesAt(inVisit('decide $0'))).toContain('wall');
    expect(namesAt(inVisit('decide wall {\n  option intact { }\n  option $0\n}'))).toEqual(['lost']);
    expect(namesAt(inVisit('decide wall {\n  $0\n}'))).toEqual(['option', 'otherwise', 'note']);
  });

  test('a pause by its name', () => {
    expect(namesAt(inVisit('pause $0'))).toContain('check_in');
  });

  test('what to wait for: a thing, then the state, that it is in first', () => {
    expect(namesAt(inVisit('wait until graft is $0'))[0]).toBe('dry');
    expect(namesAt(inVisit('wet graft with saline\nwait until graft is $0'))[0]).toBe('wetted');
  });

  test('properties that are not given yet', () => {
    const names = namesAt(atTop('bone_graft own "Own" {\n  soak 10..60 min\n  $0\n}'));
    expect(names).toContain('particle');
    expect(names).not.toContain('soak');
  });

  test('a file to use: from the library and beside this one, none that is in use', () => {
    const names = namesAt('//- a.curette\nuse std/oral\nuse $0\n//- b.curette\nnote "b"\n');
    expect(names).toEqual(expect.arrayContaining(['std/grafting', 'b']));
    expect(names).not.toContain('std/oral');
    expect(names).not.toContain('a');
  });

  test('what may begin an entry is under the kind its line begins with', () => {
    const names = namesAt('use std/grafting\n\nallograft own "Own" is $0\n');
    expect(names).toContain('allograft');
    expect(names).not.toContain('membrane');
  });

  test('conditions ask what the patient may have', () => {
    expect(
      namesAt(atTop('protocol p "P" {\n  given { patient : patient }\n  exclude when patient $0\n}')).slice(0, 3),
    ).toEqual(['has', 'takes', 'allergic to']);
    expect(
      namesAt(atTop('protocol p "P" {\n  given { patient : patient }\n  exclude when patient has $0\n}')),
    ).toContain('acute_infection');
  });
});

describe('in the other blocks', () => {
  test('a protocol is asked for what it does not say yet', () => {
    const names = namesAt(atTop('protocol p "P" {\n  version 1.0.0\n  $0\n}'));
    expect(names).toContain('status');
    expect(names).toContain('visit');
    expect(names).not.toContain('version');
  });

  test('an action speaks of its slots, and of the states they may be in', () => {
    const action = 'action rinse (bone_graft g) with (liquid l) {\n  needs ';
    expect(namesAt(atTop(`${action}$0\n}`)).slice(0, 2)).toEqual(['g', 'l']);
    expect(namesAt(atTop(`${action}g $0\n}`))).toEqual(expect.arrayContaining(['dry', 'wetted', 'packed']));
  });

  test('a rule has its three severities', () => {
    expect(namesAt(atTop('rule r "R" {\n  severity $0\n}'))).toEqual(['error', 'warning', 'advice']);
  });

  test('materials take materials only, instruments instruments', () => {
    expect(namesAt(atTop('protocol p "P" {\n  materials { m : $0 }\n}'))).toContain('bank_graft');
    expect(namesAt(atTop('protocol p "P" {\n  materials { m : $0 }\n}'))).not.toContain('packer');
    expect(namesAt(atTop('protocol p "P" {\n  instruments { $0 }\n}'))).toContain('packer');
  });
});

describe('where nothing is to be completed', () => {
  test.each([
    ['in a quoted text', 'note "wet $0'],
    ['in a remark', '// wet $0'],
    ['after a number that begins', 'clean gap takes $0'],
    ['in a reason', 'clean gap because "It $0'],
  ])('%s', (_, line) => {
    expect(namesAt(inVisit(line))).toEqual([]);
  });
});
