import { expect, test } from 'vitest';
import { outlineOf } from '../../support/editor.ts';
import { inVisit } from './house.ts';

test('the outline reads like the protocol', () => {
  const lines = `
pause check_in
wet graft with saline takes 1..2 min by assistant
decide wall "Look at the wall" {
  option intact { clean gap }
  option lost { stop "Come back" }
}
together {
  lane left by surgeon { wait 10 min }
}
verify "Full" otherwise "More"
verify soak of graft within 10..60 min otherwise { stop "Too late" }
record photograph "From above" of gap by assistant
instruct "Rest" at home
repeat until "no more_comes" at most 3 times { clean front_hole by surgeon because "So" }
complication "It breaks" { wait until graft is wetted for 10 min }`;
  expect(outlineOf(inVisit(lines))).toMatchInlineSnapshot(`
    "filling — Filling
      given
        patient — patient
        gap — hole
      team
        surgeon
        assistant
      materials
        graft — bank graft
        saline — water
      instruments
        packer
      First visit — visit
        pause: check in
        wet graft with saline — 1..2 min · assistant
        decide: wall — Look at the wall
          if intact
            clean gap
          if lost
            stop: Come back
        together
          left — surgeon
            wait 10 min
        verify: Full — otherwise: More
        verify soak of graft within 10..60 min, otherwise
          stop: Too late
        record photograph of gap — From above · assistant
        instruct: Rest — at home
        repeat until "no more_comes" at most 3 times
          clean front hole — surgeon
        It breaks — complication
          wait until graft is wetted for 10 min"
  `);
});

test('half-typed lines have a name in it', () => {
  expect(outlineOf(inVisit('decide\ndecide wall {\n  option\n}\npause'))).toContain('option');
});
