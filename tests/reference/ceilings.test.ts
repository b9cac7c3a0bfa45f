/**
 * Every ceiling, concentration and vasoconstrictor content of the shipped local anaesthetics against the tables they came
 * from, and published dose calculations worked again from the library's figures. For checking the library; no advice.
 *
 * Sources:
 * - HANDBOOK: Malamed SF, Handbook of Local Anesthesia, tables of maximum recommended doses and of mg per cartridge.
 * - LABELS: United States prescribing information of articaine 4 % (2023), lidocaine 2 % with epinephrine, lidocaine plain
 *   (2026), mepivacaine 3 % and 2 % (2017).
 * - CANADA: table of Canadian maxima after Haas and Lennon, PMC9379193, with its calculation for a child of 20 kg.
 * - PAEDIATRIC: American Academy of Pediatric Dentistry, Use of Local Anesthesia for Pediatric Dental Patients (table from
 *   memory), read beside an Australian dental dose table of 2011.
 * - VASOCONSTRICTOR: 0.2 mg and 0.04 mg of epinephrine as dental teaching repeats them (secondary); levonordefrin from memory.
 * - ARTICLE: a continuing-education article on maximum recommended doses, whose calculations are by the pound.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { forEachStatement, parse, type Statement } from '@curette/grammar';
import { describe, expect, test } from 'vitest';

/** What one entry, or one line of a set, states: by property, the number with its unit and the source's name. */
type Stated = Readonly<Record<string, { readonly value: number; readonly unit: string; readonly source: string }>>;

const library = readLibrary();
const KG_PER_LB = 0.45359237;

describe('solutions, in mg of the salt and ug of vasoconstrictor', () => {
  // Percent weight by volume times 10 is mg/mL; 1:N is 1 g in N mL. Contents as in the tables of HANDBOOK (1.8 mL) and LABELS (1.7 mL).
  const table = [
    { entry: 'articaine_4_with_epinephrine', mgPerMl: 40, ugPerMl: 10, per17: [68, 17], per18: [72, 18] },
    { entry: 'articaine_4_with_less_epinephrine', mgPerMl: 40, ugPerMl: 5, per17: [68, 8.5], per18: [72, 9] },
    { entry: 'lidocaine_2_with_epinephrine', mgPerMl: 20, ugPerMl: 10, per17: [34, 17], per18: [36, 18] },
    { entry: 'lidocaine_2_with_more_epinephrine', mgPerMl: 20, ugPerMl: 20, per17: [34, 34], per18: [36, 36] },
    { entry: 'mepivacaine_3_plain', mgPerMl: 30, ugPerMl: 0, per17: [51, 0], per18: [54, 0] },
    { entry: 'mepivacaine_2_with_levonordefrin', mgPerMl: 20, ugPerMl: 50, per17: [34, 85], per18: [36, 90] },
    { entry: 'prilocaine_4_plain', mgPerMl: 40, ugPerMl: 0, per17: [68, 0], per18: [72, 0] },
    { entry: 'prilocaine_4_with_epinephrine', mgPerMl: 40, ugPerMl: 5, per17: [68, 8.5], per18: [72, 9] },
    { entry: 'bupivacaine_with_epinephrine', mgPerMl: 5, ugPerMl: 5, per17: [8.5, 8.5], per18: [9, 9] },
  ] as const;
  /** From an ampoule, so not in the tables of cartridges: common practice. */
  const ampoules = [
    { entry: 'lidocaine_1_with_epinephrine', mgPerMl: 10, ugPerMl: 5 },
    { entry: 'lidocaine_2_plain', mgPerMl: 20, ugPerMl: 0 },
  ] as const;

  test('every local anaesthetic of the library is in the tables', () => {
    expect([...library.entries.keys()].sort()).toEqual([...table, ...ampoules].map(({ entry }) => entry).sort());
  });

  test.each([...table, ...ampoules])('$entry is as strong as its name says', ({ entry, mgPerMl, ugPerMl }) => {
    expect(strength(entry)).toEqual({ mgPerMl, ugPerMl });
  });

  test.each(table)('a cartridge of $entry holds what the tables say', ({ entry, per17, per18 }) => {
    const { mgPerMl, ugPerMl } = strength(entry);
    for (const [volume, [mg, ug]] of [[1.7, per17] as const, [1.8, per18] as const]) {
      expect(mgPerMl * volume).toBeCloseTo(mg, 9);
      expect(ugPerMl * volume).toBeCloseTo(ug, 9);
    }
    expect([1.7, 1.8]).toContain(figure(library.entries.get(entry), 'cartridge', 'mL'));
  });
});

describe('ceilings', () => {
  /** Each row: mg/kg and mg altogether; `undefined` where the table has none. */
  type Row = readonly [perKg: number | undefined, altogether: number | undefined];
  const sets: readonly (readonly [set: string, rows: Readonly<Record<string, Row>>])[] = [
    [
      'label_ceilings', // LABELS, and HANDBOOK where they are silent
      {
        articaine_4_with_epinephrine: [7, 500], // 500 mg: HANDBOOK and older leaflets; none on the label of 2023
        articaine_4_with_less_epinephrine: [7, 500],
        lidocaine_2_with_epinephrine: [7, 500],
        lidocaine_2_with_more_epinephrine: [7, 500],
        lidocaine_1_with_epinephrine: [7, 500],
        lidocaine_2_plain: [4.5, 300],
        mepivacaine_3_plain: [6.6, 400],
        mepivacaine_2_with_levonordefrin: [6.6, 400],
        prilocaine_4_plain: [8, 600],
        prilocaine_4_with_epinephrine: [8, 600],
        bupivacaine_with_epinephrine: [undefined, 90],
      },
    ],
    [
      'paediatric_ceilings', // PAEDIATRIC, from memory
      {
        articaine_4_with_epinephrine: [7, 500],
        articaine_4_with_less_epinephrine: [7, 500],
        lidocaine_2_with_epinephrine: [4.4, 300],
        lidocaine_2_with_more_epinephrine: [4.4, 300],
        lidocaine_1_with_epinephrine: [4.4, 300],
        mepivacaine_3_plain: [4.4, 300],
        mepivacaine_2_with_levonordefrin: [4.4, 300],
        prilocaine_4_plain: [6, 400],
        prilocaine_4_with_epinephrine: [6, 400],
        bupivacaine_with_epinephrine: [1.3, 90],
      },
    ],
    [
      'canadian_ceilings', // CANADA
      {
        articaine_4_with_epinephrine: [7, 500],
        articaine_4_with_less_epinephrine: [7, 500],
        lidocaine_2_with_epinephrine: [7, 500],
        lidocaine_2_with_more_epinephrine: [7, 500],
        lidocaine_1_with_epinephrine: [7, 500],
        mepivacaine_3_plain: [6.6, 400],
        mepivacaine_2_with_levonordefrin: [6.6, 400],
        prilocaine_4_plain: [8, 500],
        prilocaine_4_with_epinephrine: [8, 500],
        bupivacaine_with_epinephrine: [2, 200], // HANDBOOK has 90 mg: the sources disagree
      },
    ],
  ];

  test('every set of ceilings of the library is checked', () => {
    expect(groupOf('ceilings')).toEqual(sets.map(([set]) => set).sort());
    expect(groupOf('vasoconstrictor_ceilings')).toEqual(['dental_vasoconstrictor_ceilings']);
  });

  test.each(sets)('%s states what its table states, and nothing else', (set, rows) => {
    const stated = Object.fromEntries(
      [...(library.sets.get(set)?.lines ?? [])].map(([name, line]) => [
        name,
        [figure(line, 'ceiling_per_mass', 'mg/kg'), figure(line, 'ceiling', 'mg')],
      ]),
    );
    expect(stated).toEqual(rows);
  });

  test('every figure of a set names where it comes from', () => {
    for (const { lines } of library.sets.values())
      for (const [name, line] of lines)
        for (const [property, { source }] of Object.entries(line))
          expect(source, `${property} of ${name}`).toMatch(/_label$|_handbook$|_table$|_guideline$|_advice$/);
  });

  test('no solution states a ceiling of its own beside the sets', () => {
    for (const [name, entry] of library.entries)
      expect(
        Object.keys(entry).filter((property) => property.includes('ceiling')),
        name,
      ).toEqual([]);
  });

  test('what vasoconstrictor may be given is less where the heart is at risk', () => {
    const stated = library.sets.get('dental_vasoconstrictor_ceilings')?.lines;
    const both = (line: string) =>
      ['vasoconstrictor_ceiling', 'vasoconstrictor_ceiling_at_cardiac_risk'].map((name) =>
        figure(stated?.get(line), name, 'mg'),
      );
    expect([...(stated?.keys() ?? [])]).toEqual([
      'anaesthetic_with_vasoconstrictor',
      'mepivacaine_2_with_levonordefrin',
    ]);
    expect(both('anaesthetic_with_vasoconstrictor')).toEqual([0.2, 0.04]); // VASOCONSTRICTOR
    expect(both('mepivacaine_2_with_levonordefrin')).toEqual([1, 0.2]); // from memory
  });
});

describe('published calculations come out of the library’s figures', () => {
  test('CANADA: 20 kg, lidocaine 2 %: 140 mg, 7 mL, 3.9 cartridges of 1.8 mL', () => {
    const mg = most('canadian_ceilings', 'lidocaine_2_with_epinephrine', 20);
    expect(mg).toBeCloseTo(140, 9);
    expect(mg / 20).toBeCloseTo(7, 9);
    expect(cartridges('canadian_ceilings', 'lidocaine_2_with_epinephrine', 20, 1.8)).toBeCloseTo(3.9, 1);
  });

  test('LABELS: 150 lb, articaine 4 %: 7 cartridges of 1.7 mL, 11.9 mL', () => {
    const whole = Math.floor(cartridges('label_ceilings', 'articaine_4_with_epinephrine', 150 * KG_PER_LB, 1.7));
    expect(whole).toBe(7);
    expect(whole * 1.7).toBeCloseTo(11.9, 9);
  });

  test('ARTICLE: 150 lb, lidocaine 2 % 1:100000: the solution allows 13 cartridges, epinephrine 11', () => {
    const drug = cartridges('label_ceilings', 'lidocaine_2_with_epinephrine', 150 * KG_PER_LB, 1.8);
    expect(Math.floor(drug)).toBe(13);
    expect(Math.floor(vasoconstrictorCartridges('lidocaine_2_with_epinephrine', 1.8))).toBe(11);
  });

  test('ARTICLE: 150 lb by the lower ceiling: 300 mg, 8 cartridges', () => {
    expect(most('paediatric_ceilings', 'lidocaine_2_with_epinephrine', 150 * KG_PER_LB)).toBeCloseTo(299.4, 1);
    expect(Math.floor(cartridges('paediatric_ceilings', 'lidocaine_2_with_epinephrine', 150 * KG_PER_LB, 1.8))).toBe(8);
  });

  test('ARTICLE: 250 lb, articaine 4 % under the older 500 mg: 6 cartridges, not 7', () => {
    const exact = cartridges('label_ceilings', 'articaine_4_with_epinephrine', 250 * KG_PER_LB, 1.8);
    expect(exact).toBeCloseTo(6.94, 2);
    expect(Math.floor(exact)).toBe(6);
  });

  test('a study text: 90 kg, lidocaine: 630 mg by mass, so 500 mg', () => {
    expect(most('label_ceilings', 'lidocaine_2_with_epinephrine', 90)).toBe(500);
  });

  test('HANDBOOK: bupivacaine, 90 mg: exactly 10 cartridges of 1.8 mL', () => {
    const altogether = figure(line('label_ceilings', 'bupivacaine_with_epinephrine'), 'ceiling', 'mg') ?? Number.NaN;
    expect(altogether / (strength('bupivacaine_with_epinephrine').mgPerMl * 1.8)).toBeCloseTo(10, 9);
  });

  // Whole cartridges at 200 and 40 ug of epinephrine, computed from VASOCONSTRICTOR and the dilutions.
  test.each([
    ['lidocaine_2_with_more_epinephrine', 1.7, 5, 1],
    ['lidocaine_2_with_more_epinephrine', 1.8, 5, 1],
    ['lidocaine_2_with_epinephrine', 1.7, 11, 2],
    ['lidocaine_2_with_epinephrine', 1.8, 11, 2],
    ['articaine_4_with_less_epinephrine', 1.7, 23, 4],
    ['articaine_4_with_less_epinephrine', 1.8, 22, 4],
  ])('%s in cartridges of %f mL: %i, and %i where the heart is at risk', (entry, volume, healthy, atRisk) => {
    expect(Math.floor(vasoconstrictorCartridges(entry, volume))).toBe(healthy);
    expect(Math.floor(vasoconstrictorCartridges(entry, volume, 'vasoconstrictor_ceiling_at_cardiac_risk'))).toBe(
      atRisk,
    );
  });

  test('two agents share one budget: 72 mg of lidocaine and 204 mg of articaine in 60 kg are 0.657 of it', () => {
    const lidocaine = (2 * 20 * 1.8) / most('label_ceilings', 'lidocaine_2_with_epinephrine', 60);
    const articaine = (3 * 40 * 1.7) / most('label_ceilings', 'articaine_4_with_epinephrine', 60);
    expect(lidocaine + articaine).toBeCloseTo(0.657, 3);
  });
});

function line(set: string, entry: string): Stated {
  const found = library.sets.get(set)?.lines.get(entry);
  if (!found) throw new Error(`${set} says nothing of ${entry}`);
  return found;
}

/** The most of a solution in mg, for a body mass in kg. */
function most(set: string, entry: string, kg: number): number {
  const stated = line(set, entry);
  const perKg = figure(stated, 'ceiling_per_mass', 'mg/kg');
  const altogether = figure(stated, 'ceiling', 'mg');
  if (perKg === undefined || altogether === undefined) throw new Error(`${set} leaves ${entry} open`);
  return Math.min(perKg * kg, altogether);
}

function cartridges(set: string, entry: string, kg: number, ml: number): number {
  return most(set, entry, kg) / (strength(entry).mgPerMl * ml);
}

function vasoconstrictorCartridges(entry: string, ml: number, ceiling = 'vasoconstrictor_ceiling'): number {
  const mg = figure(line('dental_vasoconstrictor_ceilings', 'anaesthetic_with_vasoconstrictor'), ceiling, 'mg');
  return ((mg ?? Number.NaN) * 1000) / (strength(entry).ugPerMl * ml);
}

function strength(entry: string): { readonly mgPerMl: number; readonly ugPerMl: number } {
  const stated = library.entries.get(entry);
  return {
    mgPerMl: figure(stated, 'concentration', 'mg/mL') ?? Number.NaN,
    ugPerMl: figure(stated, 'dilution', 'ug/mL') ?? 0,
  };
}

function figure(stated: Stated | undefined, property: string, unit: string): number | undefined {
  const found = stated?.[property];
  if (!found) return undefined;
  expect(found.unit, property).toBe(unit);
  return found.value;
}

function groupOf(group: string): string[] {
  return [...library.sets].flatMap(([name, set]) => (set.group === group ? [name] : [])).sort();
}

/** The anaesthetics and the sets of ceilings as they are written in the shipped library. */
function readLibrary() {
  const text = readFileSync(join(import.meta.dirname, '../../shared/library/anaesthesia.curette'), 'utf8');
  const entries = new Map<string, Stated>();
  const sets = new Map<string, { readonly group: string; readonly lines: Map<string, Stated> }>();
  forEachStatement(parse(text), (statement) => {
    if (statement.type === 'entry' && statement.group.text.startsWith('anaesthetic') && statement.name)
      entries.set(statement.name.text, statedIn(statement.body?.items));
    if (statement.type === 'figures' && statement.name && statement.group)
      sets.set(statement.name.text, {
        group: statement.group.text,
        lines: new Map(
          (statement.body?.items ?? []).flatMap((item) =>
            item.type === 'figure' ? [[item.name.text, statedIn(item.body?.items)]] : [],
          ),
        ),
      });
  });
  return { entries, sets };
}

function statedIn(items: readonly Statement[] = []): Stated {
  return Object.fromEntries(
    items.flatMap((item) => {
      if (item.type !== 'value') return [];
      const [value] = item.values;
      if (value?.type !== 'quantity' || !value.low) return [];
      const source = item.source?.text ?? '';
      if (value.form === 'ratio' && value.high)
        return [[item.name.text, { value: 1_000_000 / value.high.value, unit: 'ug/mL', source }]];
      if (value.form !== 'plain') return [];
      return [[item.name.text, { value: value.low.value, unit: value.low.unit?.text ?? '', source }]];
    }),
  );
}
