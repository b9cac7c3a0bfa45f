/** Times as they are written: what is read from them, what is refused, and what is wrong with them whatever the order of work. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Duration } from '../../../server/src/analysis/model.ts';
import { durationOf } from '../../../server/src/analysis/protocol/durations.ts';
import { forEachFlow } from '../../../server/src/analysis/protocol/flow.ts';
import { check, checkMend, checkNoMend, factsOf, problemsOf, readFixture } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged, never_used
kind graft "graft" is material {
  soak   : time range
  bulk   : volume
  states dry -> wetted -> packed
  wetted lasts at most soak.longest, then dried_out
}
kind cement "cement" is material {
  states mixed -> placed
  mixed  lasts at most 4 min, then set source common_practice
  states set -> trimmed
}
action wet (graft g) {
  makes g wetted
  takes 1..3 min usually 2 min
}
action pack (graft g) {
  needs g wetted
  makes g packed
  takes 5..10 min usually 7 min
}
action trim (cement c) {
  needs c set
  makes c trimmed
}
action look (place p)
pause count "Count" {
  item  "Swabs"
  takes 1..2 min usually 1 min
}
`;

/** One visit of the lines, with a graft, a cement and a site. */
const visit = (lines: string, soak = '10..60 min') => `${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak ${soak} }, c : cement }
  visit v "V" {
${lines}
  }
}
`;

/** How long each line of a visit takes, in seconds. */
function durations(lines: string): readonly Duration[] {
  const facts = factsOf(readFixture(visit(lines)))('main.curette');
  return (facts?.protocols[0]?.visits[0]?.items ?? []).map((flow) => flow.duration);
}

describe('what is read', () => {
  test('a step takes what its action does, with what that usually takes', () => {
    expect(durations('wet g')).toEqual([{ lo: 60, hi: 180, stated: true, usual: 120 }]);
  });

  test("a step's own time takes the place of its action's, the usual time with it", () => {
    expect(durations('wet g takes 2 min')).toEqual([{ lo: 120, hi: 120, stated: true }]);
    expect(durations('wet g takes 2..9 min usually 5 min')).toEqual([{ lo: 120, hi: 540, stated: true, usual: 300 }]);
  });

  test('a pause and the lines that are no steps say it likewise', () => {
    expect(durations('pause count')).toEqual([{ lo: 60, hi: 120, stated: true, usual: 60 }]);
    expect(durations('pause count takes 3 min')).toEqual([{ lo: 180, hi: 180, stated: true }]);
    const usual = { lo: 60, hi: 180, stated: true, usual: 120 };
    expect(durations('verify "Dry" otherwise "Dry it" takes 1..3 min usually 2 min')).toEqual([usual]);
    expect(durations('instruct "Bite" takes 1..3 min usually 2 min')).toEqual([usual]);
    expect(durations('record photograph "Site" takes 1..3 min usually 2 min')).toEqual([usual]);
  });

  test('a check, a decision, an instruction or a record that says nothing is over at once', () => {
    const instant = { lo: 0, hi: 0, stated: true };
    expect(durations('verify "Dry" otherwise "Dry it"\ninstruct "Bite"\nrecord photograph "Site"')).toEqual([
      instant,
      instant,
      instant,
    ]);
  });

  test('exactly five minutes are five minutes; no longest and no shortest time are endless and nought', () => {
    expect(durations('wait exactly 5 min\nwait 5 min\nwait at least 5 min\nwait at most 5 min\nwait 1..5 min')).toEqual(
      [
        { lo: 300, hi: 300, stated: true },
        { lo: 300, hi: 300, stated: true },
        { lo: 300, hi: Number.POSITIVE_INFINITY, stated: false },
        { lo: 0, hi: 300, stated: true },
        { lo: 60, hi: 300, stated: true },
      ],
    );
  });

  test('what is the same time in two units lies at the end of its range', () => {
    expect(durations('look site takes 6 min..0.2 h usually 12 min')).toEqual([
      { lo: 360, hi: 720, stated: true, usual: 720 },
    ]);
    check(visit('    look site takes 0.1 h usually 6 min'));
  });
});

describe('a usual time', () => {
  test('lies within what it may take', () => {
    check(
      visit(`    look site takes 10..20 min usually 9 min
    //                                 ^^^^^ usual_outside_range: if it takes 10–20 min
    look site takes at most 20 min usually 30 min
    //                                     ^^^^^^ usual_outside_range
    look site takes at least 20 min usually 10 min
    //              ^^^^^^^^^^^^^^^ endless_time
    //                                      ^^^^^^ usual_outside_range
    look site takes 10 min usually 12 min
    //                             ^^^^^^ usual_outside_range
    pause count takes 1..2 min usually 1 h
    //                                 ^^^ usual_outside_range
    look site takes 10..20 min usually 20 min
    look site takes 10 min usually 10 min
    look site takes at least 20 min usually 30 min
    //              ^^^^^^^^^^^^^^^ endless_time`),
    );
  });

  test('is one time, by the clock', () => {
    check(
      visit(`    look site takes 10..20 min usually at least 12 min
    //                                 ^^^^^^^^^^^^^^^ usual_as_range
    look site takes 10..20 min usually 1 mo
    //                                 ^^^^ calendar_in_visit
    look site takes 10..20 min usually 12 mm
    //                                 ^^^^^ wrong_measure: "usually" wants a time
    look site takes 10..20 min usually -12 min
    //                                 ^^^^^^^ negative_time
    look site takes 10..20 min usually 18..12 min
    //                                 ^^^^^^^^^^ reversed_range
    look site takes 10..20 min usually exactly 12 min`),
    );
  });

  test('does not count when it is wrong', () => {
    expect(durations('look site takes 10..20 min usually 30 min')).toEqual([{ lo: 600, hi: 1200, stated: true }]);
    expect(durations('look site takes 10..20 min usually 12..14 min')).toEqual([{ lo: 600, hi: 1200, stated: true }]);
  });

  test.each([
    ['10..20 min usually 30 min', '10..30 min'],
    ['10..20 min usually 5 min', '5..20 min'],
    ['10..20 min usually 1 h', '10 min..1 h'],
    ['15 min..1 h usually 5 min', '5 min..1 h'],
    ['exactly 15 min usually 5 min', '5..15 min'],
    ['at most 15 min usually 20 min', 'at most 20 min'],
  ])('widens what it may take where it is the true one: %s', (written, wider) => {
    const [, usual = ''] = written.split(' usually ');
    checkMend(
      visit(`    look site takes ${written}`),
      `Widen to "${wider}"`,
      visit(`    look site takes ${wider} usually ${usual}`),
    );
  });

  test('is left out', () => {
    checkMend(
      visit('    look site takes 10..20 min usually 30 min by surgeon'),
      'Leave out the usual time',
      visit('    look site takes 10..20 min by surgeon'),
    );
  });
});

describe('a time of nought', () => {
  test('is told of whatever takes it', () => {
    check(
      visit(`    look site takes 0 min
    //              ^^^^^ zero_time (warning)
    look site takes at most 0 min
    //              ^^^^^^^^^^^^^ zero_time (warning)
    pause count takes 0 s
    //                ^^^ zero_time (warning)
    record photograph "Site" takes 0 min
    //                             ^^^^^ zero_time (advice)
    wait 0 min
    //   ^^^^^ zero_time (warning)
    wet g
    wait until g is wetted for 0 min
    //                         ^^^^^ zero_time (warning)
    look site takes 0..1 min
    wait at most 1 min`),
    );
  });

  test('says nothing of how old a state is to be, and leaves no time for it to last', () => {
    check(`
kind graft "graft" is material {
  states dry -> wetted
  wetted lasts at most 0 min, then dried_out source common_practice
  //                   ^^^^^ zero_time (warning)
}
action pack (graft g) {
  needs g wetted for 0 min
  //                 ^^^^^ zero_time (advice)
}
`);
  });

  test.each([
    ['    look site takes 0 min by surgeon', '    look site by surgeon'],
    ['    look site by surgeon takes 0 min usually 0 min', '    look site by surgeon'],
  ])('is left out of a line: %s', (before, after) => {
    checkMend(visit(before), 'Leave out how long it takes', visit(after));
  });

  test('is left out with its line', () => {
    checkMend(
      `
action look (place p) {
  takes 0 min
  by    surgeon
}
`,
      'Leave out how long it takes',
      `
action look (place p) {
  by    surgeon
}
`,
    );
    checkMend(visit('    look site\n    wait 0 min'), 'Leave out the wait', visit('    look site'));
  });
});

describe('a time below nought', () => {
  test('is refused wherever a time is written', () => {
    check(`${KIT}
action fix (graft g) {
  needs g wetted for -5 min
  //                 ^^^^^^ negative_time
  takes -1..2 min
  //    ^^^^^^^^^ negative_time
}
graft mix "Mix" {
  soak -10..60 min
  //   ^^^^^^^^^^^ negative_time
}
protocol p "P" {
  given { site : place }
  review every -12 mo
  //           ^^^^^^ negative_time
  visit v "V" {
    look site takes at most -5 min
    //              ^^^^^^^^^^^^^^ negative_time
    wait -3 min
    //   ^^^^^^ negative_time
  }
  wait -3 d
  //   ^^^^ negative_time
  visit w "W" {
    look site takes 5..-10 min
    //              ^^^^^^^^^^ negative_time
  }
}
`);
  });

  test('counts as not stated', () => {
    expect(durations('look site takes -5 min\nwait -3..5 min')).toEqual([
      { lo: 0, hi: Number.POSITIVE_INFINITY, stated: false },
      { lo: 0, hi: Number.POSITIVE_INFINITY, stated: false },
    ]);
  });

  test.each([
    ['-5 min', '5 min'],
    ['-5..10 min', '5..10 min'],
    ['-10..-5 min', '5..10 min'],
    ['-30 min..1 h', '30 min..1 h'],
    ['at most -5 min', 'at most 5 min'],
    ['-2.5 min', '2.5 min'],
  ])('loses its minus: %s', (before, after) => {
    checkMend(visit(`    wait ${before}`), `Change to "${after}"`, visit(`    wait ${after}`));
  });

  test('is no matter where something else than a time is measured', () => {
    check(`
kind freezer "freezer" is instrument { cold : temperature range }
freezer box "Box" { cold -18..-15 °C }
`);
  });
});

describe('a range', () => {
  test('the wrong way round is told wherever a time is written', () => {
    check(`
// quiet: missing_head
kind graft "graft" is material {
  soak   : time range within 90..1 min source common_practice
  //                         ^^^^^^^^^ reversed_range
  states dry -> wetted -> packed
  wetted lasts at most 60..10 min, then dried_out source common_practice
  //                   ^^^^^^^^^^ reversed_range
}
graft mix "Mix" {
  soak 60..10 min
  //   ^^^^^^^^^^ reversed_range
}
action wet (graft g) {
  makes g wetted
  takes 3..1 min
  //    ^^^^^^^^ reversed_range
}
action pack (graft g) {
  needs g wetted for 30..20 min
  //                 ^^^^^^^^^^ reversed_range
}
pause count "Count" {
  takes 2..1 min
  //    ^^^^^^^^ reversed_range
}
protocol p "P" {
  materials { mix }
  wait 2 h..90 min
  //   ^^^^^^^^^^^ reversed_range
  visit v "V" {
    wet mix takes 1 h..2 min
    //            ^^^^^^^^^^ reversed_range
    wait 20..10 min
    //   ^^^^^^^^^^ reversed_range
    wait until mix is wetted for 20..10 min
    //                           ^^^^^^^^^^ reversed_range
  }
}
`);
  });

  test.each([
    ['40..10 min', '10..40 min'],
    ['1.50..1 h', '1..1.5 h'],
    ['2 h..90 min', '90 min..2 h'],
    ['120 min..90 min', '90 min..120 min'],
  ])('is turned round: %s', (before, after) => {
    checkMend(visit(`    wait ${before}`), 'Swap the ends', visit(`    wait ${after}`));
  });
});

describe('a time without an end', () => {
  test('is no length for work, and one for a wait', () => {
    check(`${KIT}
action fix (graft g) {
  takes at least 5 min
  //    ^^^^^^^^^^^^^^ endless_time (advice)
}
protocol p "P" {
  given { site : place }
  visit v "V" {
    look site takes at least 5 min
    //              ^^^^^^^^^^^^^^ endless_time (advice)
    wait at least 5 min
  }
  wait at least 3 mo
  visit w "W" {
    look site
  }
}
`);
  });

  test('is given no end that nobody stated', () => {
    checkNoMend(visit('    look site takes at least 5 min'));
  });

  test('a number that cannot be reckoned with is none', () => {
    const digits = '9'.repeat(400);
    check(
      visit(`    wait ${digits} min
    //   ${'^'.repeat(404)} number_too_large
    look site takes 1..${digits} min
    //                 ${'^'.repeat(404)} number_too_large
    repeat until "clean" at most ${digits} times { look site }
//  ${'^'.repeat(435)} repeat_count`),
    );
  });
});

describe('between two visits', () => {
  const between = (wait: string) => `${KIT}
protocol p "P" {
  given { site : place }
  visit v "V" {
    look site
  }
${wait}
  visit w "W" {
    look site
  }
}
`;

  test('a wait is a time, by the clock or by the calendar', () => {
    for (const wait of ['90 min', '2 wk', '4..6 mo', 'at most 2 wk', 'at least 3 mo', '1 a'])
      check(between(`  wait ${wait}`));
    check(
      between(`  wait 0 d
  //   ^^^ zero_time (advice): one visit
  wait 6..4 mo
  //   ^^^^^^^ reversed_range
  wait 3 mL
  //   ^^^^ wrong_measure
  wait -3 d
  //   ^^^^ negative_time
  wait 3
  //    | unreadable_line`),
    );
  });

  test('no longest wait leaves a lower limit to be told and an upper one untold', () => {
    const healed = (limit: string, wait: string, mark: string) => `
// quiet: missing_head
kind bone "bone" is place { states fresh -> filled -> used }
action fill (bone b) {
  makes b filled
  takes 5 min
}
action seat (bone b) {
  needs b filled for ${limit} because "x" source common_practice
  makes b used
}
protocol p "P" {
  given { site : bone }
  visit v "V" {
    fill site
  }
  wait ${wait}
  visit w "W" {
    seat site
${mark}
  }
}
`;
    check(healed('3 mo', 'at least 3 mo', '    note "x"'));
    check(healed('4 mo', 'at least 3 mo', '    //   ^^^^ clock_broken (warning)'));
    check(healed('at most 4 mo', 'at least 3 mo', '    //   ^^^^ time_not_stated'));
    check(healed('at most 3 wk', 'at most 2 wk', '    note "x"'));
    check(healed('1 wk', 'at most 2 wk', '    //   ^^^^ clock_broken (warning)'));
  });

  test('a wait for a state is said not to tell how long it is', () => {
    check(
      between(`  wait until site is treated for 3 d
// <^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ undecided: how long it is to the next visit`),
    );
  });
});

describe('a wait for a state', () => {
  test('is of one time, by the clock', () => {
    check(
      visit(`    wet g
    wait until g is wetted for 10..20 min
    //                         ^^^^^^^^^^ wait_for_range: bounds nothing here
    wait until g is wetted for at most 10 min
    //                         ^^^^^^^^^^^^^^ wait_for_range: nothing to wait for
    wait until g is wetted for 1 mo
    //                         ^^^^ calendar_in_visit
    wait until g is wetted for 10
    //                         ^^ wrong_measure
    wait until g is wetted for g.bulk
    //                         ^^^^^^ undecided: the bulk of g
    wait until g is wetted for "long"
    //                         ^^^^^^ wrong_measure
    wait until g is not wetted for 10 min
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ undecided
    wait until g is wetted for exactly 10 min
    wait until g is wetted for at least 10 min`),
    );
  });

  test('may take its time from the thing: of a range the shorter end', () => {
    expect(
      durations('wait until g is wetted for g.soak\nwait until g is wetted for g.soak.longest').map(({ hi }) => hi),
    ).toEqual([600, 3600]);
    check(
      visit(
        `    wet g
    wait until g is wetted for g.soak
    //                         ^^^^^^ undecided: a shortest time`,
        'at most 60 min',
      ),
    );
  });

  test('is no longer than the state lasts', () => {
    check(
      visit(`    wet g
    wait until g is wetted for 60 min
    wait until g is wetted for 70 min
    //                         ^^^^^^ outlasts_state: for 70 min, but it is wetted for at most 60 min, then it is dried out
    pack g`),
    );
    checkMend(
      visit('    wet g\n    wait until g is wetted for 70 min'),
      'Shorten to "60 min"',
      visit('    wet g\n    wait until g is wetted for 60 min'),
    );
  });

  test('ends where a state passes by itself, which takes no longer than the state before lasts', () => {
    check(visit('    wait until c is set\n    trim c'));
    expect(durations('wait until c is set')).toEqual([{ lo: 0, hi: 240, stated: true }]);
    check(
      visit(`    wait until c is set for 5 min
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ wait_in_vain: It becomes set by itself
    trim c
    //   ^ wrong_state`),
    );
    checkMend(
      visit('    wait until c is set for 5 min'),
      'Wait until c is set first',
      visit('    wait until c is set\n    wait until c is set for 5 min'),
    );
  });

  test('is in vain where the thing is not in the state, on every path or on one', () => {
    check(
      visit(`    wait until g is wetted for 5 min
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ wait_in_vain
    complication "Spilled" { wet g }
    wait until g is wetted for 5 min
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ wait_in_vain: "Spilled" does not happen
    repeat until "soft" at most 2 times {
      wait until g is packed for 5 min
//    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ wait_in_vain
    }`),
    );
  });

  test('beside the lane that brings the state about depends on which comes first', () => {
    check(
      visit(`    together {
      lane one { wet g }
      lane two { wait until g is wetted for 5 min }
//               ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ lanes_conflict
    }`),
    );
  });
});

describe('how long a state must have been', () => {
  test('is a time', () => {
    check(`${KIT}
action fix (graft g) {
  needs g wetted for g.bulk
  //                 ^^^^^^ wrong_measure
  needs g wetted for g.sock
  //                   ^^^^ unknown_property
  needs g wetted for 5 mm
  //                 ^^^^ wrong_measure
  needs g wetted for 10
  //                 ^^ wrong_measure
  needs g wetted for g.soak
  needs g wetted for g.soak.shortest
  needs g wetted for 2 * g.soak.shortest
  needs g wetted for min(g.soak.shortest, 1 h)
}
kind paste "paste" is material {
  bulk   : volume
  states wet -> mixed
  mixed  lasts at most bulk, then set
  //                   ^^^^ wrong_measure
}
`);
  });

  test('exactly so long is no longer', () => {
    check(`${KIT}
action fix (graft g) {
  needs g wetted for exactly 10 min because "x" source common_practice
}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min } }
  visit v "V" {
    wet g
    look site takes 11 min
    fix g
    //  ^ clock_broken (error): may be at most 10 min
  }
}
`);
  });

  test('is within what the state lasts: told where both are numbers, else at the step', () => {
    check(`${KIT}
action place (cement c) {
  needs c mixed for 5 min
  //                ^^^^^ outlasts_state
}
action fix (graft g) {
  needs g wetted for 70..90 min because "x" source common_practice
}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 10..60 min }, c : cement }
  visit v "V" {
    place c
    wet g
    look site takes 5 min
    fix g
    //  ^ outlasts_state: This needs "g" to have been wetted for 70–90 min
  }
}
`);
  });

  test('cannot be told where nothing says how long the state lasts', () => {
    check(`${KIT}
protocol p "P" {
  materials { g : graft }
  visit v "V" {
    wet g
    pack g
    //   ^ undecided: how long g stays wetted: the soak of g
  }
}
`);
  });
});

test('a procedure is told what is wrong with its waits where its things are known', () => {
  check(`${KIT}
procedure soak_it (graft g) {
  wet g
  wait until g is wetted for 70 min
}
protocol p "P" {
  materials { g : graft { soak 10..60 min }, h : graft { soak 10..90 min } }
  visit v "V" {
    soak_it g
//  ^^^^^^^ outlasts_state
    soak_it h
  }
}
`);
});

test('a repetition is done a whole number of times, and once at least', () => {
  check(
    visit(`    repeat until "clean" at most 0 times { look site }
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ repeat_count
    repeat until "clean" at most 2.5 times { look site }
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ repeat_count
    repeat until "clean" at most -1 times { look site }
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ repeat_count
    repeat until "clean" at most once { look site }`),
  );
});

describe('whatever is written', () => {
  const number = fc.oneof(
    fc.integer({ min: -3, max: 90 }).map(String),
    fc.constantFrom('0', '0.1', '-0.5', '1.50', '9007199254740993', '9'.repeat(330)),
  );
  const unit = fc.constantFrom(' min', ' min', ' min', ' s', ' h', ' d', ' mo', ' mm', ' x', '');
  const time = fc.oneof(
    fc.tuple(number, unit).map(([n, u]) => n + u),
    fc.tuple(number, number, unit).map(([a, b, u]) => `${a}..${b}${u}`),
    fc.tuple(number, unit, number, unit).map(([a, u, b, v]) => `${a}${u}..${b}${v}`),
    fc
      .tuple(fc.constantFrom('at least ', 'at most ', 'exactly ', '-', '–', '1:'), number, unit)
      .map(([bound, n, u]) => bound + n + u),
  );
  const takes = fc.oneof(
    fc.constant(''),
    time.map((t) => ` takes ${t}`),
    fc.tuple(time, time).map(([t, u]) => ` takes ${t} usually ${u}`),
  );
  const simple = fc.oneof(
    takes.map((t) => `wet g${t}`),
    takes.map((t) => `pack g${t}`),
    takes.map((t) => `look site${t}`),
    takes.map((t) => `pause count${t}`),
    takes.map((t) => `verify "Dry" otherwise "Dry it"${t}`),
    time.map((t) => `wait ${t}`),
    time.map((t) => `wait until g is wetted for ${t}`),
    fc.constantFrom('wait until c is set', 'trim c', 'wait until g is wetted for g.soak', 'wait until g is dried_out'),
  );
  const { line } = fc.letrec<{ line: string; lines: string }>((tie) => ({
    lines: fc.array(tie('line'), { minLength: 1, maxLength: 3 }).map((all) => all.join('\n')),
    line: fc.oneof(
      { maxDepth: 3, depthSize: 'small' },
      simple,
      fc.tuple(tie('lines'), tie('lines')).map(([a, b]) => `together {\nlane a {\n${a}\n}\nlane b {\n${b}\n}\n}`),
      fc.tuple(number, tie('lines')).map(([n, body]) => `repeat until "x" at most ${n} times {\n${body}\n}`),
      tie('lines').map((body) => `complication "C" {\n${body}\n}`),
    ),
  }));
  const file = fc.record({
    first: fc.array(line, { maxLength: 6 }),
    gap: time,
    second: fc.array(line, { maxLength: 4 }),
    soak: time,
  });

  test('checking ends, and no time is less than nought, endless where it is said to be stated, or no number', () => {
    fc.assert(
      fc.property(file, ({ first, gap, second, soak }) => {
        const fixture = readFixture(`${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak ${soak} }, c : cement }
  visit v "V" {
${first.join('\n')}
  }
  wait ${gap}
  visit w "W" {
${second.join('\n')}
  }
}
`);
        const facts = factsOf(fixture)('main.curette');
        for (const { problem } of problemsOf(fixture)) {
          expect(problem.code).not.toBe('internal_failure');
          expect(problem.message).not.toMatch(/NaN|Infinity|undefined/);
          for (const mend of problem.mends) expect(JSON.stringify(mend)).not.toMatch(/NaN|Infinity|undefined/);
        }
        for (const { items } of facts?.protocols[0]?.visits ?? [])
          forEachFlow(items, (flow) => {
            for (const { lo, hi, stated, usual } of [flow.duration, durationOf(flow)]) {
              expect(lo).toBeGreaterThanOrEqual(0);
              expect(hi).toBeGreaterThanOrEqual(lo);
              expect(Number.isFinite(lo)).toBe(true);
              if (stated) expect(Number.isFinite(hi)).toBe(true);
              if (usual !== undefined) expect(usual >= lo && usual <= hi).toBe(true);
            }
          });
      }),
      { numRuns: 150 },
    );
  });

  type Part =
    | { readonly type: 'work'; readonly lo: number; readonly more: number }
    | { readonly type: 'wait' | 'until'; readonly minutes: number }
    | { readonly type: 'passing' };
  const minutes = fc.integer({ min: 1, max: 40 });
  const part: fc.Arbitrary<Part> = fc.oneof(
    fc.record({ type: fc.constant('work' as const), lo: fc.integer({ min: 0, max: 20 }), more: minutes }),
    fc.record({ type: fc.constantFrom('wait' as const, 'until' as const), minutes }),
    fc.record({ type: fc.constant('passing' as const) }),
  );
  const written = (one: Part) =>
    one.type === 'work'
      ? `look site takes ${one.lo}..${one.lo + one.more} min`
      : one.type === 'wait'
        ? `wait ${one.minutes} min`
        : one.type === 'until'
          ? `wait until g is wetted for ${one.minutes} min`
          : 'wait until c is set';
  /** Minutes from when the graft was wetted to when it is packed, if everything takes such a part of what it may. */
  const aged = (parts: readonly Part[], part: number) =>
    parts.reduce((age, one) => {
      if (one.type === 'work') return age + one.lo + one.more * part;
      if (one.type === 'wait') return age + one.minutes;
      return one.type === 'until' ? Math.max(age, one.minutes) : age + 4 * part;
    }, 0);

  test('what is not told to be too soon or too late is neither, however quick or slow the work', () => {
    fc.assert(
      fc.property(fc.array(part, { maxLength: 5 }), minutes, minutes, (parts, least, more) => {
        // A state passes by itself once.
        const lines = parts.filter(
          (one, i) => one.type !== 'passing' || parts.findIndex((p) => p.type === 'passing') === i,
        );
        const most = least + more;
        const found = problemsOf(
          readFixture(`${KIT}
action set_in (graft g) {
  needs g wetted for g.soak because "x" source common_practice
}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak ${least}..${most} min }, c : cement }
  visit v "V" {
    wet g
${lines.map(written).join('\n')}
    set_in g
  }
}
`),
        ).map(({ problem }) => problem.title);
        const ages = [0, 0.3, 1].map((part) => aged(lines, part));
        const outlasts = lines.some((one) => one.type === 'until' && one.minutes > most);
        if (outlasts) expect(found).toContain('Longer than the state lasts');
        else {
          expect(found.includes('Too soon')).toBe(ages.some((age) => age < least));
          expect(found.includes('Too late')).toBe(ages.some((age) => age > most));
        }
      }),
      { numRuns: 300 },
    );
  });
});
