/**
 * Worked calculations of doses of local anaesthetics, written as protocols: what the source allows is kept, the next whole cartridge is
 * not, and the rule that is broken is the one that the source names as limiting. Arithmetic on published figures, no advice for a
 * patient: defer to local codes, product labelling and licensed practice.
 *
 * Sources:
 * [handbook] Malamed, Handbook of Local Anesthesia, tables of maximum recommended doses and of milligrams in a cartridge.
 * [canada]   Maxima after Haas and Lennon, table 1 of PMC9379193, with its sample calculation for a child of 20 kg.
 * [articaine label] Prescribing information, articaine 4 % with epinephrine, set id 0536a4de-578d-497e-a01b-0b1887344cc8, rev. 1/2023.
 * [education] Continuing-education article on maximum recommended doses, docid 50ffbe65-75d2-4890-b127-a8320150673b, pp. 27-29.
 * [study page] Public study pages on local anaesthetics, secondary, for the same numbers only.
 * [computed] Arithmetic from the figures of the row.
 */
import { expect, test } from 'vitest';
import { problemsOf, readFixture } from '../support/fixture.ts';

interface Solution {
  readonly concentration: string;
  readonly cartridge?: string;
  readonly dilution?: string;
  readonly perMass?: string;
  readonly cap?: string;
}

interface Plan {
  readonly mass?: string;
  /** whether patients with heart disease are treated as well */
  readonly cardiac?: boolean;
  readonly solutions: Readonly<Record<string, Solution>>;
  /** what is given: "3 cartridges of lidocaine" */
  readonly given: readonly string[];
}

/**
 * The ceilings that a plan passes. Of a single solution, its own ceiling tells what the one shared by all would tell; what limits the
 * vasoconstrictor is another limit, and is told beside it.
 */
function passed({ mass, cardiac, solutions, given }: Plan): readonly string[] {
  const entries = Object.entries(solutions).map(([name, { concentration, cartridge, dilution, perMass, cap }]) => {
    const kind = perMass ? (cap ? 'capped_solution' : 'uncapped_solution') : 'cap_only_solution';
    const lines = [
      `concentration ${concentration}`,
      `dilution ${dilution ?? '0 ug/mL'}`,
      ...(cartridge ? [`cartridge ${cartridge}`] : []),
      ...(perMass ? [`per_mass ${perMass}`] : []),
      ...(cap ? [`cap ${cap}`] : []),
    ];
    return `${kind} ${name} "${name}" { ${lines.join(', ')} }`;
  });
  const steps = given.map((dose) => dose.replace(/^(.*) of (\w+)$/, '    give $2 $1 at site'));
  const text = `
// quiet: missing_head, repeated_step
unit cartridge, cartridges is count
kind dental_patient "dental patient" is patient { has heart_disease }
kind solution "solution" is material {
  concentration : concentration
  dilution      : concentration
  cartridge     : volume
  per_mass      : dose per body mass
  cap           : mass
}
kind capped_solution "capped solution" is solution
kind uncapped_solution "uncapped solution" is solution
kind cap_only_solution "solution with a cap alone" is solution
${entries.join('\n')}
action give (solution d) (volume v) at (place p) { uses up d v }
${rule('agent', 'for each capped_solution d given in a visit', 'total d <= min(d.per_mass * patient.mass, d.cap)')}
${rule('agent_uncapped', 'for each uncapped_solution d given in a visit', 'total d <= d.per_mass * patient.mass')}
${rule('agent_cap', 'for each cap_only_solution d given in a visit', 'total d <= d.cap')}
${rule('together', 'for all uncapped_solution d given in a visit', 'sum(total d / (d.per_mass * patient.mass)) <= 1')}
${rule('epinephrine', 'for all solution d given in a visit', 'sum(total d * d.dilution) <= 0.2 mg')}
${rule(
  'epinephrine_cardiac',
  'for all solution d given in a visit where patient has heart_disease',
  'sum(total d * d.dilution) <= 0.04 mg',
)}
protocol dose "Dose" {
  given { patient : dental_patient${mass ? ` { mass ${mass} }` : ''}, site : place }
${cardiac ? '' : '  exclude when patient has heart_disease\n'}  materials { ${Object.keys(solutions).join(', ')} }
  visit one "One appointment" {
${steps.join('\n')}
  }
}
`;
  const problems = problemsOf(readFixture(text)).map(({ problem }) => problem);
  const others = problems.filter(
    ({ code }) => code !== 'total_broken' && code !== 'missing_head' && code !== 'repeated_step',
  );
  expect(others.map(({ message }) => message)).toEqual([]);
  return problems.flatMap(({ code, rule: name }) => (code === 'total_broken' && name ? [name] : [])).sort();
}

function rule(name: string, head: string, expected: string): string {
  return `rule ${name} "${name}" {
  ${head}
  expect   ${expected}
  severity error
  why      "Over it, it poisons"
  source   common_practice
}`;
}

test('20 kg, 2 % lidocaine at 7 mg/kg: 140 mg, 7.0 mL, 3 whole cartridges of 1.8 mL [canada]', () => {
  const plan = (given: string) =>
    passed({
      mass: '20 kg',
      solutions: { lidocaine: { concentration: '20 mg/mL', cartridge: '1.8 mL', perMass: '7 mg/kg' } },
      given: [given],
    });
  expect(plan('7.0 mL of lidocaine')).toEqual([]);
  expect(plan('7.01 mL of lidocaine')).toEqual(['agent_uncapped']);
  expect(plan('3 cartridges of lidocaine')).toEqual([]);
  expect(plan('4 cartridges of lidocaine')).toEqual(['agent_uncapped']);
});

const LIDOCAINE_LB = {
  concentration: '20 mg/mL',
  cartridge: '1.8 mL',
  dilution: '1:100000',
  perMass: '3.2 mg/lb',
  cap: '500 mg',
};

test('150 lb, 2 % lidocaine 1:100000 at 3.2 mg/lb: 13 cartridges by the drug, but epinephrine limits to 11 [education]', () => {
  const plan = (given: string, lidocaine: Solution = LIDOCAINE_LB) =>
    passed({ mass: '150 lb', solutions: { lidocaine }, given: [given] });
  expect(plan('11 cartridges of lidocaine')).toEqual([]);
  expect(plan('12 cartridges of lidocaine')).toEqual(['epinephrine']);
  expect(plan('13 cartridges of lidocaine')).toEqual(['epinephrine']);
  expect(plan('14 cartridges of lidocaine')).toEqual(['agent', 'epinephrine']);
});

test('the same patient by the lower rule, 2 mg/lb and 300 mg: 8 cartridges, the drug limits [education]', () => {
  const lidocaine = { ...LIDOCAINE_LB, perMass: '2 mg/lb', cap: '300 mg' };
  const plan = (given: string) => passed({ mass: '150 lb', solutions: { lidocaine }, given: [given] });
  expect(plan('8 cartridges of lidocaine')).toEqual([]);
  expect(plan('15 mL of lidocaine')).toEqual([]);
  expect(plan('9 cartridges of lidocaine')).toEqual(['agent']);
});

test('250 lb, 4 % articaine at 3.2 mg/lb: 11 cartridges uncapped [education], 6 with an older cap of 500 mg [computed]', () => {
  const articaine = { concentration: '40 mg/mL', cartridge: '1.8 mL', dilution: '1:100000', perMass: '3.2 mg/lb' };
  const plan = (given: string, solution: Solution = articaine) =>
    passed({ mass: '250 lb', solutions: { articaine: solution }, given: [given] });
  expect(plan('11 cartridges of articaine')).toEqual([]);
  expect(plan('12 cartridges of articaine')).toEqual(['agent_uncapped', 'epinephrine']);
  const capped = { ...articaine, cap: '500 mg' };
  expect(plan('6 cartridges of articaine', capped)).toEqual([]);
  expect(plan('7 cartridges of articaine', capped)).toEqual(['agent']);
});

test('150 lb are 68.04 kg, 4 % articaine at 7 mg/kg: 7 cartridges of 1.7 mL, 11.9 mL [articaine label]', () => {
  const articaine = { concentration: '40 mg/mL', cartridge: '1.7 mL', dilution: '1:100000', perMass: '7 mg/kg' };
  for (const mass of ['68.04 kg', '150 lb', '68 kg']) {
    const plan = (given: string) => passed({ mass, solutions: { articaine }, given: [given] });
    expect(plan('7 cartridges of articaine')).toEqual([]);
    expect(plan('11.9 mL of articaine')).toEqual([]);
    expect(plan('8 cartridges of articaine')).toEqual(['agent_uncapped']);
  }
});

test('15 kg, 3 % mepivacaine plain at 4.4 mg/kg: 66 mg, 2.2 mL, 1 whole cartridge of 1.7 mL [computed]', () => {
  const mepivacaine = { concentration: '30 mg/mL', cartridge: '1.7 mL', perMass: '4.4 mg/kg' };
  const plan = (given: string) => passed({ mass: '15 kg', solutions: { mepivacaine }, given: [given] });
  expect(plan('2.2 mL of mepivacaine')).toEqual([]);
  expect(plan('2.21 mL of mepivacaine')).toEqual(['agent_uncapped']);
  expect(plan('1 cartridge of mepivacaine')).toEqual([]);
  expect(plan('2 cartridges of mepivacaine')).toEqual(['agent_uncapped']);
});

test('70 kg at cardiac risk, 2 % lidocaine 1:50000: 13 cartridges by the drug, 1 by epinephrine [computed]', () => {
  const lidocaine = { concentration: '20 mg/mL', cartridge: '1.8 mL', dilution: '1:50000', perMass: '7 mg/kg' };
  const plan = (given: string, cardiac: boolean, solution: Solution = lidocaine) =>
    passed({ mass: '70 kg', cardiac, solutions: { lidocaine: solution }, given: [given] });
  expect(plan('1 cartridge of lidocaine', true)).toEqual([]);
  expect(plan('2 mL of lidocaine', true)).toEqual([]);
  expect(plan('2 cartridges of lidocaine', true)).toEqual(['epinephrine_cardiac']);
  // Whole cartridges under 0.2 mg of a healthy adult: 5.56 of 1.8 mL.
  expect(plan('5 cartridges of lidocaine', false)).toEqual([]);
  expect(plan('6 cartridges of lidocaine', false)).toEqual(['epinephrine']);
  const plain = { ...lidocaine, dilution: '0 ug/mL' };
  expect(plan('13 cartridges of lidocaine', true, plain)).toEqual([]);
  expect(plan('14 cartridges of lidocaine', true, plain)).toEqual(['agent_uncapped']);
});

test('any adult, 0.5 % bupivacaine, 90 mg: exactly 10 cartridges of 1.8 mL, the limit itself is kept [computed]', () => {
  const bupivacaine = { concentration: '5 mg/mL', cartridge: '1.8 mL', dilution: '1:200000', cap: '90 mg' };
  const plan = (given: string) => passed({ solutions: { bupivacaine }, given: [given] });
  expect(plan('10 cartridges of bupivacaine')).toEqual([]);
  expect(passed({ solutions: { bupivacaine }, given: Array(10).fill('1 cartridge of bupivacaine') })).toEqual([]);
  expect(plan('11 cartridges of bupivacaine')).toEqual(['agent_cap']);
});

test('90 kg, lidocaine at 7 mg/kg are 630 mg: the cap of 500 mg applies [study page]', () => {
  const lidocaine = { concentration: '20 mg/mL', perMass: '7 mg/kg', cap: '500 mg' };
  const plan = (given: string) => passed({ mass: '90 kg', solutions: { lidocaine }, given: [given] });
  expect(plan('25 mL of lidocaine')).toEqual([]);
  expect(plan('25.1 mL of lidocaine')).toEqual(['agent']);
});

test('60 kg, 72 mg of lidocaine and 204 mg of articaine are 0.657 of one ceiling; 348 mg of articaine fill it [computed; that fractions add up, from memory]', () => {
  const solutions = {
    lidocaine: { concentration: '20 mg/mL', cartridge: '1.8 mL', perMass: '7 mg/kg' },
    articaine: { concentration: '40 mg/mL', cartridge: '1.7 mL', perMass: '7 mg/kg' },
  };
  const plan = (...given: string[]) => passed({ mass: '60 kg', solutions, given });
  expect(plan('2 cartridges of lidocaine', '3 cartridges of articaine')).toEqual([]);
  // 348 mg are 8.7 mL.
  expect(plan('2 cartridges of lidocaine', '8.7 mL of articaine')).toEqual([]);
  expect(plan('2 cartridges of lidocaine', '8.71 mL of articaine')).toEqual(['together']);
  // Each alone is within 420 mg.
  expect(plan('6 cartridges of lidocaine', '4 cartridges of articaine')).toEqual(['together']);
  // 12 cartridges of lidocaine are 432 mg, over 420 mg by itself; with a second solution the shared ceiling is told as well.
  expect(plan('12 cartridges of lidocaine', '1 cartridge of articaine')).toEqual(['agent_uncapped', 'together']);
});

test('70 kg, 14 cartridges of 2 % lidocaine: 476 mg of 1.7 mL are kept, 504 mg of 1.8 mL are not [computed]', () => {
  const plan = (cartridge: string) =>
    passed({
      mass: '70 kg',
      solutions: { lidocaine: { concentration: '20 mg/mL', cartridge, perMass: '7 mg/kg' } },
      given: ['14 cartridges of lidocaine'],
    });
  expect(plan('1.7 mL')).toEqual([]);
  expect(plan('1.8 mL')).toEqual(['agent_uncapped']);
});
