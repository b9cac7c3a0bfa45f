/** Kinds of things: what they have from their ancestors, their states, what fits where. */
import { describe, test } from 'vitest';
import { check } from '../../support/fixture.ts';

test('a kind has what its parents have: properties, states, duties', () => {
  check(`
// quiet: missing_head
kind sheet "sheet" is material {
  thickness : length
  states    folded -> flat
  must end  folded by end of visit source common_practice
}
kind cover "cover" is sheet {
  colour : text
}
cover blue "Blue" {
  thickness 1 mm
  colour    "blue"
}
action flatten (sheet s) {
  makes s flat
}
protocol p "P" {
  materials { blue }
  visit v "V" {
    flatten blue
    //      ^^^^ left_undone
  }
}
`);
});

test('a kind further down is fit where its ancestor is asked for, and not the other way round', () => {
  check(`
// quiet: missing_head
kind sheet "sheet" is material
kind cover "cover" is sheet
action lay (sheet s)
action fold (cover c)
protocol p "P" {
  materials { a : cover, b : sheet }
  visit v "V" {
    lay a
    fold b
    //   ^ wrong_kind
  }
}
`);
});

test('a kind may serve as another, and so do its heirs', () => {
  check(`
// quiet: missing_head
kind surface "surface" is place
kind graft "graft" is material {
  serves as surface
}
kind chip "bone chip" is graft
kind putty "putty" is material
action lay (material m) on (surface s)
protocol p "P" {
  materials { cover : putty, chips : chip }
  visit v "V" {
    lay cover on chips
    lay chips on cover
    //           ^^^^^ wrong_kind
  }
}
`);
});

test('an own state joins a track of the parent when a move leads to it, and begins one of its own when none does', () => {
  check(`
// quiet: missing_head
kind site "site" is place {
  states clean -> soiled -> clean
}
kind socket "socket" is site {
  states soiled -> filled
  states dry -> wet
}
action soil (site s) { makes s soiled }
action fill (socket s) {
  needs s soiled
  makes s filled
}
action wet (socket s) { makes s wet }
protocol p "P" {
  given { a : socket, b : socket }
  visit v "V" {
    wet a
    soil a
    wet a
    fill a
    fill b
    //   ^ wrong_state
  }
}
`);
});

test('a state that may follow any other may come at any time', () => {
  check(`
// quiet: missing_head
kind vial "vial" is material {
  states closed -> open -> empty, any -> discarded
}
action open (vial v) { makes v open }
action discard (vial v) { makes v discarded }
protocol p "P" {
  materials { a : vial, b : vial }
  visit v "V" {
    discard a
    open b
    discard b
    open b
    //   ^ impossible_move
  }
}
`);
});

test('a property of the parent cannot be filled in with another sort of value', () => {
  check(`
kind sheet "sheet" is material {
  thickness : length
}
kind cover "cover" is sheet
cover blue "Blue" {
  thickness 5 min
  //        ^^^^^ wrong_measure
}
cover red "Red" {
  thickness "thin"
  //        ^^^^^^ wrong_value
}
`);
});

test('a property declared twice in one kind is told', () => {
  check(`
kind sheet "sheet" is material {
  thickness : length
  thickness : text
// <^^^^^^^ duplicate_name
}
`);
});

test('a property that names another kind takes a thing of it', () => {
  check(`
// quiet: missing_head
kind tooth "tooth" is place
kind socket "socket" is place {
  tooth : tooth
}
protocol p "P" {
  given {
    upper : tooth
    a : socket { tooth upper }
    b : socket { tooth patient }
    //                 ^^^^^^^ wrong_kind
    c : socket { tooth nobody }
    //                 ^^^^^^ unknown_name
    patient : patient
  }
  visit v "V" {
    note "Look"
  }
}
`);
});

test('a closed set takes its members and nothing else, numbers and runs of numbers included', () => {
  check(`
kind tooth "tooth" is place {
  number : one of 11..18, 21..28
  sides  : any of mesial, distal
}
tooth premolar "Premolar" {
  number 14
  sides  mesial, distal
}
tooth nothing "Nothing" {
  number 19
  //     ^^ value_outside_set
  sides  mesial, lingual
  //             ^^^^^^^ value_outside_set
}
`);
});

test('a state, an age limit or a duty about a state that is not there is told', () => {
  check(`
kind graft "graft" is material {
  states   dry -> wetted
  soaked   lasts at most 10 min source common_practice
// <^^^^ unknown_state
  must end weted by end of visit source common_practice
  //       ^^^^^ unknown_state
}
`);
});

test('what follows when a state is over is a state of the kind', () => {
  check(`
kind graft "graft" is material {
  states dry -> wetted
  wetted lasts at most 10 min, then dried_out source common_practice
}
action use (graft g) {
  needs g dried_out
}
`);
});

test('an entry is of a kind, of a narrower one, but not of another', () => {
  check(`
kind sheet "sheet" is material
kind cover "cover" is sheet
sheet one "One"
sheet two "Two" is cover
cover three "Three" is sheet
//                     ^^^^^ wrong_kind
`);
});

test('a kind that is its own grandchild is told, and what hangs on it is still read', () => {
  check(`
kind a "a" is b
//            ^ kind_of_itself
kind b "b" is c
//            ^ kind_of_itself
kind c "c" is a
//            ^ kind_of_itself
a thing "Thing" {
  size 4 mm
// <^^ unknown_property
}
`);
});

test('lists that a kind closes are of its heirs too', () => {
  check(`
// quiet: missing_head
kind person "person" is patient {
  has night_blindness
}
protocol p "P" {
  given { someone : person }
  exclude when someone has diabetes
  exclude when someone has night_blindness
  exclude when someone has day_blindness
  //                       ^^^^^^^^^^^^^ value_outside_set
  visit v "V" {
    note "Look"
  }
}
`);
});

describe('what an action says of patients', () => {
  const WORDS = `// quiet: missing_head
kind joint "joint" is place
kind needle "needle" is instrument {
  caution when patient has diabetes because "It heals slowly" source common_practice
}
action puncture "Puncture" (joint j) with (needle n) {
  contraindicated when patient has acute_infection because "It carries the infection in" source common_practice
  caution when patient takes vitamin_k_antagonist because "It bleeds on" source common_practice
}
procedure reach (joint j) with (needle n) {
  puncture j with n
}
`;
  const protocol = (lines: string, steps: string) => `${WORDS}protocol p "P" {
  given { patient : patient, knee : joint }
${lines}
  instruments { long_one : needle }
  visit v "V" {
${steps}
  }
}
`;

  test('is asked at the first step that does it, with its source; what only needs care as well', () => {
    check(
      protocol(
        '  caution when patient has diabetes',
        `    puncture knee with long_one
//  ^^^^^^^^ contraindication_open (warning): "Puncture" is contraindicated when the patient has acute infection, and the protocol neither excludes
//  ^^^^^^^^ contraindication_open (warning): "Puncture" needs care when the patient takes vitamin k antagonist
    note "Turn it"
    puncture knee with long_one`,
      ),
    );
  });

  test('is asked of a procedure where it is called, and an instrument where it is listed', () => {
    check(`${WORDS}protocol p "P" {
  given { patient : patient, knee : joint }
  exclude when patient has acute_infection
  instruments { long_one : needle }
  //            ^^^^^^^^ contraindication_open (warning): Needle ("long one") needs care when the patient has diabetes
  visit v "V" {
    reach knee with long_one
  //^^^^^ contraindication_open (warning): vitamin k antagonist
  }
}
`);
  });

  test('is silent where the protocol speaks of them, or does nothing of the kind', () => {
    const speaking = `  exclude when patient has acute_infection
  caution when patient has diabetes
  caution when patient takes vitamin_k_antagonist`;
    check(protocol(speaking, '    puncture knee with long_one'));
    check(
      protocol('  caution when patient has diabetes', '    record photograph "Knee"').replace(
        '// quiet: missing_head',
        '// quiet: missing_head, never_used',
      ),
    );
  });

  test('said of a single thing of a protocol it is not judged', () => {
    check(`${WORDS}protocol p "P" {
  given {
    knee : joint {
      caution when patient has diabetes
//    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ not_judged
    }
  }
  visit v "V" { note "Look" }
}
`);
  });

  test('names what there is, and asks nothing else', () => {
    check(`
// quiet: missing_head
kind joint "joint" is place
action puncture "Puncture" (joint j) {
  contraindicated when patient has acute_infecton source common_practice
  //                               ^^^^^^^^^^^^^^ unknown_name
  caution when j is joint source common_practice
  //           ^^^^^^^^^^ not_judged
}
`);
  });
});

test('what is contraindicated for a kind is so for its heirs and its entries', () => {
  check(`
// quiet: missing_head
kind glue "glue" is material {
  contraindicated when patient allergic to latex because "It has some" source common_practice
}
kind strong_glue "strong glue" is glue
strong_glue tube "Tube" {
  contraindicated when patient has diabetes because "Slow healing" source common_practice
}
action apply (glue g)
protocol p "P" {
  given { patient : patient }
  caution when patient has diabetes
  materials { tube }
  //          ^^^^ contraindication_open
  visit v "V" {
    apply tube
  }
}
`);
});

describe('what a kind says of the amount that is listed', () => {
  const WORDS = `// quiet: missing_head
unit vial, vials is count
unit box, boxes is count
kind filler "filler" is material {
  vial   : volume
  amount : volume within 0.1 mL..20 mL source common_practice
}
kind sheet "sheet" is material {
  amount : size within 2 mm..100 mm source common_practice
}
kind thread "thread" is material
filler granules "Granules" { vial 0.5 mL }
action use (material m)
`;

  test('it is measured so, and plausible; a counting unit by what one of it holds', () => {
    check(`${WORDS}protocol p "P" {
  materials {
    one   : granules 0.5 mL
    two   : granules 4 vials
    three : granules 400 vials
    //               ^^^^^^^^^ outside_plausible (error): Amount 400 vials, which comes to 200 mL, is out of all proportion
    four  : granules 5 L
    //               ^^^ outside_plausible (error): 1,000 times too large: plausible is 0.1–20 mL. Was 5 mL meant?
    five  : granules 5 mm
    //               ^^^^ wrong_measure (error)
    six   : granules 5 mm by 5 mm
    //               ^^^^^^^^^^^^ wrong_measure (error)
    seven : granules 2 boxes
    eight : granules
    nine  : sheet 15 mm by 20 mm
    ten   : sheet 15 cm by 20 mm
    //            ^^^^^^^^^^^^^^ outside_plausible (error)
    eleven : sheet 3 mL
    //             ^^^^ wrong_measure (error)
    twelve : thread 3 mL
  }
  visit v "V" {
    use one
    use two
    use three
    use four
    use five
    use six
    use seven
    use eight
    use nine
    use ten
    use eleven
    use twelve
  }
}
`);
  });

  test('in braces it is said not to be judged', () => {
    check(`${WORDS}filler paste "Paste" { amount 3 mL }
//                     ^^^^^^^^^^^ not_judged
`);
  });
});
