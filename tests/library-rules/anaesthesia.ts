/** Each rule over what a visit gives, and about who is asked before the needle: a protocol that breaks it, and one that keeps it. */
import type { Tries } from './tried.ts';

/** Of a patient of 50 kg or more, by the Canadian table. */
function visit(steps: readonly string[], { well = true, before = '    pause sign_in\n' } = {}): string {
  const heart = '  exclude when patient has significant_cardiac_disease because "Planned with the cardiologist"\n';
  return `use std/perioperative
use std/anaesthesia
use std/oral
apply canadian_ceilings because "Agreed"
apply dental_vasoconstrictor_ceilings because "Agreed"
protocol numbing "Numbing" {
  given { patient : patient { mass 50..110 kg }, site : tooth }
${well ? heart : ''}  team { surgeon }
  materials {
    half    : articaine_4_with_less_epinephrine 20 mL
    plain   : mepivacaine_3_plain 20 mL
    double  : lidocaine_2_with_more_epinephrine 20 mL
  }
  visit surgery "Surgery" {
${before}${steps.map((step) => `    ${step}\n`).join('')}  }
}
`;
}

const entry = (more: string) => `use std/anaesthesia\nanaesthetic unnamed "Unnamed" { vasoconstrictor none${more} }`;

export const anaesthesia: Tries = {
  alone: false,
  rules: {
    // 7 mg/kg are 350 mg in 50 kg: 8.5 mL are 340 mg, 9 mL are 360 mg.
    anaesthetic_ceiling: [visit(['inject half 9 mL at site']), visit(['inject half 8.5 mL at site'])],
    // 204 of 350 mg and 153 of 330 mg are 1.05; 136 and 153 are 0.85.
    anaesthetics_share_one_ceiling: [
      visit(['inject half 5.1 mL at site', 'inject plain 5.1 mL at site']),
      visit(['inject half 3.4 mL at site', 'inject plain 5.1 mL at site']),
    ],
    // 1:50000 is 20 ug/mL, and 0.2 mg are 10 mL.
    vasoconstrictor_stays_under_ceiling: [
      visit(['inject double 10.5 mL at site']),
      visit(['inject double 10 mL at site']),
    ],
    // 0.04 mg are 2 mL.
    less_vasoconstrictor_at_cardiac_risk: [
      visit(['inject double 2.2 mL at site'], { well: false }),
      visit(['inject double 2 mL at site'], { well: false }),
    ],
    sign_in_before_injection: [
      visit(['inject plain 1 mL at site'], { before: '' }),
      visit(['inject plain 1 mL at site']),
    ],
    anaesthetic_says_its_strength: [entry(''), entry(', concentration 20 mg/mL source common_practice')],
  },
};
