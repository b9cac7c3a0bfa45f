/** Lines of a protocol and of its visits beside the steps: who and what they speak of is there, and rounds are looked at one by one. */
import { test } from 'vitest';
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
  given { h : hole { depth 3 mm } }
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
