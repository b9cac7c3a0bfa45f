/** What adds up over a visit or a protocol, and for which patients it is too much. */
import { describe, test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, never_used, contraindication_open
unit cartridge, cartridges is count
kind solution "numbing solution" is material {
  concentration : concentration
  most_per_mass : dose per body mass
  most          : mass
  dilution      : concentration
  cartridge     : volume
  additive      : one of none, vasoconstrictor
}
solution strong "Strong solution" {
  concentration    40 mg/mL
  dilution         1:100000
  cartridge        1.7 mL
  additive         vasoconstrictor
  most_per_mass    7 mg/kg
}
solution weak "Weak solution" {
  concentration    20 mg/mL
  cartridge        1.8 mL
  additive         none
  most_per_mass    7 mg/kg
  most             500 mg
}
finding tissue_state "Tissue" { calm "Calm", inflamed "Inflamed" }
action give (solution d) (volume v) at (place p) {
  uses up d v
}
action give (solution d) (dose per body mass x) at (place p) {
  uses up d x
}
action empty (solution d) at (place p) {
  uses up d
}
`;

const CEILING = `
rule ceiling "No solution over its ceiling" {
  for each solution d given in a visit
  expect   total d <= d.most_per_mass * patient.mass
  severity error
  why      "Over it, it poisons"
  source   common_practice
}
`;

const rule = (name: string, ...lines: string[]) => `
rule ${name} "${name.replaceAll('_', ' ')}" {
${lines.map((line) => `  ${line}`).join('\n')}
  severity error
  why      "Over it, it poisons"
  source   common_practice
}
`;

const protocol = (given: string, steps: string, head = '') => `
protocol p "P" {
${head}  given { ${given}site : place }
  materials { strong, weak }
  visit v "V" {
${steps
  .trim()
  .split('\n')
  .map((line) => `    ${line.replace(/^ {4}/, '')}`)
  .join('\n')}
  }
}
`;

describe('each thing by itself', () => {
  test('over the ceiling is told at the step that passes it, with the total and the ceiling', () => {
    check(
      KIT +
        CEILING +
        protocol(
          'patient { mass 50 kg }, ',
          `
    give strong 5 mL at site
    give weak 3 mL at site
    give strong 4 mL at site
    //   ^^^^^^ ceiling (error): Strong solution comes to 360 mg in this visit; the rule asks for at most 350 mg.
    give strong 1 mL at site`.replace('360', '400'),
        ),
    );
  });
});
