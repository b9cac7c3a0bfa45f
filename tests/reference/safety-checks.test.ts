/**
 * The safety pauses, the throat pack, instruments and steam of the library against the documents they came from. What is `from memory`
 * was not read in its source, and is marked so in the library as well.
 */
import { describe, expect, test } from 'vitest';
import { problemsOf, readFixture } from '../support/fixture.ts';
import { declarations, declared, stated } from './library-values.ts';

const PERIOPERATIVE = 'std/perioperative';
const REPROCESSING = 'std/reprocessing';

/**
 * World Health Organization, Surgical Safety Checklist and implementation manual, 2009: 3 pauses, 19 items (7, 7 and 5), in their order;
 * each by the words that carry it.
 */
const PUBLISHED = {
  sign_in: [
    /who they are.*to be done.*side.*consent/,
    /site.* marked/i,
    /drugs.*checked.*anaesthesia equipment checked/i,
    /pulse oximeter on and working/i,
    /allergies asked/i,
    /difficult airway or aspiration risk/i,
    // More than 500 mL, in children 7 mL/kg.
    /blood loss over 500 mL \(7 mL\/kg in a child\).*line.*fluid/i,
  ],
  time_out: [
    /name and role/i,
    /patient, procedure and site aloud/i,
    /critical steps.*how long.*bleeding/i,
    /anaesthesia: concerns/i,
    /sterility indicators.*instruments/i,
    /antibiotic given within the last 60 min, or not needed/i,
    /image.*on the screen/i,
  ],
  sign_out: [
    /was done.*written down/i,
    /swabs.*needles.*instruments counted/i,
    /specimens labelled with the patient's name/i,
    /equipment that failed/i,
    /recovery/i,
  ],
};

describe('the published checklist stands in the pauses', () => {
  test.each(Object.entries(PUBLISHED))('%s has its items first, in their order', (pause, items) => {
    const own = declared(PERIOPERATIVE, `pause ${pause}`).lines.get('item') ?? [];
    expect(own.length).toBeGreaterThan(items.length);
    for (const [at, words] of items.entries()) expect(own[at]).toMatch(words);
    expect(stated(PERIOPERATIVE, `pause ${pause}`, 'source')).toBe('safe_surgery_checklist');
  });

  test('they are 19: 7, 7 and 5', () => {
    expect(Object.values(PUBLISHED).map((items) => items.length)).toEqual([7, 7, 5]);
  });

  test('the throat pack is asked for at sign out', () => {
    expect(declared(PERIOPERATIVE, 'pause sign_out').lines.get('item')?.join(' ')).toMatch(/throat pack out/i);
  });
});

describe('counts: International Federation of Perioperative Nurses, guideline 1002', () => {
  const items = declared(PERIOPERATIVE, 'pause closing_count').lines.get('item')?.join('\n') ?? '';
  test.each([
    ['two people, aloud, both viewing', /two people, aloud, both looking/i],
    ['items fully separated', /each piece apart/],
    ['an interrupted count restarts', /interrupted, it begins again/],
    ['same sequence: sponges, sharps, miscellaneous, instruments', /swabs, sharps, small things, instruments/],
    ['at the site, near stand, back table, then discarded', /wound, stand, table, bin/],
  ])('%s', (_, words) => expect(items).toMatch(words));

  // Association of periOperative Registered Nurses, answer of 2 December 2015.
  test('one too many is a wrong count as well', () => {
    expect(declared(PERIOPERATIVE, 'pause closing_count').doc).toMatch(/one too many is a wrong count/i);
  });
});

test('six classes of physical status, I to VI: American Society of Anesthesiologists', () => {
  const classes = [...declared(PERIOPERATIVE, 'finding physical_status').lines.values()].flat();
  expect(classes.map((line) => /^"(I|II|III|IV|V|VI): /.exec(line)?.[1])).toEqual(['I', 'II', 'III', 'IV', 'V', 'VI']);
});

/** Centers for Disease Control and Prevention, Guideline for Disinfection and Sterilization, 2008, and its dental examples of each class. */
describe('how clean: by what is touched', () => {
  test.each([
    ['std/oral', 'extraction_instrument extraction_forceps', 'critical'],
    ['std/wound', 'blade rounded_blade', 'critical'],
    ['std/oral', 'bur round_bur', 'critical'],
    ['std/implants', 'pilot_drill pilot_drill_20', 'critical'],
    ['std/oral', 'handpiece air_turbine', 'semicritical'],
    [REPROCESSING, 'instrument_set examination_set', 'semicritical'],
    [PERIOPERATIVE, 'monitor blood_pressure_cuff', 'noncritical'],
    [REPROCESSING, 'instrument_set surface_set', 'noncritical'],
  ])('%s, %s: %s', (file, entry, contact) => {
    expect(stated(file, entry, 'contact')).toBe(contact);
  });
});

/** The same guideline, table 7: wrapped instruments. */
describe('steam: method, temperature and time are one', () => {
  const told = (steriliser: string, heat: number, held: number) =>
    problemsOf(
      readFixture(`// quiet: missing_head, never_used
use std/reprocessing
protocol p "P" {
  team { circulating_nurse }
  instruments { surgical_set, gravity_steam, prevacuum_steam }
  visit v "V" {
    clean surgical_set
    wrap surgical_set
    sterilise surgical_set in ${steriliser} at ${heat} °C through ${held} min
    release surgical_set
  }
}
`),
    ).map(({ problem }) => problem.rule ?? problem.message);

  test.each([
    ['gravity_steam', 121, 30, 'gravity_steam_at_121'],
    ['gravity_steam', 132, 15, 'gravity_steam_at_132'],
    ['prevacuum_steam', 132, 4, 'prevacuum_steam_at_132'],
  ] as const)('%s at %d °C: %d min, and no less', (steriliser, heat, held, rule) => {
    expect(told(steriliser, heat, held)).toEqual([]);
    expect(told(steriliser, heat, held - 1)).toEqual([rule]);
  });

  // 121 Cel is no row of the prevacuum method; 132 Cel for 4 min is none of gravity.
  test.each([
    ['prevacuum_steam', 121, 30, 'prevacuum_steam_at_132'],
    ['gravity_steam', 132, 4, 'gravity_steam_at_132'],
    ['gravity_steam', 115, 60, 'gravity_steam_at_121'],
  ] as const)('%s at %d °C for %d min is no cycle', (steriliser, heat, held, rule) => {
    expect(told(steriliser, heat, held)).toEqual([rule]);
  });

  test.each([
    ['gravity_steriliser gravity_steam', '15..30 min'],
    ['prevacuum_steriliser prevacuum_steam', '20..30 min'],
  ])('%s dries for %s', (entry, drying) => {
    expect(stated(REPROCESSING, entry, 'drying')).toBe(drying);
  });

  test.each([
    ['disinfectant glutaraldehyde', '20 min'],
    ['disinfectant orthophthalaldehyde', '12 min'],
  ])('%s: %s, from memory', (entry, time) => {
    expect(stated(REPROCESSING, entry, 'contact_time')).toBe(time);
    expect(declared(REPROCESSING, entry).doc).toMatch(/from memory/);
  });
});

/** Digests of instructions for use; what is marked so is from memory. */
describe('sutures hold', () => {
  test.each([
    // In the mouth, from memory: plain 3-5 d, chromic 7-10 d.
    ['resorbable_suture plain_gut', '3..5 d', /from memory/],
    ['resorbable_suture chromic_gut', '7..10 d', /from memory/],
    // About 65 % at 14 d.
    ['resorbable_suture braided_polyglactin', '14..21 d', /two thirds.*14 d/],
    // 50 % at 5 d, none by 10-14 d, from memory.
    ['resorbable_suture fast_polyglactin', '5..10 d', /from memory/],
    // 50-60 % at 7 d.
    ['resorbable_suture poliglecaprone', '7..14 d', /half.*7 d/i],
    // 70 % at 14 d.
    ['resorbable_suture polydioxanone', '4..6 wk', /70 %.*14 d.*from memory/],
  ])('%s: %s', (entry, holds, doc) => {
    expect(stated('std/wound', entry, 'holds')).toBe(holds);
    expect(declared('std/wound', entry).doc).toMatch(doc);
  });

  test('each that does not go by itself has to come out', () => {
    const kinds = ['nylon', 'polypropylene', 'polytetrafluoroethylene', 'silk'];
    for (const name of kinds) declared('std/wound', `nonresorbable_suture ${name}`);
    expect(stated('std/wound', 'kind nonresorbable_suture', 'must')).toBe('end unused or removed by end of protocol');
  });

  test('in the mouth they come out after 7 to 14 days: from memory', () => {
    const removal = declarations('std/wound').find(({ headline }) =>
      /^action remove "Remove sutures".*mucosa/.test(headline),
    );
    expect(removal?.declared.lines.get('needs')?.[0]).toMatch(/^s in_tissue for 7\.\.14 d /);
    expect(removal?.declared.doc).toMatch(/from memory/);
  });
});
