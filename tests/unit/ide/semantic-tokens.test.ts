import { semanticTokens } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { readFixture, workspaceOf } from '../../support/fixture.ts';
import { tokenLines, tokensIn } from '../../support/structure.ts';
import { house, inVisit } from './house.ts';

describe('words are coloured by what they stand for', () => {
  test('in a step: the action, what it is done to, how much, who', () => {
    expect(
      tokensIn(inVisit('$0inject saline 1.5 mL at gap takes 1 min by surgeon because "So" source handling_sheet$0')),
    ).toBe(
      'inject: action, saline: thing, mL: unit library, gap: thing, min: unit library, surgeon: role library, handling_sheet: source',
    );
  });

  test('in a check, a wait, a decision and its options, a pause', () => {
    const lines = `
$0wait until graft is wetted for 10 min
pause check_in
decide wall {
  option intact { }
  option lost { clean gap by surgeon }
}$0`;
    expect(tokensIn(inVisit(lines))).toBe(
      [
        'graft: thing, wetted: state, min: unit library',
        'check_in: pause',
        'wall: finding',
        'intact: value',
        'lost: value, clean: action, gap: thing, surgeon: role library',
      ].join('\n'),
    );
  });

  test('in a protocol: what it declares is told from what it names', () => {
    const text = inVisit(
      'wet graft with saline\nclean gap\nwait until graft is wetted for graft.soak\nfill gap with graft on packer',
    )
      .replace('  given {', '$0  given {')
      .replace('  visit first', '$0  visit first');
    expect(tokensIn(text)).toBe(
      [
        'patient: thing declaration, patient: kind library',
        'gap: thing declaration, hole: kind',
        'surgeon: role library, assistant: role library',
        'graft: thing declaration misused, bank_graft: entry, mL: unit library',
        'saline: thing declaration, water: entry, mL: unit library',
        'packer: thing declaration',
      ].join('\n'),
    );
  });

  test('in declarations', () => {
    const lines = tokensIn(
      house.replace('kind bone_graft', '$0kind bone_graft').replace('pause check_in', '$0pause check_in'),
    );
    expect(lines).toContain('bone_graft: kind declaration, material: kind library');
    expect(lines).toContain(
      'particle: property declaration, um: unit library, mm: unit library, common_practice: source library',
    );
    expect(lines).toContain('wetted: state, soak: property, dried_out: state declaration');
    expect(lines).toContain('bone_graft: kind, bank_graft: entry declaration');
    expect(lines).toContain('wall: finding declaration, intact: value declaration, lost: value declaration');
  });

  test('in an action and a rule: its slots', () => {
    const text = house.replace('action fill', '$0action fill').replace('action inject', '$0action inject');
    expect(tokensIn(text).split('\n').slice(0, 3)).toEqual([
      'fill: action declaration, hole: kind, h: slot declaration, bone_graft: kind, g: slot declaration, packer: kind, p: slot declaration, n: slot declaration',
      'g: slot, wetted: state, g: slot, soak: property',
      'h: slot, cleaned: state',
    ]);
  });
});

describe('a word at which a problem stands is marked', () => {
  test('one that stands for nothing known, and one that is not used as it should be', () => {
    expect(tokensIn(inVisit('$0fil gap with graft$0'))).toBe('fil: action unresolved, gap: thing, graft: thing');
    expect(tokensIn(inVisit('$0clean graft$0'))).toContain('graft: thing misused');
  });

  test('what a source states is declared nowhere, and no mistake', () => {
    expect(tokensIn('source s "S" { by "N", year 2020 }\n')).toBe('s: source declaration');
  });
});

test('no colour in texts, remarks, paths of files and words of the language', () => {
  expect(tokensIn('use std/oral\n// graft\nnote "graft"\n')).toBe('');
});

test('only what touches the stretch is told', () => {
  expect(tokensIn(inVisit('clean gap\n$0clean gap$0\nclean gap'))).toBe('clean: action, gap: thing');
});

test('after any change the words are those of a text read afresh', () => {
  const fixture = readFixture(
    inVisit('decide wall {\n  option intact { clean gap }\n}\nclean gap\nfill gap with graft'),
  );
  const workspace = workspaceOf(fixture);
  let text = fixture.files[0]?.text ?? '';
  workspace.open('main.curette', text);
  const edits: [string, string][] = [
    ['decide wall', 'decide gone'],
    ['decide gone', 'decide wall'],
    ['gap     : hole', 'gap     : bone_graft'],
    ['gap     : bone_graft', 'gap     : hole'],
    ['use house', 'use nothing'],
    ['use nothing', 'use house'],
    ['graft  : bank_graft', 'grain  : bank_graft'],
    ['clean gap\n', 'clean gap by surgeon\n'],
    ['team { surgeon', 'team { assistant'],
  ];
  for (const [before, after] of edits) {
    const start = text.indexOf(before);
    expect(start, before).toBeGreaterThanOrEqual(0);
    workspace.change('main.curette', [{ start, end: start + before.length, text: after }]);
    text = text.replace(before, after);
    const fresh = workspaceOf(fixture);
    fresh.open('main.curette', text);
    expect(tokenLines(text, semanticTokens(workspace, 'main.curette', 0, text.length))).toBe(
      tokenLines(text, semanticTokens(fresh, 'main.curette', 0, text.length)),
    );
  }
});
