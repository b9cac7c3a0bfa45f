/** Steps: which action is meant, what it takes, who may do it. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head
kind sheet "sheet" is material
kind cover "cover" is sheet
kind bed "bed" is place
kind tool "tool" is instrument
`;

test('an action with all that it takes is right', () => {
  check(`${KIT}
action lay (sheet s) on (bed b) with (tool t)
protocol p "P" {
  given { site : bed }
  materials { a : sheet }
  instruments { tool }
  visit v "V" {
    lay a on site with tool
  }
}
`);
});

test('of several actions of one verb the one that fits is meant', () => {
  check(`${KIT}
action lay (sheet s) on (bed b)
action lay (tool t) in (bed b)
protocol p "P" {
  given { site : bed }
  materials { a : sheet }
  instruments { tool }
  visit v "V" {
    lay a on site
    lay tool in site
  }
}
`);
});

test('of two actions that fit the nearer kind is meant', () => {
  check(`${KIT}
action lay (sheet s) {
  needs s is cover
}
action lay (cover c)
protocol p "P" {
  materials { a : cover, b : sheet }
  visit v "V" {
    lay a
    lay b
    //  ^ unmet_need
  }
}
`);
});

test('where none of several fits the nearest is told of', () => {
  check(`${KIT}
action lay (sheet s) on (bed b)
action lay (tool t) in (bed b)
protocol p "P" {
  given { site : bed }
  materials { a : sheet }
  visit v "V" {
    lay a in site
    //  ^ wrong_kind
  }
}
`);
});

test('an optional thing may be left out', () => {
  check(`${KIT}
action lay (sheet s) with (optional tool t)
protocol p "P" {
  materials { a : sheet }
  visit v "V" {
    lay a
  }
}
`);
});

test('one or more things fill one slot', () => {
  check(`${KIT}
action open (one or more sheet s)
action close (sheet s)
protocol p "P" {
  materials { a : sheet, b : cover }
  visit v "V" {
    open a, b
    close a, b
    //       ^ extra_detail
  }
}
`);
});

test('an amount follows its thing', () => {
  check(`${KIT}
action cut (sheet s) (length l) on (bed b)
protocol p "P" {
  given { site : bed }
  materials { a : sheet }
  visit v "V" {
    cut a 3 mm on site
    cut a on site
//  ^^^ missing_slot
    cut a 3 min on site
    //    ^^^^^ wrong_measure
    cut a 3 mm by 4 mm on site
    //    ^^^^^^^^^^^^ wrong_measure
  }
}
`);
});

test('an amount where none is taken is told', () => {
  check(`${KIT}
action lay (sheet s)
protocol p "P" {
  materials { a : sheet }
  visit v "V" {
    lay a 3 mm
    //    ^^^^ extra_detail
  }
}
`);
});

test('a size slot takes a size', () => {
  check(`${KIT}
action cut (sheet s) to (size z)
protocol p "P" {
  materials { a : sheet }
  visit v "V" {
    cut a to 3 mm by 4 mm
    cut a to 3 mm
    //       ^^^^ wrong_measure
  }
}
`);
});

test('a text slot takes a text', () => {
  check(`${KIT}
action say (text t)
protocol p "P" {
  visit v "V" {
    say "Ready"
    say 3 mm
//  ^^^ missing_slot
    //  ^^^^ extra_detail
  }
}
`);
});

test('a half-typed thing is told once', () => {
  check(`${KIT}
action lay (sheet s) on (bed b)
protocol p "P" {
  given { site : bed }
  materials { a : sheet }
  visit v "V" {
    lay a on
    //      | unreadable_line
    lay a on site
  }
}
`);
});

test('who does a step is of the team and may do it', () => {
  check(`${KIT}
action lay (sheet s) {
  by surgeon
}
protocol p "P" {
  team { surgeon, assistant }
  materials { a : sheet }
  visit v "V" {
    lay a by surgeon
    lay a by assistant
    //       ^^^^^^^^^ role_may_not
    lay a by resident
    //       ^^^^^^^^ role_may_not
    //       ^^^^^^^^ role_not_in_team
  }
}
`);
});

test('an action names roles that there are', () => {
  check(`${KIT}
action lay (sheet s) {
  by surgeons
  // ^^^^^^^^ unknown_name
}
`);
});

test('an action speaks of its own slots and of states their kinds have', () => {
  check(`${KIT}
kind flap "flap" is place {
  states closed -> open
}
action lift (flap f) {
  needs   g closed
  //      ^ unknown_name
  needs   f shut
  //        ^^^^ unknown_state
  makes   f opened
  //        ^^^^^^ unknown_state
  uses up f
  uses up h
  //      ^ unknown_name
}
`);
});

test('a procedure takes what an action would', () => {
  check(`${KIT}
procedure cover_up "Cover" (sheet s) on (bed b) {
  note "Gently"
}
protocol p "P" {
  given { site : bed }
  materials { a : sheet }
  visit v "V" {
    cover_up a on site
    cover_up site on a
    //       ^^^^ wrong_kind
    //               ^ wrong_kind
    cover_up a
//  ^^^^^^^^ missing_slot
  }
}
`);
});

test('places need no list, materials and instruments do', () => {
  check(`${KIT}
bed palate "Palate"
tool spoon "Spoon"
sheet roll "Roll"
action lay (sheet s) on (bed b) with (tool t)
protocol p "P" {
  visit v "V" {
    lay roll on palate with spoon
    //  ^^^^ not_listed
    //                      ^^^^^ not_listed
  }
}
`);
});

test('a thing of the kind may be named by its kind', () => {
  check(`${KIT}
action lay (sheet s) on (bed b)
protocol p "P" {
  materials { sheet }
  visit v "V" {
    lay sheet on bed
  }
}
`);
});

test('a thing that another is part of is reached through it', () => {
  check(`${KIT}
kind tooth "tooth" is place { bed : bed }
action lay (sheet s) on (bed b)
protocol p "P" {
  given { floor : bed, t : tooth { bed floor }, u : tooth }
  materials { a : sheet }
  visit v "V" {
    lay a on t.bed
    lay a on u.bed
    //         ^^^ undecided
    lay a on t.root
    //         ^^^^ unknown_property
  }
}
`);
});
