/**
 * The rules of the anaesthesia library over what a visit gives: each is told where it is broken, and silent where it is kept.
 * Figures are those of the Canadian table, unless another set is applied.
 */
import { describe, expect, test } from 'vitest';
import { problemsOf, readFixture } from '../../support/fixture.ts';

const RULES = [
  'anaesthetic_ceiling',
  'anaesthetics_share_one_ceiling',
  'vasoconstrictor_stays_under_ceiling',
  'less_vasoconstrictor_at_cardiac_risk',
  'sign_in_before_injection',
  'anaesthetic_says_its_strength',
] as const;

/** Given to whoever has no heart disease, unless the rule is about those. */
const WELL = 'exclude when patient has significant_cardiac_disease because "Planned with the cardiologist"';

const table: readonly {
  readonly rule: (typeof RULES)[number];
  readonly broken: string;
  readonly kept: string;
}[] = [
  {
    rule: 'anaesthetic_ceiling', // 7 mg/kg: 350 mg in 50 kg, and 8.5 mL are 340 mg, 9 mL are 360 mg
    broken: visit(['inject articaine_4_with_less_epinephrine 9 mL at site']),
    kept: visit(['inject articaine_4_with_less_epinephrine 8.5 mL at site']),
  },
  {
    rule: 'anaesthetics_share_one_ceiling', // 204 of 350 mg and 153 of 330 mg are 1.05; 136 and 153 are 0.85
    broken: visit([
      'inject articaine_4_with_less_epinephrine 5.1 mL at site',
      'inject mepivacaine_3_plain 5.1 mL at site',
    ]),
    kept: visit([
      'inject articaine_4_with_less_epinephrine 3.4 mL at site',
      'inject mepivacaine_3_plain 5.1 mL at site',
    ]),
  },
  {
    rule: 'vasoconstrictor_stays_under_ceiling', // 1:50000 is 20 ug/mL, and 0.2 mg are 10 mL
    broken: visit(['inject lidocaine_2_with_more_epinephrine 10.5 mL at site']),
    kept: visit(['inject lidocaine_2_with_more_epinephrine 10 mL at site']),
  },
  {
    rule: 'less_vasoconstrictor_at_cardiac_risk', // 0.04 mg are 2 mL
    broken: visit(['inject lidocaine_2_with_more_epinephrine 2.2 mL at site'], ''),
    kept: visit(['inject lidocaine_2_with_more_epinephrine 2 mL at site'], ''),
  },
  {
    rule: 'sign_in_before_injection',
    broken: visit(['inject mepivacaine_3_plain 1 mL at site'], WELL, ''),
    kept: visit(['inject mepivacaine_3_plain 1 mL at site']),
  },
  {
    rule: 'anaesthetic_says_its_strength',
    broken: `${visit([])}\nanaesthetic unnamed "Unnamed" { vasoconstrictor none }\n`,
    kept: `${visit([])}\nanaesthetic unnamed "Unnamed" { vasoconstrictor none, concentration 20 mg/mL source common_practice }\n`,
  },
];

test('every rule is in the table', () => {
  expect(table.map(({ rule }) => rule).sort()).toEqual([...RULES].sort());
});

test.each(table)('$rule is told where it is broken, and silent where it is kept', ({ rule, broken, kept }) => {
  expect(told(broken)).toContain(rule);
  expect(told(kept)).not.toContain(rule);
});

describe('ceilings', () => {
  const given = ['inject lidocaine_2_with_epinephrine 12 mL at site']; // 240 mg: 4.8 mg/kg in 50 kg

  test('are those of the set that is applied, and the problem says which', () => {
    expect(told(visit(given))).not.toContain('anaesthetic_ceiling');
    const lower = messages(visit(given).replace('canadian_ceilings', 'paediatric_ceilings'), 'anaesthetic_ceiling');
    expect(lower.join()).toContain('Paediatric, conservative');
    // 240 mg at 4.4 mg/kg are 54.55 kg, rounded to the safe side
    expect(lower.join()).toContain('54.6 kg');
  });

  test('differ with and without a vasoconstrictor', () => {
    const plain = ['inject lidocaine_2_plain 12 mL at site'];
    const byLabel = (steps: readonly string[]) => visit(steps).replace('canadian_ceilings', 'label_ceilings');
    expect(told(byLabel(given))).not.toContain('anaesthetic_ceiling');
    expect(told(byLabel(plain))).toContain('anaesthetic_ceiling');
  });

  test('of a patient whose mass is not stated are told from which mass on they are kept', () => {
    const open = messages(visit(given).replace(' { mass 50..110 kg }', ''), 'anaesthetic_ceiling');
    expect(open.join()).toContain('34.3 kg');
  });

  test('that no set is applied for are asked for', () => {
    const none = visit(given).replace(/^apply canadian_ceilings.*$/m, '');
    expect(messages(none, 'anaesthetic_ceiling').join()).toContain('Canadian table');
  });

  test('a set is silent about are told as not in it', () => {
    const silent = visit(['inject lidocaine_2_plain 1 mL at site']);
    expect(messages(silent, 'anaesthetic_ceiling').join()).toContain('does not state');
  });
});

function visit(steps: readonly string[], exclude = WELL, before = 'pause sign_in'): string {
  return `//- main.curette
use std/perioperative
use std/anaesthesia
use std/oral
apply canadian_ceilings because "Agreed"
apply dental_vasoconstrictor_ceilings because "Agreed"
protocol numbing "Numbing" {
  given { patient : patient { mass 50..110 kg }, site : tooth }
  ${exclude}
  visit surgery "Surgery" {
    ${[before, ...steps].join('\n    ')}
  }
}
`;
}

function told(text: string): string[] {
  return problemsOf(readFixture(text)).map(({ problem }) => problem.rule ?? problem.code);
}

function messages(text: string, rule: string): string[] {
  return problemsOf(readFixture(text)).flatMap(({ problem }) => (problem.rule === rule ? [problem.message] : []));
}
