/** Waits of which the team chooses the length, in view of how the work has gone so far. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged, never_used
finding wall "Wall" { intact, lost }
finding bleeding "Bleeding" { stopped, brisk }
kind graft "graft" is material {
  soak   : time range
  states dry -> wetted -> packed
}
kind cement "cement" is material {
  states unmixed -> mixed -> placed
  mixed  lasts at most 4 min, then set source common_practice
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for g.soak because "Too soon it floats out, too late it crumbles" source common_practice
  makes g packed
  takes 5 min
}
action mix (cement c) {
  makes c mixed
  takes 1 min
}
action place (cement c) {
  needs c mixed because "Set, it no longer sticks" source common_practice
  makes c placed
  takes 1 min
}
action quick (place p) { takes 2..4 min }
action slow (place p) { takes 15..30 min }
action vague (place p)
`;

const visit = (soak: string, body: string) => `${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak ${soak} }, h : graft { soak ${soak} }, c : cement }
  visit v "V" {
${body}
  }
}
`;

test('a wait that can be chosen long enough keeps the limit', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    quick site
    wait 5..20 min
    pack g`,
    ),
  );
});

test('one that cannot does not, and the run says how long was waited', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    quick site
    wait 1..7 min
    pack g
    //   ^ clock_broken (warning): If "quick site" takes 2 min and 7 min are waited, "g" has been wetted for 9 min`,
    ),
  );
});

test('too little whatever is chosen is an error', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    wait 1..7 min
    pack g
    //   ^ clock_broken (error): at most 7 min`,
    ),
  );
});

test('a wait after uncertain work makes up for it, one before it cannot', () => {
  check(
    visit(
      '30..40 min',
      `    wet g
    slow site
    wait 0..30 min
    pack g
    wet h
    wait 0..30 min
    slow site
    pack h
    //   ^ clock_broken (warning): No length of the wait`,
    ),
  );
});

test('as wide a limit as the work is uncertain can be met by waiting before it', () => {
  check(
    visit(
      '30..45 min',
      `    wet g
    wait 0..30 min
    slow site
    pack g`,
    ),
  );
});

test('a wait without an upper end is ended in time', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    wait at least 5 min
    pack g`,
    ),
  );
});

test('work of no stated length can be made up for where it makes too little, not where it may make too much', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    vague site
    wait 0..20 min
    pack g
    //   ^ time_not_stated: nothing says how long "vague site" takes`,
    ),
  );
  check(
    visit(
      'at least 10 min',
      `    wet g
    vague site
    wait 0..20 min
    pack g`,
    ),
  );
});

test('a wait for one state is over at once, and is not held for another limit', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    quick site
    wet h
    wait until g is wetted for 10 min
    pack g
    pack h
    //   ^ clock_broken (warning)`,
    ),
  );
});

test('a lane that waits is not held where the lanes meet', () => {
  check(
    visit(
      '20..60 min',
      `    wet g
    together {
      lane one { quick site }
      lane two { wait 1..9 min }
    }
    pack g
    //   ^ clock_broken (error)`,
    ),
  );
  check(
    visit(
      '20..60 min',
      `    wet g
    together {
      lane one { quick site }
      lane two { wait 1..30 min }
    }
    pack g`,
    ),
  );
});

test('the length of a wait is chosen before what comes after it is found', () => {
  // Lost, it takes the long way round: a wait before the finding cannot be right for both.
  check(
    visit(
      '30..40 min',
      `    wet g
    wait 0..40 min
    decide wall "Probe" {
      option intact { }
      option lost { slow site }
    }
    pack g
    //   ^ clock_broken (warning)`,
    ),
  );
  check(
    visit(
      '30..40 min',
      `    wet g
    decide wall "Probe" {
      option intact { }
      option lost { slow site }
    }
    wait 0..40 min
    pack g`,
    ),
  );
});

test('a wait in an option counts in that option', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    decide wall "Probe" {
      option intact { wait 10..20 min }
      option lost { slow site }
    }
    pack g`,
    ),
  );
});

test('what one limit wants long and another short is told at the wait', () => {
  check(
    visit(
      '10..60 min',
      `    wet g
    mix c
    wait 1..20 min
//  ^^^^^^^^^^^^^^ limits_conflict (error): "c" is to be mixed for at most 4 min when "place c" begins and "g"
    place c
    pack g`,
    ),
  );
  check(
    visit(
      '10..60 min',
      `    wet g
    wait 1..20 min
    mix c
    place c
    pack g`,
    ),
  );
});

test('more ways through the work than can be told apart are told, and judged as if nobody chose', () => {
  const names = Array.from({ length: 8 }, (_, number) => `sign_${number}`);
  const findings = names.map((name) => `finding ${name} "${name}" { absent, present }\n`).join('');
  const decisions = names
    .map(
      (name) => `    decide ${name} "Look" {
      option absent { }
      option present { wait 0..1 min }
    }`,
    )
    .join('\n');
  check(
    visit(
      '10..60 min',
      `    wet g
${decisions}
    wait 0..20 min
    pack g
    //   ^ clock_broken (warning): more ways through the work than can be told apart`,
    ).replace('protocol p', `${findings}protocol p`),
  );
});
