/** A small world to ask about: what a step needs and makes, what must be left how, on which grounds. */
export const house = `
//- house.curette
source handling_sheet "Handling sheet" { by "Bone bank", year 2024 }
/// Takes up the first liquid only.
kind bone_graft "bone graft" is material {
  particle : length range within 20 um..3 mm source common_practice
  soak     : time range
  states   dry -> wetted -> packed, any -> discarded
  wetted   lasts at most soak.longest, then dried_out
  must end packed or discarded by end of visit source common_practice
  contraindicated when patient has acute_infection because "It is lost" source common_practice
}
kind liquid is material
kind packer is instrument
kind hole is place {
  states raw -> cleaned -> filled
}
/// Half a millilitre a vial.
bone_graft bank_graft "Graft of the bank" {
  particle 200..850 um source handling_sheet
  soak     10..60 min source handling_sheet
}
liquid water "Water"
hole front_hole "Hole in front"
finding wall "Wall" { intact "Intact", lost "Lost" }
pause check_in "Check in" {
  item  "Name"
  item  "Site"
  takes 1..2 min
  by    surgeon
}
/// All of it under the liquid.
action wet (bone_graft g) with (liquid l) {
  needs g dry because "It takes up the first liquid only" source common_practice
  makes g wetted
  takes 1..2 min
}
action clean (hole h) {
  makes h cleaned
  takes 1 min
}
action fill (hole h) with (bone_graft g) on (optional packer p) in (optional count n) {
  needs g wetted for g.soak
  needs h cleaned
  makes g packed, h filled
  takes 5..10 min
  by    surgeon
}
action inject (liquid l) (volume v) at (place p) { takes 1 min }
procedure clean_and_fill (hole h) with (bone_graft g) {
  clean h
  fill h with g
}
rule clean_first "A hole is clean before it is filled" {
  whenever fill (hole h) with (bone_graft g)
  expect   h is hole
  severity error
  why      "Dirt stays in"
  source   handling_sheet
}
`;

/** A protocol in that world with these lines in its visit; `$0` among them is the cursor. */
export function inVisit(lines: string): string {
  const indented = lines
    .trim()
    .split('\n')
    .map((line) => `    ${line}`)
    .join('\n');
  return `//- main.curette
use house

protocol filling "Filling" {
  version 1.0.0
  status  draft
  owner   "Unit"
  given {
    patient : patient
    gap     : hole
  }
  team { surgeon, assistant }
  materials {
    graft  : bank_graft 0.5 mL
    saline : water 5 mL
  }
  instruments { packer }

  visit first "First visit" {
${indented}
  }
}
${house.trim()}
`;
}

/** A file in that world with these lines at its top. */
export function atTop(lines: string): string {
  return `//- main.curette\nuse house\n\n${lines.trim()}\n${house.trim()}\n`;
}
