/** What rules reckon with the sides of a size. */
import { test } from 'vitest';
import { check } from '../../support/fixture.ts';

function text(expects: string, hole: string, piece: string, more = ''): string {
  return `
// quiet: missing_head, not_judged, never_used
kind hole "hole" is place {
  opening : size
  depth   : length within 1 mm..50 mm
}
kind sheet "sheet" is material { rim : length }
kind grain "grain" is material
action trim (sheet s) to (size piece) over (hole h)
action fill (hole h) with (grain g)
rule covers "The piece covers the hole" {
  whenever trim (sheet s) to (size piece) over (hole h)
  expect   ${expects}
  severity warning
  why      "It falls in"
  source   common_practice
}
rule fills "There is no more than the hole holds" {
  whenever fill (hole h) with (grain g)
  expect   g.amount <= h.opening.area * h.depth
  severity error
  why      "It spills"
  source   common_practice
}
protocol p "P" {
  given { gap : hole${hole} }
  materials {
    cover : sheet { rim 2 mm }
    grains : grain 0.5 mL
  }
  visit v "V" {
    trim cover to ${piece} over gap
${more}
  }
}
`;
}

const SHORT = 'piece.short_side >= h.opening.short_side + 2 * s.rim';

test('a side of a piece against a side of an opening, whichever way either is written', () => {
  check(text(SHORT, ' { opening 6 mm by 7 mm }', '12 mm by 10 mm'));
  check(
    text(
      SHORT,
      ' { opening 7 mm by 6 mm }',
      '9 mm by 12 mm',
      '    //            ^^^^^^^^^^^^^ covers (warning): that is not so',
    ),
  );
});

test('sides that are ranges: in some circumstances', () => {
  check(
    text(
      SHORT,
      ' { opening 6..8 mm by 7..9 mm }',
      '11 mm by 14 mm',
      '    //            ^^^^^^^^^^^^^^ covers (warning): in some circumstances',
    ),
  );
  check(text('piece.long_side >= h.opening.long_side + 4 mm', ' { opening 6..8 mm by 7..9 mm }', '13 mm by 8 mm'));
});

test('an area by a depth is a volume', () => {
  check(text('yes = yes', ' { opening 8 mm by 7 mm, depth 10 mm }', '9 mm by 9 mm', '    fill gap with grains'));
  check(
    text(
      'yes = yes',
      ' { opening 8 mm by 6 mm, depth 10 mm }',
      '9 mm by 9 mm',
      '    fill gap with grains\n    //            ^^^^^^ fills (error)',
    ),
  );
});

test('an unknown depth is solved for', () => {
  check(
    text(
      'yes = yes',
      ' { opening 8 mm by 5 mm }',
      '9 mm by 9 mm',
      '    fill gap with grains\n    //            ^^^^^^ fills (warning): sure only from 12.5 mm on',
    ),
  );
});

test('what is not stated is said', () => {
  check(text(SHORT, '', '9 mm by 9 mm', '    //            ^^^^^^^^^^^^ undecided: opening of gap'));
  check(
    text('piece.volume > 1 mL', '', '9 mm by 9 mm', '    //            ^^^^^^^^^^^^ undecided: a size with 3 sides'),
  );
});
