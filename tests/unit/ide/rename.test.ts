import { describe, expect, test } from 'vitest';
import { prepareRenameAt, renameAt } from '../../support/names.ts';
import { atTop, house, inVisit } from './house.ts';

/** The lines that became other ones. */
function changed(before: string, newName: string): string[] {
  const after = renameAt(before, newName);
  if (!after.startsWith('//- ')) return [after];
  const old = new Set(before.replaceAll('$0', '').split('\n'));
  return after
    .split('\n')
    .filter((line) => line !== '' && !old.has(line))
    .map((line) => line.trim());
}

describe('a new name stands wherever the old one stood', () => {
  test('a thing, in its protocol and in a case', () => {
    const text = `${inVisit('clean ga$0p // gap\nfill gap with graft because "gap"')}//- one.curette
use main
case one of filling { gap { }, wall lost }
`;
    expect(changed(text, 'hollow')).toEqual([
      'hollow     : hole',
      'clean hollow // gap',
      'fill hollow with graft because "gap"',
      'case one of filling { hollow { }, wall lost }',
    ]);
  });

  test('an entry of a catalogue, in every file that uses it', () => {
    const text = `${inVisit('clean gap').replace('graft  : bank_graft', 'graft  : bank$0_graft')}//- b.curette
use house
protocol other "Other" {
  materials { bank_graft 1 mL }
}
`;
    expect(changed(text, 'stock')).toEqual([
      'materials { stock 1 mL }',
      'bone_graft stock "Graft of the bank" {',
      'graft  : stock 0.5 mL',
    ]);
  });

  test('a kind, also as the first word of its entries', () => {
    expect(changed(atTop('bone$0_graft own "Own" { soak 10 min }'), 'filler')).toEqual([
      'kind filler "bone graft" is material {',
      'filler bank_graft "Graft of the bank" {',
      'action wet (filler g) with (liquid l) {',
      'action fill (hole h) with (filler g) on (optional packer p) in (optional count n) {',
      'procedure clean_and_fill (hole h) with (filler g) {',
      'whenever fill (hole h) with (filler g)',
      'filler own "Own" { soak 10 min }',
    ]);
  });

  test('an action, with all that its verb can mean', () => {
    const text = `${inVisit('we$0t graft with saline')}//- b.curette
use house
action wet (packer p) with (liquid l) { takes 1 min }
procedure soak_all (bone_graft g) with (liquid l) { wet g with l }
`;
    expect(changed(text, 'soak')).toEqual([
      'action soak (packer p) with (liquid l) { takes 1 min }',
      'procedure soak_all (bone_graft g) with (liquid l) { soak g with l }',
      'action soak (bone_graft g) with (liquid l) {',
      'soak graft with saline',
    ]);
  });

  test('a procedure, a pause, a rule and a source', () => {
    expect(changed(inVisit('clean_an$0d_fill gap with graft'), 'close_gap')).toEqual([
      'procedure close_gap (hole h) with (bone_graft g) {',
      'close_gap gap with graft',
    ]);
    expect(changed(inVisit('pause check$0_in'), 'greeting')).toEqual(['pause greeting "Check in" {', 'pause greeting']);
    expect(
      changed(
        atTop('rule own "Own" {\n  every hole declares x\n  severity advice\n  why "So"\n  replaces clean$0_first\n}'),
        'first_clean',
      ),
    ).toEqual(['rule first_clean "A hole is clean before it is filled" {', 'replaces first_clean']);
    expect(changed(inVisit('clean gap source handling$0_sheet'), 'sheet').slice(0, 2)).toEqual([
      'source sheet "Handling sheet" { by "Bone bank", year 2024 }',
      'particle 200..850 um source sheet',
    ]);
  });

  test('a finding and a value of it', () => {
    const lines = 'decide wall {\n  option lost { }\n  option intact { }\n}';
    expect(changed(inVisit(lines.replace('wall', 'wa$0ll')), 'side')).toEqual([
      'finding side "Wall" { intact "Intact", lost "Lost" }',
      'decide side {',
    ]);
    expect(changed(inVisit(lines.replace('lost', 'lo$0st')), 'gone')).toEqual([
      'finding wall "Wall" { intact "Intact", gone "Lost" }',
      'option gone { }',
    ]);
  });

  test('a state and a property, through kinds and paths', () => {
    expect(changed(inVisit('wait until graft is we$0tted for 10 min'), 'soaked')).toEqual([
      'states   dry -> soaked -> packed, any -> discarded',
      'soaked   lasts at most soak.longest, then dried_out',
      'makes g soaked',
      'needs g soaked for g.soak',
      'wait until graft is soaked for 10 min',
    ]);
    expect(changed(atTop('bone_graft own "Own" { so$0ak 10 min }'), 'bath')).toEqual([
      'bath     : time range',
      'wetted   lasts at most bath.longest, then dried_out',
      'bath     10..60 min source handling_sheet',
      'needs g wetted for g.bath',
      'bone_graft own "Own" { bath 10 min }',
    ]);
  });

  test('a protocol where it is followed and where it has cases, a visit and a lane', () => {
    const text = `${inVisit('together {\n  lane le$1ft by surgeon { wait 10 min }\n}')}//- b.curette
use main
protocol next "Next" {
  follows filling
}
case one of filling { gap { } }
`;
    expect(changed(text.replace('$1', '').replace('protocol filling', 'protocol fil$0ling'), 'packing')).toEqual([
      'follows packing',
      'case one of packing { gap { } }',
      'protocol packing "Filling" {',
    ]);
    expect(changed(text.replace('$1', '').replace('visit first', 'visit fir$0st'), 'opening')).toEqual([
      'visit opening "First visit" {',
    ]);
    expect(changed(text.replace('$1', '$0'), 'right')).toEqual(['lane right by surgeon { wait 10 min }']);
  });

  test('a slot, in a rule in each of its lines', () => {
    const rule = `rule far "Far" {
  between fill (hole $0h) with (bone_graft g) and clean (hole h) at least 1 d
  severity advice
  why "So"
}`;
    expect(changed(atTop(rule), 'spot')).toEqual([
      'between fill (hole spot) with (bone_graft g) and clean (hole spot) at least 1 d',
    ]);
  });

  test('a set of figures and their group', () => {
    const text = `//- main.curette
kind drug is material { ceiling : mass from dru$0g_ceilings }
drug pill "Pill"
figures leaflet "Leaflet" of drug_ceilings { drug { ceiling 300 mg source common_practice } }
apply leaflet because "Chosen"
`;
    expect(changed(text, 'limits')).toEqual([
      'kind drug is material { ceiling : mass from limits }',
      'figures leaflet "Leaflet" of limits { drug { ceiling 300 mg source common_practice } }',
    ]);
    expect(changed(text.replace('$0', '').replace('apply leaf', 'apply lea$0f'), 'label')).toEqual([
      'figures label "Leaflet" of drug_ceilings { drug { ceiling 300 mg source common_practice } }',
      'apply label because "Chosen"',
    ]);
  });
});

describe('nothing at all is renamed', () => {
  test('where a name is from the shipped library: what to do instead is told', () => {
    expect(renameAt('use std/grafting\n\nallo$0graft own "Own"\n', 'bank')).toBe(
      '"allograft" is from the shipped library (std/grafting), which stays as it is. Declare one of your own that is this (… is allograft), and use its name.',
    );
    expect(prepareRenameAt(inVisit('clean gap by sur$0geon'))).toMatch(
      /^"surgeon" is from the shipped library \(std\//,
    );
  });

  test('where an action shares its verb with one of the library', () => {
    const text = 'use std/oral\nkind own_thing is material\naction extr$0act (own_thing o) { takes 1 min }\n';
    expect(renameAt(text, 'pull')).toMatch(/^"extract" is from the shipped library/);
  });

  test('where no name stands, or one that is no name of anybody', () => {
    expect(prepareRenameAt(inVisit('wa$0it 10 min'))).toBe('"wait" is a word of the language.');
    expect(prepareRenameAt(inVisit('note "so$0me"'))).toBe('Nothing with a name of its own stands here.');
    expect(prepareRenameAt(inVisit('clean gap source common$0_practice'))).toBe(
      '"common_practice" is part of the language.',
    );
    expect(prepareRenameAt(inVisit('clean gap').replace('use house', 'use ho$0use'))).toMatch(
      /^A file is renamed or moved/,
    );
  });

  test('where the new name is none, or a word that nothing may be called', () => {
    expect(renameAt(inVisit('clean ga$0p'), 'two words')).toMatch(/is no name/);
    expect(renameAt(inVisit('clean ga$0p'), '2nd')).toMatch(/is no name/);
    expect(renameAt(inVisit('clean ga$0p'), '')).toMatch(/is no name/);
    expect(renameAt(inVisit('clean ga$0p'), 'with')).toBe(
      '"with" is a word of the language and cannot be a name here.',
    );
  });

  test('where a line would begin with a word that makes another line of it', () => {
    expect(renameAt(inVisit('cl$0ean gap'), 'verify')).toBe(
      '"verify" would not be read as a name in line 49 of house.curette.',
    );
    // A slot of that kind would be a length, an option would be all of them.
    expect(renameAt(atTop('kind ow$0n is material'), 'length')).toMatch(/^"length" is a word of the language/);
    expect(renameAt(inVisit('decide wall {\n  option lo$0st { }\n}'), 'any')).toMatch(
      /^"any" is a word of the language/,
    );
  });

  test('where another thing has the name', () => {
    expect(renameAt(inVisit('clean ga$0p'), 'graft')).toBe(
      '"graft" is taken: line 13 of main.curette would mean something else.',
    );
    expect(renameAt(inVisit('wet graft with sa$0line'), 'gap')).toMatch(/is taken: line \d+ of/);
    expect(renameAt(inVisit('we$0t graft with saline'), 'clean')).toMatch(/is taken: line \d+ of/);
  });

  test('where the new name would capture what means something else', () => {
    // `front_hole` is a place of the catalogue that the visit names without listing it.
    expect(renameAt(inVisit('clean front_hole\nclean ga$0p'), 'front_hole')).toMatch(/main.curette/);
    // A slot called as a kind would take that kind's place in the block.
    expect(
      renameAt(atTop('action rinse (bone_graft $0g) with (liquid) {\n  needs liquid is water\n}'), 'liquid'),
    ).toMatch(/line \d+ of main.curette/);
  });

  test('where a file that does not say so would see another thing of the name', () => {
    const text = `//- a.curette
kind clip is material
//- b.curette
kind tie is material
//- c.curette
use a
use b
material one is cl$0ip
material two is tie
`;
    expect(renameAt(text, 'tie')).toMatch(/c.curette/);
  });

  test('where something would become wrong that no name tells of', () => {
    const text = `//- main.curette
unit vial, vials is count
kind drug is material { vi$0al : volume }
drug pill "Pill" { vial 2 mL }
action give (drug d) (volume v) { uses up d v, takes 1 min }
protocol p "P" {
  version 1.0.0
  status draft
  owner "Unit"
  team { surgeon }
  materials { dose : pill 2 vials }
  visit v "V" { give dose 5 mL }
}
`;
    expect(renameAt(text, 'bottle')).toMatch(/^With "bottle", a problem in main.curette would no longer be found/);
  });

  test('where a unit is meant', () => {
    expect(prepareRenameAt('unit vi$0al, vials is count\n')).toMatch(/^Amounts spell a unit in many ways/);
  });
});

test('the same name again is no change', () => {
  expect(renameAt(inVisit('clean ga$0p'), 'gap')).toBe('');
});

test('the word to be renamed is told', () => {
  expect(prepareRenameAt(inVisit('clean ga$0p'))).toBe('gap');
  expect(prepareRenameAt(`//- main.curette\nuse house\nkind my_own is bone_g$0raft\n${house.trim()}\n`)).toBe(
    'bone_graft',
  );
});
