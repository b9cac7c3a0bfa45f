/** Lines of a protocol and of its visits beside the steps: who and what they speak of is there, and rounds are looked at one by one. */
import { describe, test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged
finding bleeding "Bleeding" { stopped, brisk }
kind pack "pack" is material {
  states   counted -> in_place -> removed
  must end counted or removed by end of visit source common_practice
}
kind hole "hole" is place { depth : length }
action place (pack p) { makes p in_place }
action remove (pack p) { makes p removed }
action tie (pack p) { needs p counted }
action wipe (one or more pack p) { needs p in_place }
`;

test('a finding is looked at anew in every round', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    repeat until "Dry" at most 3 times {
      decide bleeding "Look" {
        option stopped { tie a }
        //                   ^ wrong_state: When it is done a second time
        option brisk { place a }
        //                   ^ left_undone
      }
    }
  }
}
`);
});

test('what a step only needed is not owed as well', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack, b : pack }
  visit v "V" {
    place a
    wipe a, b
    //      ^ wrong_state
    remove a
  }
}
`);
});

test('an option says no more than the decision looks at', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    decide bleeding "Look" {
      option stopped, brisk { }
      //              ^^^^^ option_too_wide
      otherwise { }
    }
  }
}
`);
});

test('who works in a lane is of the team', () => {
  check(`${KIT}
protocol p "P" {
  team { surgeon }
  materials { a : pack }
  visit v "V" {
    together {
      lane x by assistant { place a by surgeon }
      //        ^^^^^^^^^ role_not_in_team
    }
    remove a
  }
}
`);
});

test('what is verified is a thing that is there, and measured as it is', () => {
  check(`${KIT}
protocol p "P" {
  given { h : hole { depth 10 mm } }
  visit v "V" {
    verify depth of h within 9..12 mm otherwise "Deepen"
    verify depth of h within 9..12 min otherwise "Deepen"
    //                       ^^^^^^^^^ wrong_measure
    verify width of h within 9..12 mm otherwise "Deepen"
    //     ^^^^^ unknown_property
    verify depth of k within 9..12 mm otherwise "Deepen"
    //              ^ unknown_name
    record photograph "Above" of k
    //                           ^ unknown_name
  }
}
`);
});

test('who is excluded is given, and what is asked of them can be asked', () => {
  check(`${KIT}
protocol p "P" {
  given { pat : patient, h : hole }
  exclude when patient has diabetes
  //           ^^^^^^^ unknown_name
  exclude when pat has nothing
  //                   ^^^^^^^ value_outside_set
  exclude when pat is diabetic
  //                  ^^^^^^^^ unknown_state
  exclude when h is patient
  caution when pat.mass < 40 kg and not pat takes antiplatelet
  caution when pat.weight < 40 kg
  //               ^^^^^^ unknown_property
  visit v "V" {
    note "Look"
  }
}
`);
});

test('a protocol that is followed, or that a case is of, is there', () => {
  check(`${KIT}
protocol p "P" {
  follows q
  given { site : hole { depth 3..6 mm } }
  visit v "V" {
    note "Look"
  }
}
protocol q "Q" {
  follows r
  //      ^ unknown_name
  visit v "V" {
    note "Look"
  }
}
case one of p {
  site { depth 4 mm }
}
case other of s {
//            ^ unknown_name
  site 14
}
`);
});

test('two visits of one protocol have two names', () => {
  check(`${KIT}
protocol p "P" {
  visit v "V" {
    note "Look"
  }
  visit v "V again" {
  //    ^ duplicate_name
    note "Look"
  }
}
`);
});

test('a wait for something that is no state is told', () => {
  check(`${KIT}
protocol p "P" {
  materials { a : pack }
  visit v "V" {
    wait until "it is dry"
//  ^^^^^^^^^^^^^^^^^^^^^^ undecided
    wait until a is folded for 3 min
    //              ^^^^^^ unknown_state
    wait until b is in_place for 3 min
    //         ^ unknown_name
  }
}
`);
});

test('what a line takes is a time', () => {
  check(`${KIT}
action lift (pack p) {
  takes 5 mm
  //    ^^^^ wrong_measure
}
protocol p "P" {
  materials { a : pack }
  wait 3 mL
  //   ^^^^ wrong_measure
  visit v "V" {
    lift a takes 3 mL
    //           ^^^^ wrong_measure
    wait 3 mm
    //   ^^^^ wrong_measure
  }
}
`);
});

describe('a check and what is stated of what it measures', () => {
  const WORDS = `// quiet: missing_head
kind hollow "hollow" is place {
  depth : length
  mouth : size
}
kind anchor "anchor" is material {
  hold  : torque range
  width : length
}
anchor short_one "Short anchor" { hold 20..35 N.cm source common_practice, width 4 mm }
action place (anchor a) { takes 1..2 min }
action look (anchor a) at (hollow h) { takes 1 min }
procedure try (anchor a) {
  place a
  verify hold of a within 20..70 N.cm otherwise "Take it out"
}
`;
  const protocol = (given: string, lines: string, place = 'place screw') => `${WORDS}protocol p "P" {
  given { h : hollow ${given} }
  materials { screw : short_one }
  visit v "V" {
    ${place}
${lines}
  }
}
`;

  test('a limit of the catalogue is not reached out of, on either side', () => {
    check(
      protocol(
        '',
        `    verify hold of screw within 25..35 N.cm otherwise "Take it out"
    verify hold of screw within 0.2..0.35 N.m otherwise "Take it out"
    verify hold of screw within 15..35 N.cm otherwise "Take it out"
    //                          ^^^^^^^^^^^ check_outside_stated (error): its catalogue entry states 20–35 N·cm, and this reaches outside it
    verify hold of screw within at least 20 N.cm otherwise "Take it out"
    //                          ^^^^^^^^^^^^^^^^ check_outside_stated (error)
    verify hold of screw within 40..50 N.cm otherwise "Take it out"
    //                          ^^^^^^^^^^^ check_outside_stated (error): and nothing of that is accepted
    verify width of screw within 3.9..4.1 mm otherwise "Take it out"
    verify width of screw within 3..3.5 mm otherwise "Take it out"
    //                           ^^^^^^^^^ check_outside_stated (error)`,
      ),
    );
  });

  test('what the protocol gives is its plan: outside it is an error only where nothing of it is accepted', () => {
    check(
      protocol(
        '{ depth 9..12 mm, mouth 7..9 mm by 5..6 mm }',
        `    verify depth of h within 10..11 mm otherwise "Deepen"
    verify depth of h within 8..12 mm otherwise "Deepen"
    //                       ^^^^^^^^ check_outside_stated (warning): accepts 8–12 mm as the depth of "h"; the protocol states 9–12 mm, and
    verify depth of h within at least 9 mm otherwise "Deepen"
    verify depth of h within at least 8 mm otherwise "Deepen"
    //                       ^^^^^^^^^^^^^ check_outside_stated (warning)
    verify depth of h within 13..14 mm otherwise "Deepen"
    //                       ^^^^^^^^^ check_outside_stated (error)
    verify mouth of h within 5..6 mm by 7..9 mm otherwise "Widen"
    verify mouth of h within 7..9 mm by 5..8 mm otherwise "Widen"
    //                       ^^^^^^^^^^^^^^^^^^ check_outside_stated (warning)`,
      ),
    );
  });

  test('of what a thing in a procedure states, it is told where the procedure is called', () => {
    check(`${protocol('', '', 'try screw\n  //^^^ check_outside_stated (error)')}`);
  });

  test('what a case fills in is measured, and no limit', () => {
    check(`${protocol('{ depth 9..12 mm }', '    verify depth of h within 9..12 mm otherwise "Deepen"')}
case one of p { h { depth 10..11 mm } }
`);
  });
});

describe('a time that a step says of itself', () => {
  const WORDS = `// quiet: missing_head
action paint "Paint" (place p) { takes 2..3 min }
action look "Look" (place p) { takes at least 2 min }
//                                   ^^^^^^^^^^^^^^ endless_time
action wash (place p)
pause count "Count" {
  item  "All there"
  takes 1..2 min
}
`;
  test('overlaps what its action takes, or is told; where that is not stated, nothing is', () => {
    check(`${WORDS}protocol p "P" {
  given { site : place }
  visit v "V" {
    paint site takes 30 s
    //               ^^^^ time_outside_action (warning): This step takes 30 s, and "Paint" takes 2–3 min: that is wholly shorter
    paint site takes 4 h
    //               ^^^ time_outside_action (warning): wholly longer
    paint site takes 3..10 min
    paint site takes 180..190 s
    paint site takes 0..2 min
    look site takes 1 min
    //              ^^^^^ time_outside_action (warning)
    look site takes 1 h
    wash site takes 10 h
    pause count takes 10 min
    //                ^^^^^^ time_outside_action (warning): "Count" takes 1–2 min
    pause count takes 2..5 min
  }
}
`);
  });
});

test('less than an hour between two visits is a slip of the unit', () => {
  check(`
// quiet: missing_head
protocol p "P" {
  visit one "One" { note "x" }
  wait 7..10 min
  //   ^^^^^^^^^ gap_in_one_sitting (warning): Were days (d) or months (mo) meant?
  visit two "Two" { note "x" }
  wait 90 s
  //   ^^^^ gap_in_one_sitting (warning): Were days (d) meant?
  visit three "Three" { note "x" }
  wait 30 min..2 h
  visit four "Four" { note "x" }
  wait at least 10 min
  visit five "Five" { note "x" }
}
`);
});
