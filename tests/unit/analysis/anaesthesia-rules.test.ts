/** Ceilings of local anaesthetics: which set is meant, and for whom. Those of the Canadian table, unless another set is applied. */
import { describe, expect, test } from 'vitest';
import { problemsOf, readFixture } from '../../support/fixture.ts';

/** Given to whoever has no heart disease, unless the rule is about those. */
const WELL = 'exclude when patient has significant_cardiac_disease because "Planned with the cardiologist"';

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
