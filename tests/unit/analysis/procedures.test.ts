/** Procedures: states and time flow through them, and what is wrong in them is told where it can be mended. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged
kind graft "graft" is material {
  states dry -> wetted -> packed
}
kind pack "pack" is material {
  states   counted -> in_place -> removed
  must end counted or removed by end of visit source common_practice
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted
  makes g packed
  takes 1 min
}
action place (pack p) { makes p in_place }
action remove (pack p) { makes p removed }
`;

test('states flow into a procedure and out of it', () => {
  check(`${KIT}
procedure fill (graft g) {
  wet g
  pack g
}
protocol p "P" {
  materials { a : graft }
  visit v "V" {
    fill a
  }
}
`);
});

test('what a procedure needs is shown where it is called', () => {
  check(`${KIT}
procedure fill (graft g) {
  pack g
}
protocol p "P" {
  materials { a : graft, b : graft }
  visit v "V" {
    wet a
    fill a
    fill b
//  ^^^^ wrong_state (error)
  }
}
`);
});

test('what a procedure leaves undone is shown where it is called', () => {
  check(`${KIT}
procedure cover (pack p) {
  place p
}
protocol p "P" {
  materials { a : pack, b : pack }
  visit v "V" {
    cover a
//  ^^^^^ left_undone (error)
    cover b
    remove b
  }
}
`);
});

test('time passes in a procedure', () => {
  check(`${KIT}
procedure wait_long (graft g) {
  wait 10 min
}
action squeeze (graft g) {
  needs g wetted for 10 min
}
protocol p "P" {
  materials { a : graft, b : graft }
  visit v "V" {
    wet a
    wait_long a
    squeeze a
    wet b
    squeeze b
    //      ^ clock_broken (error)
  }
}
`);
});

test('a procedure may call another', () => {
  check(`${KIT}
procedure moisten (graft h) {
  wet h
}
procedure fill (graft g) {
  moisten g
  pack g
}
protocol p "P" {
  materials { a : graft }
  visit v "V" {
    fill a
  }
}
`);
});

test('two procedures that call each other are told, and do not hang', () => {
  check(`${KIT}
procedure one (graft g) {
  two g
// <^ procedure_in_itself (error)
}
procedure two (graft g) {
  one g
// <^ procedure_in_itself (error)
}
protocol p "P" {
  materials { a : graft }
  visit v "V" {
    one a
//  ^^^ procedure_in_itself (error)
  }
}
`);
});

test('a procedure speaks of its own slots only', () => {
  check(`${KIT}
procedure fill (graft g) {
  wet a
  //  ^ unknown_name (error)
  pack g
}
protocol p "P" {
  materials { a : graft, b : graft }
  //                     ^ never_used (warning)
  visit v "V" {
    wet a
    fill a
  }
}
`);
});

test('a procedure of another file works with the things of this one', () => {
  check(`
// quiet: missing_head
//- a.curette
use b
protocol p "P" {
  materials { a : graft }
  visit v "V" {
    fill a
  }
}

//- b.curette
kind graft "graft" is material {
  states dry -> wetted -> packed
}
action wet (graft g) { makes g wetted }
procedure fill (graft g) {
  wet g
  wett g
// <^^ unknown_action (error)
}
`);
});

test('a line of a procedure that cannot be right is told in the procedure, called or not', () => {
  check(`${KIT}
procedure fill (graft g) {
  wett g
// <^^ unknown_action (error)
  pack g with nothing
  //          ^^^^^^^ extra_detail (error)
  //          ^^^^^^^ unknown_name (error)
}
`);
});

test('a condition on what a procedure is used with is judged where it is used', () => {
  check(`${KIT}
kind screw "screw" is material { length : length }
kind long_screw "long screw" is screw
action drive (screw s) {
  needs s.length <= 10 mm
  needs s is long_screw
}
procedure fasten (screw s) {
  drive s
}
protocol p "P" {
  materials {
    a : long_screw { length 8 mm }
    b : long_screw { length 12 mm }
    c : long_screw
    e : screw { length 8 mm }
  }
  visit v "V" {
    fasten a
    fasten b
//  ^^^^^^ unmet_need (error)
    fasten c
//  ^^^^^^ undecided (warning)
    fasten e
//  ^^^^^^ unmet_need (error)
  }
}
`);
});

test('a rule about a step is broken in a procedure as well', () => {
  check(`${KIT}
rule never_wet_patient_owned "Nothing is wetted" {
  whenever wet (graft g)
  expect   g is pack
  severity error
  why      "It is not"
  source   common_practice
}
procedure moisten (graft h) {
  wet h
}
protocol p "P" {
  materials { a : graft }
  visit v "V" {
    moisten a
//  ^^^^^^^ never_wet_patient_owned (error)
  }
}
`);
});

test('a procedure called with several things in one slot does its work on each', () => {
  check(`${KIT}
action clear (one or more pack p) { makes p removed }
procedure take_out (one or more pack p) {
  clear p
}
protocol p "P" {
  materials { a : pack, b : pack, c : pack }
  visit v "V" {
    place a
    place b
    place c
    //    ^ left_undone (error)
    take_out a, b
  }
}
`);
});
