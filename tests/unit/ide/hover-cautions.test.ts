/** Whatever could be taken for a dose, or for leave to use something, says what it rests on and what comes before it. */
import { diagnostics } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { hoverAt } from '../../support/editor.ts';
import { readFixture, workspaceOf } from '../../support/fixture.ts';

const CAUTION = '_Local codes, product labelling and licensed practice come first._';

/** The cursor stands where the words have it. */
function told(words: string): string {
  const text = protocol.replace(words.replace('$0', ''), words);
  expect(text).toContain('$0');
  return hoverAt(text);
}

const protocol = `use std/perioperative
use std/anaesthesia
use std/oral
use std/medicines
apply canadian_ceilings because "Agreed"
apply dental_vasoconstrictor_ceilings because "Agreed"
rule one_cartridge "One at a time" {
  whenever inject (anaesthetic d) (volume v) at (tooth t)
  expect   v <= 2 mL
  severity error
  why      "x"
  source   common_practice
  replaces injection_at_a_tooth_is_small
}
kind strong_drug "strong drug" is drug {
  most : dose per body mass within 0.01..500 mg/kg source common_practice
  contraindicated when patient has methaemoglobinaemia because "Worsens it" source articaine_label
}
strong_drug tablet "Tablet" { most 2 mg/kg source articaine_label }
protocol numbing "Numbing" {
  given { patient : patient { mass 50..110 kg }, site : tooth }
  exclude when patient allergic to amide_anaesthetic because "Same class" source articaine_label
  exclude when patient allergic to sulfite
  caution when patient takes antiresorptive source mronj_position_paper
  team { surgeon }
  materials { numbing : articaine_4_with_epinephrine 3 cartridges, drops : amoxicillin 2 g }
  visit surgery "Surgery" {
    inject numbing 1.7 mL at site
    give drops 900 mg to patient
    extract site with periotome
    wait 12 min
  }
}
`;

describe('the source and what comes first are told', () => {
  test.each([
    ['of a medicine on the list', 'numbing : articaine_4_with$0_epinephrine', 'articaine 4 % with epinephrine, 2023'],
    ['of a medicine in a step', 'inject numb$0ing', 'articaine 4 % with epinephrine, 2023'],
    ['of an amount in a step, at its unit', 'numbing 1.7 m$0L', 'articaine 4 % with epinephrine, 2023'],
    ['of an amount in a step, at its number', 'numbing 1$0.7 mL', 'articaine 4 % with epinephrine, 2023'],
    ['of a dose of another medicine', 'drops 900 m$0g', 'Prevention of viridans group'],
    ['of an amount on the list', 'amoxicillin 2 $0g', 'Prevention of viridans group'],
    ['of a dose that an entry states', 'mos$0t 2', 'articaine 4 % with epinephrine, 2023'],
    ['of the figure of a dose', '2 mg/k$0g', 'articaine 4 % with epinephrine, 2023'],
    ['of a kind of medicine', 'kind strong_$0drug', 'articaine 4 % with epinephrine, 2023'],
    ['of a set of ceilings', 'apply canadian_ceil$0ings', 'after Haas and Lennon'],
    ['of an exclusion', 'exclu$0de when patient allergic to amide', 'articaine 4 % with epinephrine, 2023'],
    ['of what an exclusion asks', 'amide_anaes$0thetic', 'articaine 4 % with epinephrine, 2023'],
    ['of an exclusion that names no source', 'sulf$0ite', 'No source is named.'],
    ['of a call for care', 'antires$0orptive', 'Position paper on medication-related'],
    ['of a contraindication', 'contraind$0icated', 'articaine 4 % with epinephrine, 2023'],
    ['of what a contraindication asks', 'methaemo$0globinaemia', 'articaine 4 % with epinephrine, 2023'],
    ['of the action that gives it', 'inj$0ect numbing', 'Handbook of Local Anesthesia'],
    ['of an action that is not for everybody', 'extr$0act site', 'Position paper on medication-related'],
    ['of a rule about a dose', 'rule one_cart$0ridge', 'common practice, no published source'],
    ['of a rule that another replaces', 'replaces injection_at_a_$0tooth', 'common practice, no published source'],
  ])('%s', (_, words, source) => {
    const hover = told(words);
    expect(hover).toContain(source);
    expect(hover.trimEnd()).toMatch(new RegExp(`${CAUTION}$`));
  });

  test('and nothing of the kind where there is neither dose nor medicine', () => {
    expect(told('periot$0ome')).not.toContain(CAUTION);
    expect(told('50..110 k$0g')).not.toContain(CAUTION);
  });

  test('the number of a wait is told of as the wait', () => {
    expect(told('wait 1$02 min')).toMatch(/^wait 12 min\n/);
  });
});

describe('a file that is used', () => {
  test('says what it holds and, on a line of its own, what it does not cover', () => {
    const hover = told('use std/anaes$0thesia');
    expect(hover).toMatch(
      /^std\/anaesthesia\n\n`std\/anaesthesia.curette`, a file of the shipped library\n\nLocal anaesthesia:/,
    );
    expect(hover).toMatch(/\n\n\*\*Not covered:\*\* [^\n]*children[^\n]*general anaesthesia/);
    expect(hover).toMatch(/Local codes, product labelling and licensed practice come first\._$/);
  });

  test('of one of the institution, too', () => {
    expect(
      hoverAt(`//- main.curette
use pol$0icy
//- policy.curette
// What the house adds.
// Not covered: the night.
//
// Looked at each year.

/// A place.
place hollow "Hollow"
`),
    ).toBe(
      'policy\n\n`policy.curette`\n\nWhat the house adds. \n\n**Not covered:** the night.\n\nLooked at each year.',
    );
  });
});

describe('a problem about a dose, or about whom something is not for', () => {
  test.each([
    ['a dose over its ceiling', '1.7 mL', '9.9 mL', 'anaesthetic_ceiling'],
    ['more of a medicine than is listed', '3 cartridges', '1 mL', 'over_used'],
    ['a strength out of all proportion', 'most 2 mg/kg', 'most 2000 g/kg', 'outside_plausible'],
    ['a rule about a dose', '1.7 mL', '2.5 mL', 'one_cartridge'],
    ['one dose that is passed', '900 mg', '2100 mg', 'one_dose_is_not_passed'],
    ['an allergy that nobody asks about', '  exclude when patient allergic to sulfite\n', '', 'contraindication_open'],
    ['figures that nobody has chosen', 'apply canadian_ceilings because "Agreed"\n', '', 'anaesthetic_ceiling'],
  ])('%s', (_, find, replace, name) => {
    const text = protocol
      .replace(find, replace)
      .replace('3 cartridges', '30 mL')
      .replace('amoxicillin 2 g', 'amoxicillin 9 g');
    const told = diagnostics(workspaceOf(readFixture(text)), 'main.curette').filter((one) => one.name === name);
    expect(told).not.toEqual([]);
    for (const { message } of told)
      expect(message).toMatch(/\nLocal codes, product labelling and licensed practice come first\.$/);
  });

  test('another problem does without', () => {
    const told = diagnostics(workspaceOf(readFixture(protocol)), 'main.curette').filter(
      (one) => one.name === 'time_out_before_extraction',
    );
    expect(told).toHaveLength(1);
    expect(told[0]?.message).not.toContain('Local codes');
  });
});
