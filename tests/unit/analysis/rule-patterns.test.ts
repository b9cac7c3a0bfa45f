/** What a rule can look for besides steps and pauses, and on which paths. */
import { describe, test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged, verify_without_otherwise
kind screw "screw" is material {
  torque  : torque
  long    : length
  healing : time range
  states  boxed -> driven
}
finding pus "Pus" { none "None", some "Some", much "Much" }
finding bone "Bone" { hard, soft }
place elbow "Elbow"
place knee "Knee"
action drive (screw s) {
  makes s driven
  takes 1 min
}
action cut (place p) { takes 5 min }
action rinse (place p) { takes 5 min }
action refer (place p) { takes 1 min }
`;

function rule(lines: string): string {
  return `
rule asked "What is asked for" {
${lines}
  severity error
  why      "It matters"
  source   common_practice
}
`;
}

function protocol(steps: string, given = 'given { site : place, other : place }'): string {
  return `
protocol p "P" {
  ${given}
  materials { one : screw { torque 20 N.cm, healing 2..3 mo }, two : screw { torque 30 N.cm } }
  visit v "V" {
${steps}
  }
}
`;
}

describe('checks and records', () => {
  const measured = rule('  order verify torque of (screw s) after drive (screw s)');

  test('a check of the same thing comes after it', () => {
    check(
      `${KIT}${measured}${protocol(`
    drive one
    verify torque of one within 10..40 N.cm
    drive two
//  ^^^^^^^^^ asked (error): There is no "verify torque of two" after "drive two"
    verify "Looks well" of two
`)}`,
    );
  });

  test('a check of another thing is none of this one', () => {
    check(
      `${KIT}${measured}${protocol(`
    drive one
//  ^^^^^^^^^ asked (error): after "drive one"
    drive two
    verify torque of two within 10..40 N.cm
`)}`,
    );
  });

  test('a check in one option only', () => {
    check(
      `${KIT}${measured}${protocol(`
    drive one
//  ^^^^^^^^^ asked (error): When bone is soft, there is no
    decide bone "Feel" {
      option hard { verify torque of one within 10..40 N.cm }
      option soft { }
    }
    drive two
    verify torque of two within 10..40 N.cm
`)}`,
    );
  });

  test('a check before a step, and how often', () => {
    const once = rule('  count verify torque of (screw) exactly once in a visit').replace('asked', 'once');
    check(
      `${KIT}${rule('  order verify torque of (screw) before cut (place p)')}${once}${protocol(`
    cut site
//  ^^^^^^^^ asked (error): There is no "verify torque of a screw" before
    drive one
    verify torque of one within 10..40 N.cm
    drive two
    verify torque of two within 10..40 N.cm
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ once (error): once too often
`)}`,
    );
  });

  test('a record of something', () => {
    check(
      `${KIT}${rule('  order record photograph of (place p) before cut (place p)')}${protocol(`
    record photograph "From above" of site
    record drawing of other
    cut site
    cut other
//  ^^^^^^^^^ asked (error): There is no "record photograph of other" before "cut other"
    drive one
    drive two
`)}`,
    );
  });

  test('what a check expects', () => {
    check(
      `${KIT}${rule('  whenever verify torque of (screw s)\n  expect s is driven')}${protocol(`
    verify torque of one within 10..40 N.cm
    //               ^^^ asked (error): one is driven
    drive one
    verify torque of one within 10..40 N.cm
    drive two
`)}`,
    );
  });

  test('what is measured has to be something that the thing has', () => {
    check(`${KIT}
rule asked "What is asked for" {
  order verify tork of (screw s) after drive (screw s)
  //           ^^^^ unknown_property
  severity error
  why      "It matters"
  source   common_practice
}
`);
  });
});

describe('what is found', () => {
  test('something comes after it was found', () => {
    check(
      `${KIT}${rule('  order refer (place p) after finding pus is some or much')}${protocol(`
    decide pus "Look" {
      option none { }
      option some { refer site }
      option much { rinse site }
//    ^^^^^^^^^^^ asked (error): When pus is much, there is no "refer a place" after "pus is some or much"
    }
    drive one
    drive two
`)}`,
    );
  });

  test('of several findings that lead to one option each is asked for itself', () => {
    check(
      `${KIT}${rule('  order refer (place p) after finding pus is much')}${protocol(`
    decide pus "Look" {
      option none { }
      otherwise { rinse site }
//    ^^^^^^^^^ asked (error): When pus is much
    }
    drive one
    drive two
`)}`,
    );
  });

  test('nothing is done before it is found, or never after it', () => {
    check(
      `${KIT}${rule('  order finding bone is hard or soft before drive (screw s)')}${rule(
        '  count cut (place p) where pus is much never',
      ).replace('asked', 'spared')}${protocol(`
    drive one
//  ^^^^^^^^^ asked (error)
    decide bone "Feel" {
      option hard { }
      option soft { }
    }
    drive two
    decide pus "Look" {
      option none or some { cut site }
      option much { cut site }
      //            ^^^^^^^^ spared (error): must never be done
    }
    cut other
//  ^^^^^^^^^ spared (error): When pus is much
`)}`,
    );
  });

  test('a condition on what was found: always, in some circumstances, never', () => {
    check(
      `${KIT}${rule('  whenever drive (screw s) where bone is soft\n  expect s.torque >= 25 N.cm')}${protocol(`
    drive one because "Nobody has felt yet"
    decide bone "Feel" {
      option hard { drive one }
      option soft { drive one }
      //                  ^^^ asked (error): that is not so
    }
    drive one
    //    ^^^ asked (error): when bone is soft
    drive two
`)}`,
    );
  });

  test('what is expected when something is found', () => {
    check(`${KIT}${rule('  whenever finding bone is soft\n  expect site is hard_place')}
kind hard_place "hard place" is place
${protocol(
  `
    decide bone "Feel" {
      option hard { }
      option soft { }
//    ^^^^^^^^^^^ asked (error)
    }
    drive one
    drive two
`,
)}`);
  });

  test('a finding holds for its visit', () => {
    check(`${KIT}${rule('  whenever drive (screw s) where bone is soft\n  expect s.torque >= 25 N.cm')}
protocol p "P" {
  materials { one : screw { torque 20 N.cm } }
  visit a "A" {
    decide bone "Feel" {
      option hard { stop "Refer" }
      option soft { }
    }
  }
  wait 1 d
  visit b "B" { drive one }
}
`);
  });

  test('misspelt', () => {
    check(`${KIT}
rule asked "What is asked for" {
  order refer (place p) after finding puss is some
  //                                  ^^^^ unknown_name
  order refer (place p) after finding pus is sum
  //                                         ^^^ option_unknown
  count cut (place p) where pus is sum never
  //                               ^^^ option_unknown
  severity error
  why      "It matters"
  source   common_practice
}
`);
  });
});

describe('one of several', () => {
  const followed = rule('  order stop or rinse (place p) or refer (place p) after finding pus is some or much');

  test('any of them will do, and a stop is one of them', () => {
    check(
      `${KIT}${followed}${protocol(`
    decide pus "Look" {
      option none { }
      option some { rinse site }
      option much { stop "Refer" }
    }
    drive one
    drive two
`)}`,
    );
    check(
      `${KIT}${followed}${protocol(`
    decide pus "Look" {
      option none { }
      option some { refer site }
      option much { note "Seen" }
//    ^^^^^^^^^^^ asked (error): there is no "stop" or "rinse a place" or "refer a place"
    }
    drive one
    drive two
`)}`,
    );
  });

  test('what is found counts for whichever thing', () => {
    check(
      `${KIT}${rule(
        '  order verify torque of (screw s) or finding bone is hard or soft after drive (screw s)',
      )}${protocol(`
    drive one
    decide bone "Feel" {
      option hard { }
      option soft { }
    }
    drive two
//  ^^^^^^^^^ asked (error): after "drive two"
`)}`,
    );
  });
});

describe('where', () => {
  test('a step that is asked to be like something', () => {
    check(
      `${KIT}${rule('  order rinse (place p) before drive (screw s) where s.torque > 25 N.cm')}${protocol(`
    drive one
    drive two
//  ^^^^^^^^^ asked (error): There is no
`)}`,
    );
  });

  test('what is not stated is looked at both ways', () => {
    check(
      `${KIT}${rule('  order rinse (place p) before drive (screw s) where s.long > 25 mm')}${protocol(`
    drive one
//  ^^^^^^^^^ asked (error): When the long of one is over 25 mm
    rinse site
    drive two
`)}`,
    );
  });

  test('a state', () => {
    check(
      `${KIT}${rule('  count cut (place p) where one is driven never')}${protocol(`
    cut site
    drive one
    cut site
//  ^^^^^^^^ asked (error): must never be done
    drive two
`)}`,
    );
  });
});

describe('time', () => {
  test('a time that a property says', () => {
    check(`${KIT}${rule('  between drive (screw s) and verify torque of (screw s) at least s.healing')}
protocol p "P" {
  materials { one : screw { healing 2..3 mo }, two : screw }
  visit a "A" {
    drive one
    drive two
  }
  wait 1 mo
  visit b "B" {
    verify torque of one within 10..40 N.cm
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ asked (error): at least 2 months
    verify torque of two within 10..40 N.cm
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ undecided: healing of two
  }
}
`);
  });

  test('a time from what was found', () => {
    check(
      `${KIT}${rule('  between finding pus is much and refer (place p) at most 10 min')}${protocol(`
    decide pus "Look" {
      option none or some { }
      option much { cut site takes 5 min }
    }
    rinse site
    cut other
    refer site
//  ^^^^^^^^^^ asked (error): When pus is much
    drive one
    drive two
`)}`,
    );
  });
});

test('two conditions over one and the same step agree with each other', () => {
  check(
    `${KIT}${rule('  order rinse (place p) after drive (screw s) where bone is soft')}${protocol(`
    decide bone "Feel" {
      option hard { }
      option soft { }
    }
    drive one
    drive two
    decide bone "Again" {
      option hard { }
      option soft { rinse site }
    }
`)}`,
  );
});

describe('known corners', () => {
  test('a need that each path meets in its own way is met', () => {
    check(`${KIT}
kind board "board" is material { states raw -> sanded -> painted, sanded -> oiled }
action sand (board b) { makes b sanded }
action paint (board b) { makes b painted }
action oil (board b) { makes b oiled }
action hang (board b) { needs b painted or b oiled because "It warps" source common_practice }
protocol p "P" {
  materials { one : board }
  visit v "V" {
    sand one
    decide bone "Which" {
      option hard { paint one }
      option soft { oil one }
    }
    hang one
  }
}
`);
  });

  test('each of several later steps is asked for the time since the last of the first', () => {
    check(
      `${KIT}${rule('  between cut (place p) and rinse (place p) at most 6 min')}${protocol(`
    cut site
    rinse site
    refer site
    refer other
    rinse site because "Again"
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^ asked (error): 7 min
    cut site because "Again"
    rinse site because "Once more"
    drive one
    drive two
`)}`,
    );
  });

  test('what is found in a decision over several findings is remembered', () => {
    check(`${KIT}
kind plug "plug" is material {
  states boxed -> seated -> out
  must end boxed or out by end of visit
}
action put (plug p) { makes p seated }
action pull (plug p) { makes p out }
protocol p "P" {
  materials { one : plug }
  visit v "V" {
    decide bone, pus "Look" {
      option hard, any { }
      option soft, none { put one }
      otherwise { put one because "Here as well" }
    }
    decide bone "Look again" {
      option hard { }
      option soft { pull one }
    }
  }
}
`);
  });
});
