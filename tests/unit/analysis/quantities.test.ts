/** Values with units, their measures, ranges and plausible spans. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
kind dose "dose" is material {
  strength : mass within 1 mg..10 g source common_practice
  depth    : length
  spin     : rotational speed
  hold     : torque
  soak     : time range
  opening  : size
  share    : ratio
  pieces   : count
  mix      : concentration
}
`;

test('a value in another unit of the same measure is right', () => {
  check(`${KIT}
dose a "A" {
  strength 500000 ug
  depth    1.2 cm
  spin     800 /min
  hold     35 N.cm
  soak     10 min..2 h
  opening  7..9 mm by 6..8 mm
  share    60 %
  pieces   4
  mix      40 mg/mL
}
`);
});

test('a value of another measure is told, whatever its size', () => {
  check(`${KIT}
dose a "A" {
  strength 500 mL
  //       ^^^^^^ wrong_measure
  depth    12 min
  //       ^^^^^^ wrong_measure
  spin     800 mm
  //       ^^^^^^ wrong_measure
  hold     35 N
  //       ^^^^ wrong_measure
  soak     10 mm
  //       ^^^^^ wrong_measure
  mix      40 mg
  //       ^^^^^ wrong_measure
}
`);
});

test('a number without a unit is no length', () => {
  check(`${KIT}
dose a "A" {
  depth 12
  //    ^^ wrong_measure
}
`);
});

test('a range has its smaller end first', () => {
  check(`${KIT}
dose a "A" {
  depth 12..9 mm
  //    ^^^^^^^^ reversed_range
  soak  2 h..10 min
  //    ^^^^^^^^^^^ reversed_range
}
`);
});

test('ends of a range in two measures are told', () => {
  check(`${KIT}
dose a "A" {
  depth 9 mm..12 min
  //    ^^^^^^^^^^^^ wrong_measure
}
`);
});

test('a unit on the second end counts for both', () => {
  check(`${KIT}
dose a "A" {
  depth 9..12 mm
}
`);
});

test('a slip of a thousand is told with the unit that was meant', () => {
  check(`${KIT}
dose a "A" {
  strength 400 g
  //       ^^^^^ outside_plausible: Was 400 mg meant?
}
`);
});

test('a range that leaves the plausible span at one end is told', () => {
  check(`${KIT}
dose a "A" {
  strength 5 g..20 g
  //       ^^^^^^^^^ outside_plausible
}
`);
});

test('the ends of the plausible span are plausible', () => {
  check(`${KIT}
dose a "A" {
  strength 1 mg..10 g
}
`);
});

test('a unit that reads like another is refused', () => {
  check(`${KIT}
dose a "A" {
  strength 5 Mg
  //         ^^ unknown_unit
  depth    3 m.m
  //         ^^^ unknown_unit
}
`);
});

test('a unit that nobody knows is told once, and its value is not judged', () => {
  check(`${KIT}
dose a "A" {
  strength 5 mgg
  //         ^^^ unknown_unit
}
`);
});

test('one side of a size in another measure is told', () => {
  check(`
kind hole "hole" is place {
  opening : size
}
hole a "A" {
  opening 7 mm by 6 min
  //              ^^^^^ wrong_measure
}
`);
});

test('a declared unit counts as what it is worth', () => {
  check(`
unit spoon, spoons is 5 mL
kind drink "drink" is material {
  portion : volume within 1 mL..20 mL source common_practice
}
drink small "Small" {
  portion 2 spoons
}
drink large "Large" {
  portion 5 spoons
  //      ^^^^^^^^ outside_plausible
}
`);
});

test('months are a time where healing is stated, and none where a step is', () => {
  check(`
// quiet: missing_head
kind sheet "sheet" is material {
  lasts : time range
}
sheet slow "Slow" {
  lasts 4..6 mo
}
action lay (sheet s) {
  takes 2 mo
  //    ^^^^ calendar_in_visit
}
protocol p "P" {
  materials { slow }
  visit v "V" {
    lay slow takes 3 mo
    //             ^^^^ calendar_in_visit
    wait 1 mo
    //   ^^^^ calendar_in_visit
    wait until slow is gone for 2 mo
    //                 ^^^^ unknown_state
  }
}
`);
});
