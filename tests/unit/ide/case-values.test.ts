/** Values of a case: what may be written, and what is told of what is written. */
import { describe, expect, test } from 'vitest';
import { completionsAt, hoverAt, namesAt, offeredAt } from '../../support/editor.ts';

const text = (lines: string) => `//- main.curette
use std/perioperative
use std/oral

protocol p "P" {
  given { patient : patient, site : tooth { number 14 }, hollow : socket { tooth site, depth 9..12 mm } }
  team { surgeon }
  instruments { spoon_curette }
  visit v "V" { decide wall { option intact { }, option lost { } } }
}
finding wall "Wall" { intact "Intact", lost "Lost" }
case c of p {
${lines}
}
`;

describe('offered', () => {
  test('what the protocol gives and looks for, with what it gives of it', () => {
    const { offered } = completionsAt(text('  $0'));
    expect(offered.map((one) => one.replace(/:.*/s, ''))).toEqual(['patient', 'site', 'hollow', 'wall', 'start']);
    expect(offered.find((one) => one.startsWith('hollow'))).toContain('depth 9–12 mm');
    expect(offeredAt(text('  $0'), 'hollow').writes).toBe('hollow { depth [9..12 mm] }');
    expect(offeredAt(text('  $0'), 'wall').writes).toBe('wall [intact|lost]');
  });

  test('not what is filled in already', () => {
    expect(namesAt(text('  start 2027-01-11\n  site 14\n  wall lost\n  $0'))).toEqual(['patient', 'hollow']);
  });

  test('a tooth by its numbers', () => {
    expect(completionsAt(text('  site $0')).offered).toContain('14: 14 (universal 5, Palmer 4┘ upper right)');
  });

  test('values of a finding, conditions of the patient, units of a measurement', () => {
    expect(namesAt(text('  wall $0'))).toEqual(['intact', 'lost']);
    expect(namesAt(text('  patient { has $0 }'))).toContain('diabetes');
    expect(namesAt(text('  hollow { depth 11 $0 }'))[0]).toBe('mm');
    expect(namesAt(text('  hollow { $0 }'))).toContain('depth');
  });
});

describe('told', () => {
  test('a value without a name: which property it is, and the tooth in the other numberings', () => {
    const told = hoverAt(text('  site 1$04'));
    expect(told).toContain('**14 (universal 5, Palmer 4┘ upper right)**');
    expect(told).toContain('Number of site');
  });

  test('a measurement: what the protocol gives', () => {
    const told = hoverAt(text('  hollow { depth 1$01 mm }'));
    expect(told).toContain('Depth of hollow');
    expect(told).toContain('The protocol gives `9–12 mm`.');
  });

  test('a finding and its value', () => {
    expect(hoverAt(text('  wall lo$0st'))).toContain('Lost');
  });
});
