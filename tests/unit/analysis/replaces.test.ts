/** A rule that replaces another is laid beside it: stricter is free, looser is told, and so is what cannot be compared. */
import { describe, expect, test } from 'vitest';
import { check, checkMend, problemsOf, readFixture } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head
source dosing_guideline "Guideline on dosing" { year 2019, strength guideline }
source ward_rules "Rules of the ward" { strength local_policy }
kind drug "medicine given" is material {
  cartridge : volume
  ceiling   : mass
  speed     : rotational speed range
  drift     : volume within -1..1 mL source common_practice
  states sealed -> open -> used
}
kind strong_drug "strong medicine" is drug
kind bed "bed" is place
kind hard_bed "hard bed" is bed
kind flat_bed "flat bed" is hard_bed
pause time_in "Time in" { takes 1 min }
pause time_on "Time on" { takes 1 min }
action inject (drug d) (volume injected) at (place p)
action turn (drug d) at (rotational speed turning)
action lay (drug d) on (bed b)
action cut (size piece) from (drug d)
action mill (place p)
action swab (place p)
`;

/** A rule of the library, one of the house that replaces it, and what is to be told in the house's. */
function pair(old: string, own: string, { severity = 'error', source = 'common_practice' } = {}): string {
  return `${KIT}
rule old "The old rule" {
${old.trim().replace(/^ */gm, '  ')}
  severity ${severity}
  why      "It is better"
  source   ${source}
}
rule ours "Our rule" {
${own.trim().replace(/^ {0,2}(?=\S)/gm, '  ')}
  severity error
  why      "We had one"
  source   ward_rules
  replaces old
}
`;
}

/** What is told of a pair: nothing (`stricter`), or the sort and the words of each. */
function told(old: string, own: string, options = {}): readonly string[] {
  return problemsOf(readFixture(pair(old, own, options))).map(({ problem }) => `${problem.code}: ${problem.message}`);
}

const looser = (about: string) => expect.stringMatching(new RegExp(`^rule_loosened: .*${about}`));
const unknown = (about: string) => expect.stringMatching(new RegExp(`^not_judged: .*${about}`));

describe('limits', () => {
  const old = 'whenever inject (drug d) (volume injected) at (place p)\nexpect injected <= 2 mL';
  const own = (limit: string) => `whenever inject (drug d) (volume injected) at (place p)\nexpect ${limit}`;

  test.each([
    'injected <= 2 mL',
    'injected <= 1.7 mL',
    'injected <= 1700 uL',
    'injected < 2 mL',
    '1.7 mL >= injected',
    'injected / 2 <= 1 mL',
    'injected + 0.3 mL <= 2 mL',
    'injected within 0.5..2 mL',
    'injected <= 2 mL and injected >= 0.1 mL',
    'injected = 1 mL',
    'injected <= min(2 mL, d.cartridge)',
    'not injected > 2 mL',
  ])('at least as strict as at most 2 mL: %s', (limit) => {
    expect(told(old, own(limit))).toEqual([]);
  });

  test.each([
    'injected <= 2.1 mL',
    'injected <= 1 L',
    'injected / 2 <= 1.2 mL',
    'injected within 0.5..3 mL',
    'injected <= 2 mL or p is bed',
    'injected <= max(2 mL, d.cartridge)',
  ])('looser than at most 2 mL: %s', (limit) => {
    expect(told(old, own(limit))).toEqual([looser('in what it expects: .* instead of injected is at most 2 mL')]);
  });

  test.each(['injected <= d.cartridge', 'injected >= 1 mL', 'injected <= d.cartridge and injected >= 1 mL'])(
    'neither: %s',
    (limit) => {
      expect(told(old, own(limit))).toEqual([unknown('in what it expects: .* against injected is at most 2 mL')]);
    },
  );

  test('under a limit is stricter than up to it, and not the other way round', () => {
    const under = old.replace('<=', '<');
    expect(told(under, own('injected < 2 mL'))).toEqual([]);
    expect(told(under, own('injected <= 2 mL'))).toEqual([looser('instead of injected is under 2 mL')]);
    expect(told(under, own('injected <= 1.9 mL'))).toEqual([]);
  });

  test('a share of what the thing says of itself is compared with another share of it', () => {
    const two = 'whenever inject (drug d) (volume injected) at (place p)\nexpect injected <= 2 * d.cartridge';
    expect(told(two, own('injected <= d.cartridge'))).toEqual([]);
    expect(told(two, own('injected <= d.cartridge + d.cartridge'))).toEqual([]);
    expect(told(two, own('injected <= 3 * d.cartridge'))).toEqual([
      looser('injected is at most 3 \\* the cartridge of medicine given \\(ward rules\\) instead of'),
    ]);
    expect(told(two, own('injected <= 2 * d.cartridge + 0.1 mL'))).toEqual([looser('instead of')]);
    expect(told(two, own('injected <= 2 * d.cartridge - 0.1 mL'))).toEqual([]);
    expect(told(two, own('injected <= d.cartridge + 1 mL'))).toEqual([unknown('against')]);
  });

  test('the lesser of two limits is stricter than either', () => {
    const lesser = own('injected <= min(2 mL, d.cartridge)');
    expect(told(lesser, own('injected <= min(d.cartridge, 1 mL)'))).toEqual([]);
    expect(told(lesser, own('injected <= 2 mL'))).toEqual([looser('instead of .*the least of 2 mL and the cartridge')]);
  });

  test('what may be below nought is compared only with the like of itself', () => {
    expect(told(own('injected <= 3 mL + d.cartridge'), own('injected <= 3 mL + d.cartridge / 2'))).toEqual([]);
    expect(told(own('injected <= 3 mL + d.drift'), own('injected <= 3 mL + d.drift / 2'))).toEqual([
      unknown('against'),
    ]);
    expect(told(own('injected <= 3 mL + d.drift'), own('injected <= 2 mL + d.drift'))).toEqual([]);
  });

  test('a range that a thing gives, and one that is written', () => {
    const range = 'whenever turn (drug d) at (rotational speed turning)\nexpect turning within d.speed';
    const narrower = (limit: string) => `whenever turn (drug x) at (rotational speed r)\nexpect ${limit}`;
    expect(told(range, narrower('r within x.speed'))).toEqual([]);
    expect(told(range, narrower('r within x.speed and r <= 40 /min'))).toEqual([]);
    expect(told(range, narrower('r <= x.speed.longest'))).toEqual([looser('instead of')]);
    const written = narrower('r within 20..40 /min');
    expect(told(written, narrower('r within 25..30 /min'))).toEqual([]);
    expect(told(written, narrower('r within 10..30 /min'))).toEqual([
      looser('rotational speed is within 10–30 rpm .* instead of rotational speed is within 20–40 rpm'),
    ]);
  });

  test('sizes by their sides', () => {
    const small = 'whenever cut (size piece) from (drug d)\nexpect piece <= 10 mm by 20 mm';
    expect(told(small, 'whenever cut (size s) from (drug d)\nexpect s <= 20 mm by 9 mm')).toEqual([]);
    expect(told(small, 'whenever cut (size s) from (drug d)\nexpect s <= 20 mm by 11 mm')).toEqual([looser('11 mm')]);
  });

  test('what is not asked for any more is told with what it was', () => {
    const both = own('injected <= 2 mL\nexpect p is bed');
    expect(told(both, own('injected <= 2 mL'))).toEqual([looser('it no longer asks for place is bed')]);
    expect(told(own('injected <= 2 mL and p is bed'), own('p is bed'))).toEqual([
      looser('it no longer asks for injected is at most 2 mL'),
    ]);
  });
});

describe('things and states', () => {
  const old = (expects: string) => `whenever lay (drug d) on (bed b)\nexpect ${expects}`;

  test('a narrower kind asked for is stricter, a narrower kind kept out is looser', () => {
    expect(told(old('b is hard_bed'), old('b is flat_bed'))).toEqual([]);
    expect(told(old('b is flat_bed'), old('b is hard_bed'))).toEqual([looser('bed is hard bed')]);
    expect(told(old('b is not flat_bed'), old('b is not hard_bed'))).toEqual([]);
    expect(told(old('b is not hard_bed'), old('b is not flat_bed'))).toEqual([looser('bed is not flat bed')]);
  });

  test('a state, and for how long', () => {
    expect(told(old('d is open for 10 min'), old('d is open for 12 min'))).toEqual([]);
    expect(told(old('d is open for 10 min'), old('d is open for 5 min'))).toEqual([looser('instead of')]);
    expect(told(old('d is open'), old('d is used'))).toEqual([unknown('against')]);
    expect(told(old('d is open for 10..20 min'), old('d is open for 12..15 min'))).toEqual([]);
    expect(told(old('d is open for 10..20 min'), old('d is open for 12 min'))).toEqual([unknown('against')]);
  });

  test('one of two may be asked for where both were free, and not the other way round', () => {
    expect(told(old('b is hard_bed or d is open'), old('b is flat_bed'))).toEqual([]);
    expect(told(old('b is hard_bed'), old('b is hard_bed or d is open'))).toEqual([looser('or')]);
  });
});

describe('which steps', () => {
  const expects = 'expect d is open';

  test('a wider kind speaks of more steps, a narrower one of fewer', () => {
    const wide = `whenever inject (drug d) (volume v) at (place p)\n${expects}`;
    const narrow = `whenever inject (strong_drug d) (volume v) at (bed p)\n${expects}`;
    expect(told(narrow, wide)).toEqual([]);
    expect(told(wide, narrow)).toEqual([looser('in which steps it speaks of')]);
  });

  test('a part that has to be there speaks of fewer steps than one that need not be named', () => {
    const any = `whenever inject (drug d)\n${expects}`;
    const placed = `whenever inject (drug d) (volume v) at (place p)\n${expects}`;
    expect(told(placed, any)).toEqual([]);
    expect(told(any, placed)).toEqual([looser('in which steps it speaks of')]);
  });

  test('where a rule speaks at all', () => {
    const where = (condition: string) => `whenever lay (drug d) on (bed b) where ${condition}\n${expects}`;
    const everywhere = `whenever lay (drug d) on (bed b)\n${expects}`;
    expect(told(where('d.cartridge > 2 mL'), where('d.cartridge > 1 mL'))).toEqual([]);
    expect(told(where('d.cartridge > 2 mL'), everywhere)).toEqual([]);
    expect(told(where('d.cartridge > 1 mL'), where('d.cartridge > 2 mL'))).toEqual([looser('where it speaks at all')]);
    expect(told(everywhere, where('d.cartridge > 2 mL'))).toEqual([looser('where it speaks at all')]);
    expect(told(where('d.cartridge > 1 mL'), where('b is hard_bed'))).toEqual([unknown('where it speaks at all')]);
  });

  test('a kind that nobody knows is told once, and not compared', () => {
    expect(told(`whenever lay (drug d)\n${expects}`, `whenever lay (syrup d)\n${expects}`)).toEqual([
      expect.stringMatching(/^unknown_kind/),
    ]);
  });

  test('another action is not comparable', () => {
    expect(told(`whenever lay (drug d) on (bed b)\n${expects}`, `whenever turn (drug d)\n${expects}`)).toEqual([
      unknown('what it asks for: "turn a drug".* against "lay a drug on a bed"'),
    ]);
  });

  test('letters may differ, and what they stand for is what is compared', () => {
    expect(
      told(
        'whenever inject (drug d) (volume injected) at (place p)\nexpect injected <= d.cartridge',
        'whenever inject (drug p) (volume d) at (place x)\nexpect d <= p.cartridge',
      ),
    ).toEqual([]);
  });
});

describe('order, pauses, number', () => {
  test('before and only after say the same; so does a pause', () => {
    expect(
      told('order swab (place p) before mill (place p)', 'order mill (place p) only after swab (place p)'),
    ).toEqual([]);
    expect(told('order mill (place p) only after pause time_in', 'pause time_in before mill (place p)')).toEqual([]);
    expect(told('pause time_in before mill (bed p)', 'pause time_in before mill (place p)')).toEqual([]);
    expect(told('pause time_in before mill (place p)', 'pause time_in before mill (bed p)')).toEqual([
      looser('which steps it speaks of'),
    ]);
  });

  test('only after is another order than after, and one pause another than the next', () => {
    expect(told('order swab (place p) only after mill (place p)', 'order swab (place p) after mill (place p)')).toEqual(
      [unknown('what it asks for: "swab a place" after .* against "swab a place" only after')],
    );
    expect(told('pause time_in before mill (place p)', 'pause time_on before mill (place p)')).toEqual([
      unknown('what comes before what: the pause "time on" .* against the pause "time in"'),
    ]);
  });

  test('in one visit is stricter than over the protocol', () => {
    const visit = 'order swab (place p) before mill (place p) in a visit';
    const protocol = 'order swab (place p) before mill (place p) in the protocol';
    expect(told(protocol, visit)).toEqual([]);
    expect(told(visit, protocol)).toEqual([looser('over how long it counts')]);
  });

  test('a narrower step that has to come before is stricter', () => {
    expect(told('order swab (place p) before mill (place p)', 'order swab (bed p) before mill (place p)')).toEqual([]);
    expect(told('order swab (bed p) before mill (place p)', 'order swab (place p) before mill (place p)')).toEqual([
      looser('what has to be done'),
    ]);
  });

  test('how often', () => {
    const often = (words: string, kind = 'place') => `count swab (${kind} p) ${words}`;
    expect(told(often('at most 3 times in a visit'), often('at most 2 times in a visit'))).toEqual([]);
    expect(told(often('at most 2 times in a visit'), often('at most 3 times in a visit'))).toEqual([
      looser('how often: at most 3 times in a visit .* instead of at most 2 times in a visit'),
    ]);
    expect(told(often('at most 2 times in a visit'), often('at most 2 times in the protocol'))).toEqual([]);
    expect(told(often('at most 2 times in the protocol'), often('at most 2 times in a visit'))).toEqual([
      looser('how often'),
    ]);
    expect(told(often('at least once in the protocol'), often('at least once in a visit'))).toEqual([]);
    expect(told(often('at least once in a visit'), often('at least once in the protocol'))).toEqual([
      looser('how often'),
    ]);
    expect(told(often('at least once in a visit'), often('exactly once in a visit'))).toEqual([]);
    expect(told(often('exactly once in a visit'), often('at least once in a visit'))).toEqual([looser('how often')]);
    expect(told(often('at most once in a visit', 'bed'), often('at most once in a visit'))).toEqual([]);
    expect(told(often('at least once in a visit', 'bed'), often('at least once in a visit'))).toEqual([
      looser('which steps'),
    ]);
    expect(told(often('at least once in a visit'), often('at least once in a visit', 'bed'))).toEqual([]);
  });
});

describe('time between, what is stated, weight', () => {
  const between = (bound: string, first = 'mill (place p)') => `between ${first} and swab (place p) ${bound}`;

  test('a longer least time and a shorter most time are stricter', () => {
    expect(told(between('at least 4 mo'), between('at least 6 mo'))).toEqual([]);
    expect(told(between('4..6 mo'), between('5..6 mo'))).toEqual([]);
    expect(told(between('at least 4 mo'), between('at least 3 mo'))).toEqual([
      looser('in the time between: at least 3 months .* instead of at least 4 months'),
    ]);
    expect(told(between('4..6 mo'), between('at least 4 mo'))).toEqual([looser('the time between')]);
  });

  test('on one and the same thing is narrower than on any two', () => {
    expect(told(between('at least 4 mo'), between('at least 4 mo', 'mill (place q)'))).toEqual([]);
    expect(told(between('at least 4 mo', 'mill (place q)'), between('at least 4 mo'))).toEqual([
      looser('two steps on one and the same'),
    ]);
  });

  test('a time at most counts from the last step: from more steps it is another time', () => {
    expect(told(between('at most 2 h', 'mill (bed q)'), between('at most 2 h', 'mill (place q)'))).toEqual([
      unknown('from which step the time counts'),
    ]);
    expect(told(between('at least 2 h', 'mill (bed q)'), between('at least 2 h', 'mill (place q)'))).toEqual([]);
  });

  test('what every entry states', () => {
    const every = (kind: string, properties: string) => `every ${kind} declares ${properties}`;
    expect(told(every('strong_drug', 'ceiling'), every('drug', 'cartridge, ceiling'))).toEqual([]);
    expect(told(every('drug', 'ceiling'), every('strong_drug', 'ceiling'))).toEqual([looser('every strong medicine')]);
    expect(told(every('drug', 'ceiling, cartridge'), every('drug', 'ceiling'))).toEqual([
      looser('in what has to be stated: ceiling .* instead of ceiling and cartridge'),
    ]);
  });

  test('less weight is looser, and an error only where the old rule is one on published ground', () => {
    const rules = (old: string, source: string, own: string) => `${KIT}
rule old "The old rule" {
  count    mill (place p) never
  severity ${old}
  why      "It is better"
  source   ${source}
}
rule ours "Our rule" {
  count    mill (place p) never
  severity ${own}
  why      "We had one"
  source   ward_rules
  replaces old
}
`;
    const severities = (old: string, source: string, own: string) =>
      problemsOf(readFixture(rules(old, source, own))).map(({ problem }) => problem.severity);
    expect(severities('warning', 'dosing_guideline', 'error')).toEqual([]);
    expect(severities('error', 'dosing_guideline', 'warning')).toEqual(['error']);
    expect(severities('error', 'common_practice', 'warning')).toEqual(['warning']);
    expect(severities('error', 'ward_rules', 'warning')).toEqual(['warning']);
    expect(severities('warning', 'dosing_guideline', 'advice')).toEqual(['warning']);
  });
});

describe('what adds up', () => {
  const total = (limit: string, head = 'for each drug d given in a visit') => `${head}\nexpect total d <= ${limit}`;

  test('a total under a lower ceiling is stricter', () => {
    expect(told(total('2 mL'), total('1 mL'))).toEqual([]);
    expect(told(total('d.cartridge'), total('min(d.cartridge, 1 mL)'))).toEqual([]);
    expect(told(total('1 mL'), total('2 mL'))).toEqual([looser('in what it expects')]);
  });

  test('of more things is stricter, of fewer looser; over another time it is another sum', () => {
    expect(told(total('2 mL', 'for each strong_drug d given in a visit'), total('2 mL'))).toEqual([]);
    expect(told(total('2 mL'), total('2 mL', 'for each strong_drug d given in a visit'))).toEqual([
      looser('what it speaks of'),
    ]);
    expect(told(total('2 mL'), total('2 mL', 'for each drug d given in the protocol'))).toEqual([
      unknown('what is added up'),
    ]);
  });
});

describe('rows, rings and pairs of replacements', () => {
  const count = (name: string, least: number, replaces?: string) => `
rule ${name} "${name}" {
  count    swab (place p) at least ${least} times in a visit
  severity error
  why      "It is better"
  source   common_practice
${replaces ? `  replaces ${replaces}\n` : ''}}
`;

  test('in a row the last one counts alone', () => {
    check(`${KIT}${count('one', 2)}${count('two', 3, 'one')}${count('three', 4, 'two')}
protocol p "P" {
  given { site : place }
  visit v "V" {
// <^^^^^^^^^ three: does not come at least 4 times
    swab site
  }
}
`);
  });

  test('a row is compared link by link, and with what stood before', () => {
    // Looser than the one it replaces, and still as strict as the first.
    const row = (last: number) =>
      problemsOf(readFixture(`${KIT}${count('one', 2)}${count('two', 4, 'one')}${count('three', last, 'two')}`)).map(
        ({ problem }) => problem.message,
      );
    expect(row(4)).toEqual([]);
    expect(row(3)).toEqual([expect.stringContaining('looser than "two", which it replaces')]);
    expect(row(1)).toEqual([
      expect.stringContaining('looser than "one", which "two" replaces'),
      expect.stringContaining('looser than "two", which it replaces'),
    ]);
  });

  test('what the rule in between has loosened is told there alone', () => {
    const found = problemsOf(
      readFixture(`${KIT}${count('one', 4)}${count('two', 2, 'one')}${count('three', 2, 'two')}`),
    );
    expect(found.map(({ problem }) => problem.message)).toEqual([expect.stringContaining('looser than "one"')]);
  });

  test('in a ring all of them count', () => {
    check(`${KIT}
rule one "one" {
  count    swab (place p) at least 2 times in a visit
  severity error
  why      "It is better"
  source   common_practice
  replaces two
  //       ^^^ rules_in_ring: "one" and "two" replace each other
}
rule two "two" {
  count    swab (place p) at least 3 times in a visit
  severity error
  why      "It is better"
  source   common_practice
  replaces one
  //       ^^^ rules_in_ring
}
protocol p "P" {
  given { site : place }
  visit v "V" {
// <^^^^^^^^^ one
// <^^^^^^^^^ two
    swab site
  }
}
`);
  });

  test('a rule that replaces itself counts', () => {
    check(`${KIT}
rule one "one" {
  count    swab (place p) at least 2 times in a visit
  severity error
  why      "It is better"
  source   common_practice
  replaces one
  //       ^^^ rules_in_ring: replaces itself
}
protocol p "P" {
  given { site : place }
  visit v "V" {
// <^^^^^^^^^ one
    swab site
  }
}
`);
  });

  test('a rule may replace one of its own name in a file in use', () => {
    check(`
// quiet: missing_head
//- house.curette
action swab (place p)
rule swabbed "Swabbed" {
  count    swab (place p) at least 2 times in a visit
  why      "It is better"
  source   common_practice
}
//- main.curette
use house
rule swabbed "Swabbed more" {
  count    swab (place p) at least 3 times in a visit
  why      "We had one"
  source   common_practice
  replaces swabbed
}
protocol p "P" {
  given { site : place }
  visit v "V" {
// <^^^^^^^^^ swabbed: at least 3 times
    swab site
  }
}
`);
  });

  const HOUSES = `
// quiet: missing_head, unused_use
//- base.curette
action swab (place p)
rule swabbed "Swabbed" {
  count    swab (place p) at least 2 times in a visit
  why      "It is better"
  source   common_practice
}
//- one.curette
use base
rule one_swabbed "Swabbed in house one" {
  count    swab (place p) at least 3 times in a visit
  why      "We had one"
  source   common_practice
  replaces swabbed
}
`;

  test('two files that each replace a rule are told of where they come together, and not above', () => {
    check(`${HOUSES}
//- two.curette
use base
rule two_swabbed "Swabbed in house two" {
  count    swab (place p) at least 4 times in a visit
  why      "We had one"
  source   common_practice
  replaces swabbed
}
//- both.curette
use one
use two
//  ^^^ rule_replaced_twice: "Swabbed in house one" and "Swabbed in house two" both replace "Swabbed"
//- main.curette
use both
`);
  });

  test('a second replacement can replace the first instead', () => {
    const second = (target: string) => `//- two.curette
use base
use one
rule two_swabbed "Swabbed in house two" {
  count    swab (place p) at least 4 times in a visit
  why      "We had one"
  source   common_practice
  replaces ${target}
}
`;
    checkMend(`${HOUSES}${second('swab$0bed')}`, 'Replace "Swabbed in house one" instead', second('one_swabbed'));
  });

  test('a rule takes the place of one', () => {
    check(`${KIT}${count('one', 2)}${count('two', 2)}
rule three "three" {
  count    swab (place p) at least 3 times in a visit
  why      "It is better"
  severity error
  source   common_practice
  replaces one
  replaces two
//^^^^^^^^^^^^ not_judged: a second rule that is replaced
}
`);
  });
});

describe('mends', () => {
  test('the stricter value is taken over in the letters of the new rule', () => {
    const rule = (limit: string) => `
use std/oral
use std/anaesthesia
source house "House rules" { strength local_policy }
rule ours "Ours" {
  whenever inject (anaesthetic a) (volume v) at (tooth t)
  expect   ${limit}
  severity warning
  why      "We had one"
  source   house
  replaces injection_at_a_tooth_is_small
}
`;
    checkMend(rule('v <= 3 * a.cartridge'), 'Take over "v <= 2 * a.cartridge"', rule('v <= 2 * a.cartridge'));
  });

  test('weight, number, time and what is not asked for any more', () => {
    const options = { source: 'dosing_guideline' };
    const mended = (old: string, own: string, title: string, now: string) =>
      checkMend(pair(old, own, options), title, pair(old, now, options));
    mended(
      'count swab (place p) never',
      'count swab (place q) at most once in a visit',
      'Take over "never"',
      'count swab (place q) never',
    );
    mended(
      'between mill (place p) and swab (place p) at least 4 mo',
      'between mill (place x) and swab (place x) at least 3 mo',
      'Take over "at least 4 mo"',
      'between mill (place x) and swab (place x) at least 4 mo',
    );
    mended(
      'order swab (place p) before mill (place p)',
      'order swab (place p) before mill (bed p)',
      'Take over "place"',
      'order swab (place p) before mill (place p)',
    );
  });

  test('a line that is not there yet is added', () => {
    const rule = (name: string, lines: string) => `
rule ${name} "${name}" {
  whenever lay (drug d) on (bed b)
  expect   d is open
${lines}  why      "It is better"
  source   ward_rules
`;
    const old = `${KIT}${rule('old', '  expect   b is hard_bed\n  severity error\n')}}\n`;
    const own = (last: string, more = '') => `${old}${rule('ours', more)}  replaces old\n${last}}\n`;
    checkMend(
      own('', '  severity error\n'),
      'Add "expect   b is hard_bed"',
      own('  expect   b is hard_bed\n', '  severity error\n'),
    );
    checkMend(
      own('  expect   b is hard_bed\n'),
      'Add "severity error"',
      own('  expect   b is hard_bed\n  severity error\n'),
    );
  });

  test('the line is taken away, and both rules count', () => {
    const own = 'count swab (place q) at most once in a visit';
    const before = pair('count swab (place p) never', own);
    checkMend(before, 'Remove "replaces old": both rules count then', before.replace('  replaces old\n', ''));
  });
});
