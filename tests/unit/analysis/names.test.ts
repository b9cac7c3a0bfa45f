/** Names and the files they come from. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

test('a name of the core is known everywhere without being asked for', () => {
  check(`
kind sheet "sheet" is material
`);
});

test('a name of the library is known where its file is in use', () => {
  check(`
use std/perioperative

counted_item packing "Packing gauze" is gauze
`);
});

test('a name of the library is told to need its file', () => {
  check(`
counted_item packing "Packing gauze" is gauze
//                                      ^^^^^ unknown_kind
`);
});

test('what a used file uses is not visible through it', () => {
  check(`
//- a.curette
use b
//  ^ unused_use

sheet cover "Cover"
// <^ unknown_kind

//- b.curette
use c

place bed "Bed" is spot

//- c.curette
kind sheet "sheet" is material
kind spot "spot" is place
`);
});

test('a name of the file itself comes before one of a file in use', () => {
  check(`
// quiet: missing_head
//- a.curette
use b

kind sheet "sheet" is place
action lay (sheet s)

protocol p "P" {
  given { cover : sheet }
  visit v "V" {
    lay cover
  }
}

//- b.curette
kind sheet "sheet" is material
rule nothing "Nothing" {
  count  lift (sheet s) never
  why    "It stays"
  source common_practice
}
action lift (sheet s)
`);
});

test('three files in a ring are each told', () => {
  check(`
//- a.curette
use b
//  ^ use_cycle
kind ka is kb

//- b.curette
use c
//  ^ use_cycle
kind kb is kc

//- c.curette
use a
//  ^ use_cycle
kind kc is material
action do (ka thing)
`);
});

test('a file that uses itself is told once', () => {
  check(`
//- a.curette
use a
//  ^ use_cycle
kind ka is material
`);
});

test('a missing file does not silence the rest', () => {
  check(`
use nowhere
//  ^^^^^^^ missing_file
kind sheet "sheet" is materiel
//                    ^^^^^^^^ unknown_kind
`);
});

test('a file is needed for its rules alone', () => {
  check(`
//- a.curette
use b
kind ka is material

//- b.curette
action lift (material m)
rule nothing "Nothing" {
  count  lift (material m) never
  why    "It stays"
  source common_practice
}
`);
});

test('a file is needed for a unit, a source, a finding or a pause alone', () => {
  check(`
//- u.curette
use unit
kind dose is material { amount : volume within 1 drop..9 mL source common_practice }

//- s.curette
use source
kind dose is material { amount : volume within 1 mL..9 mL source handbook }

//- f.curette
use finding
protocol p {
  version 1.0.0
  status draft
  owner "Unit"
  visit v {
    decide wall { otherwise { } }
  }
}

//- p.curette
use pause
protocol p {
  version 1.0.0
  status draft
  owner "Unit"
  visit v {
    pause count_in
  }
}

//- pause.curette
pause count_in "Count" { takes 1 min }

//- unit.curette
unit drop is 0.05 mL

//- source.curette
source handbook "Handbook" { by "Somebody" }

//- finding.curette
finding wall { intact, lost }
`);
});

test('a path may not leave the workspace, however it is written', () => {
  check(`
//- deep/a.curette
use ../../b
//  ^^^^^^^ use_outside
use /etc/passwd
//  ^^^^^^^^^^^ use_outside
use ../deep/../../b
//  ^^^^^^^^^^^^^^^ use_outside
use std/../../b
//  ^^^^^^^^^^^ use_outside
`);
});

test('a path may go up and down again within the workspace', () => {
  check(`
//- deep/a.curette
use ../deep/b
kind ka is kb

//- deep/b.curette
kind kb is material
`);
});

test('a library path that climbs out of the library is told', () => {
  check(`
use std/../core
//  ^^^^^^^^^^^ use_outside
`);
});

test('of two things of one name the first counts', () => {
  check(`
kind sheet is material
kind sheet is place
//   ^^^^^ duplicate_name
place sheet "Sheet"
//    ^^^^^ duplicate_name
`);
});

test('a rule and a kind may share a name', () => {
  check(`
kind sheet is material
action lay (sheet s)
rule sheet "Sheets" {
  count  lay (sheet s) at most 2 times
  why    "Two are enough"
  source common_practice
}
`);
});

test('a misspelt name is offered its neighbour', () => {
  check(`
source handbook "Handbook" { by "Somebody" }
kind dose is material { amount : volume within 1 mL..9 mL source handbok }
//                                                               ^^^^^^^ unknown_name
`);
});

test('names in another alphabet are names', () => {
  check(`
kind Öffnung "Öffnung" is place
place größe "Größe" is Öffnung
`);
});
