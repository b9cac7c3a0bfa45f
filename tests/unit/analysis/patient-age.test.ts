/** Rules that speak of children, where the patient's age is a property in years. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

function text(patient: string, marks: string, more = ''): string {
  return `
// quiet: missing_head, not_judged, never_used
kind patient "patient" {
  age  : time range within 1 mo..120 a source common_practice
}
kind drug "drug" is material
action give (drug d) (mass dose) to (patient p) {
  uses up d dose
}
rule small_dose "A child is given no more than 100 mg" {
  whenever give (drug d) (mass dose) to (patient p) where p.age < 18 a
  expect   dose <= 100 mg
  severity error
  why      "It weighs less"
  source   common_practice
}
rule no_infants "Nobody under a year" {
  whenever give (drug d) (mass dose) to (patient p)
  expect   p.age >= 1 a
  severity error
  why      "It has been tried in nobody"
  source   common_practice
}
protocol p "P" {
  given { who : patient${patient} }
  materials { syrup : drug 1 g }
  visit v "V" {
    give syrup 200 mg to who
${marks}${more}
  }
}
`;
}

const TOLD = '    //         ^^^^^^ small_dose (error)';

test('a child always, a grown patient never, somebody in between perhaps', () => {
  check(text(' { age 6..12 a }', TOLD));
  check(text(' { age 18..80 a }', ''));
  check(text(' { age 10..30 a }', `${TOLD}: when the age of who (10–30 years) is under 18 years`));
});

test('months and years are compared', () => {
  check(text(' { age 6..8 mo }', `${TOLD}\n    //                   ^^^ no_infants (error)`));
  check(text(' { age 8 mo..2 a }', `${TOLD}\n    //                   ^^^ no_infants (error): in some circumstances`));
});

test('an age that is not stated leaves neither question out', () => {
  check(text('', `${TOLD}\n    //                   ^^^ undecided: age of who`));
});
