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
verify "Full" otherwise "More"`;
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
        wet graft with saline — assistant
        decide: wall — Look at the wall
          intact
            clean gap
          lost
            stop "Come back"
        together
          left — surgeon
            wait 10 min
        verify "Full" otherwise "More""
  `);
});

test('half-typed lines have a name in it', () => {
  expect(outlineOf(inVisit('decide\ndecide wall {\n  option\n}\npause'))).toContain('option');
});
