/**
 * Antibiotics, anticoagulants and who must not have what, against the statements they came from. What is `from memory` was not read in its
 * source, and is marked so in the library as well. These are checks of figures, not advice.
 */
import { divide, formatQuantity, least, libraryFiles, multiply } from '@curette/shared';
import { describe, expect, test } from 'vitest';
import { hoverAt } from '../support/editor.ts';
import { problemsOf, readFixture } from '../support/fixture.ts';
import { q } from '../unit/quantity/written.ts';
import { declarations, declared, stated } from './library-values.ts';

const MEDICINES = 'std/medicines';

/** Wilson and others, American Heart Association, 2021, as summaries of its regimens print them; child and most per child from a second. */
describe('one dose against endocarditis', () => {
  test.each([
    ['endocarditis_penicillin amoxicillin', '2 g', '50 mg/kg'],
    ['endocarditis_penicillin ampicillin', '2 g', '50 mg/kg'],
    // The adult's dose from memory.
    ['endocarditis_cephalosporin cefazolin', '1 g', '50 mg/kg'],
    ['endocarditis_cephalosporin ceftriaxone', '1 g', '50 mg/kg'],
    ['endocarditis_cephalosporin cephalexin', '2 g', '50 mg/kg'],
    ['endocarditis_macrolide azithromycin', '500 mg', '15 mg/kg'],
    ['endocarditis_macrolide clarithromycin', '500 mg', '15 mg/kg'],
    // From memory.
    ['endocarditis_antibiotic doxycycline', '100 mg', '2.2 mg/kg'],
  ])('%s: %s, a child %s', (entry, adult, child) => {
    expect(stated(MEDICINES, entry, 'adult_dose')).toBe(adult);
    expect(stated(MEDICINES, entry, 'child_dose')).toBe(child);
  });

  test.each(['cefazolin', 'doxycycline'])('%s says what of it is from memory', (name) => {
    const [entry] = declarations(MEDICINES).filter(({ headline }) => headline.includes(` ${name} `));
    expect(entry?.declared.doc).toMatch(/from memory/);
  });

  /** Worked by hand from the figures of the statement: dose by mass, never over the adult's. */
  test.each([
    ['endocarditis_penicillin amoxicillin', '22 kg', '1100 mg'],
    ['endocarditis_penicillin amoxicillin', '40 kg', '2000 mg'],
    ['endocarditis_penicillin amoxicillin', '45 kg', '2000 mg'],
    ['endocarditis_cephalosporin ceftriaxone', '22 kg', '1000 mg'],
    ['endocarditis_macrolide azithromycin', '22 kg', '330 mg'],
  ])('%s for a child of %s: %s', (entry, mass, dose) => {
    const byMass = multiply(q(stated(MEDICINES, entry, 'child_dose')), q(mass));
    const most = q(stated(MEDICINES, entry, 'adult_dose'));
    const given = byMass.ok ? least(byMass.quantity, most) : byMass;
    const share = given.ok ? divide(given.quantity, q(dose)) : given;
    expect(share.ok && share.quantity.range.lo).toBeCloseTo(1, 9);
    expect(share.ok && formatQuantity(share.quantity)).toBe('1');
  });

  test('30 to 60 min before; clindamycin is no longer recommended', () => {
    expect(declared(MEDICINES, 'rule antibiotic_has_been_taken_up').lines.get('between')).toEqual([
      'give (endocarditis_antibiotic a) and extract (tooth t) at least 30 min',
      'give (endocarditis_antibiotic a) and incise (mucosa t) at least 30 min',
    ]);
    expect(stated(MEDICINES, 'rule antibiotic_is_still_there', 'between')).toMatch(/at most 60 min$/);
    expect(declarations(MEDICINES).filter(({ headline }) => /clindamycin/.test(headline))).toEqual([]);
    expect(declared('std/perioperative', 'source endocarditis_statement').doc).toContain('30 to 60 min before');
  });
});

/** Scottish Dental Clinical Effectiveness Programme, 2nd edition, 2022, and its companion on direct oral anticoagulants. */
describe('a delayed dose of an anticoagulant waits 4 h', () => {
  // Bleeding has stopped at 10:30, so not before 14:30: 14:00 is too early, 20:00 is not.
  test.each([
    ['3.5 h', true],
    ['4 h', false],
    ['9.5 h', false],
  ])('given after %s', (wait, early) => {
    const found = problemsOf(
      readFixture(`use std/perioperative
use std/oral
use std/medicines
protocol p "P" {
  given { patient : patient, site : tooth }
  team { surgeon }
  materials { thinner : apixaban 5 mg }
  instruments { periotome }
  visit v "V" {
    extract site with periotome takes 10 min
    wait ${wait}
    give thinner 5 mg to patient
  }
}
`),
    );
    const late = found.filter(({ problem }) => problem.rule === 'anticoagulant_waits_for_the_clot');
    expect(late).toHaveLength(early ? 1 : 0);
  });
});

/** Who must not have what: labels and statements named beside each in the library. */
describe('what a patient must not have is told when nobody excludes them', () => {
  test.each([
    ['std/medicines', 'amoxicillin', 'allergic to penicillin'],
    // Not after an immediate reaction to a penicillin.
    ['std/medicines', 'cephalexin', 'allergic to penicillin'],
    ['std/medicines', 'cephalexin', 'allergic to cephalosporin'],
    ['std/medicines', 'azithromycin', 'allergic to macrolide'],
    ['std/medicines', 'doxycycline', 'allergic to tetracycline'],
    ['std/medicines', 'ibuprofen', 'takes vitamin k antagonist'],
    ['std/medicines', 'ibuprofen', 'takes direct oral anticoagulant'],
    ['std/wound', 'gelatin_sponge', 'allergic to porcine material'],
    ['std/wound', 'collagen_fleece', 'allergic to bovine material'],
    ['std/wound', 'rubber_drain', 'allergic to latex'],
    ['std/perioperative', 'chlorhexidine_rinse', 'allergic to chlorhexidine'],
    ['std/perioperative', 'povidone_iodine_rinse', 'allergic to iodine'],
  ])('%s, %s: %s', (file, entry, condition) => {
    const found = problemsOf(
      readFixture(`use ${file}
protocol p "P" {
  given { patient : patient }
  team { surgeon }
  materials { thing : ${entry} }
  visit v "V" { note "x" }
}
`),
    );
    expect(found.map(({ problem }) => `${problem.code} ${problem.message}`).join('\n')).toMatch(
      new RegExp(`contraindication_open .*${condition}`),
    );
  });

  test('an instrument is asked for as well: a current through a patient with an implanted device', () => {
    const found = problemsOf(
      readFixture(`use std/wound
protocol p "P" {
  given { patient : patient }
  team { surgeon }
  instruments { needle_electrode }
  visit v "V" { note "x" }
}
`),
    );
    expect(found.map(({ problem }) => problem.message).join('\n')).toMatch(/implanted cardiac device/);
  });
});

test.each([
  // Ruggiero and others, 2022.
  ['source mronj_position_paper', 'J Oral Maxillofac Surg 2022;80:920-943', '2022'],
  ['source anticoagulant_guidance', 'ISBN 978 1 905829 36 1', '2022'],
])('%s can be found by what it says', (head, identifier, year) => {
  expect(stated('std/oral', head, 'identifier')).toBe(`"${identifier}"`);
  expect(stated('std/oral', head, 'year')).toBe(year);
});

describe('each file of the library says at its beginning what it does not cover', () => {
  test.each(libraryFiles.map(({ path }) => path.replace(/\.curette$/, '')).filter((path) => path !== 'std/core'))(
    '%s, where it is used',
    (path) => {
      expect(hoverAt(`use ${path.slice(0, -1)}$0${path.slice(-1)}\n`)).toMatch(/\n\n\*\*Not covered:\*\* \S/);
    },
  );

  test('and so does the core, which is in use everywhere', () => {
    const core = libraryFiles.find(({ path }) => path === 'std/core.curette')?.text ?? '';
    expect(core.split('\n\n')[0]).toMatch(/^\/\/ Not covered: /m);
  });
});
