/** Decisions that the library makes for a protocol: what was found goes on to be asked for where it matters. */
import { describe, expect, test } from 'vitest';
import { problemsOf, readFixture } from '../../support/fixture.ts';

describe('an implant at once or later', () => {
  const MARK = 'mark site with round_marking_drill at 1000 /min under water';
  const socket = (options: string) => `use std/perioperative
use std/anaesthesia
use std/oral
use std/implants
protocol p "P" {
  given {
    patient : patient
    root    : tooth
    hollow  : socket { tooth root, depth 9 mm }
    scan    : image { view cone_beam }
    site    : fresh_socket_site { image scan, covering gingiva, socket hollow }
  }
  team { surgeon }
  materials { numbing : articaine_4_with_epinephrine 2 cartridges, water : sterile_saline }
  instruments { periodontal_probe, periotome, spoon_curette, round_marking_drill }
  visit v "V" {
    pause sign_in
    review scan
    inject numbing 1.7 mL at root, site
    wait 2 min
    test root, site with periodontal_probe
    pause time_out
    extract root with periotome
    debride hollow with spoon_curette
${options}
    pause sign_out
  }
}
`;
  const weighed = (...options: string[]) =>
    socket(`    weigh site
    decide wall_on_scan, gingiva_at_site, smile_line "Once more" {
${options.map((option) => `      ${option}\n`).join('')}      otherwise { note "Later" }
    }`);

  test('where nothing speaks against it the site can be marked', () => {
    expect(states(weighed(`option intact, thick, any { ${MARK} }`, `option intact, thin, low { ${MARK} }`))).toEqual(
      [],
    );
  });

  test.each(['windowed, any, any', 'lost, thick, low', 'intact, thin, high', 'intact, thin, any', 'any, thick, any'])(
    'where %s was found it cannot',
    (found) => {
      expect(states(weighed(`option ${found} { ${MARK} }`))).toEqual([
        expect.stringContaining('has to be fit for implant'),
      ]);
    },
  );

  test('nor can it where nobody has weighed it', () => {
    expect(states(socket(`    ${MARK}`))).toEqual([expect.stringContaining('"site" is still not weighed')]);
  });
});

describe('the lining of the sinus', () => {
  const sinus = (...lines: string[]) => `use std/perioperative
use std/anaesthesia
use std/oral
use std/wound
use std/grafting
use std/sinus
apply packaged_grains because "x"
protocol p "P" {
  given {
    patient : patient
    scan    : image { view cone_beam }
    floor   : sinus_floor { image scan, covering gingiva, residual_height 3 mm }
  }
  team { surgeon, assistant }
  materials {
    numbing : articaine_4_with_epinephrine 2 cartridges
    water   : sterile_saline
    grains  : coarse_bovine_mineral 2 mL
    saline  : saline_for_soaking 3 mL
    sheet   : porcine_collagen_barrier 15 mm by 20 mm
  }
  instruments {
    periodontal_probe, rounded_blade, periosteal_elevator, round_diamond, bent_sinus_elevator, tissue_scissors
    graft_condenser
  }
  visit v "V" {
    pause sign_in
    review scan
    inject numbing 1.7 mL at floor, gingiva
    wait 2 min
    test floor, gingiva with periodontal_probe
    pause time_out
    incise gingiva with rounded_blade
    raise gingiva with periosteal_elevator
    open floor with round_diamond under water
    lift floor to 8 mm with bent_sinus_elevator
    wet grains with saline
    wait until grains is wetted for grains.soak
${lines.map((line) => `    ${line}\n`).join('')}    pack grains into floor with graft_condenser
  }
}
`;
  const inspected = (small: string, large: string) =>
    sinus(
      'inspect floor',
      'trim sheet to 12 mm by 12 mm with tissue_scissors',
      'decide sinus_lining "Once more" {',
      '  option whole { }',
      `  option small_tear { ${small} }`,
      `  option large_tear { ${large} }`,
      '}',
    );

  test('a tear is patched, or nothing is packed', () => {
    expect(states(inspected('patch floor with sheet', 'stop "Later"'))).toEqual([]);
  });

  test('a tear that is not patched is told where the graft goes in', () => {
    expect(states(inspected('note "Small"', 'stop "Later"'))).toEqual([
      expect.stringMatching(/lining tight.*small tear/s),
    ]);
  });

  test('a lost lining takes no patch and no graft', () => {
    expect(states(inspected('patch floor with sheet', 'patch floor with sheet'))).toEqual([
      expect.stringContaining('has to be lining torn'),
    ]);
    expect(states(inspected('patch floor with sheet', 'note "Large"'))).toEqual([
      expect.stringMatching(/lining tight.*large tear/s),
    ]);
  });

  test('nothing is packed below a lining that nobody looked at', () => {
    expect(states(sinus())).toEqual([expect.stringContaining('is still lining unseen')]);
  });
});

/** What is told of things in a state in which a step cannot take them. */
function states(text: string): string[] {
  return problemsOf(readFixture(text)).flatMap(({ problem }) =>
    /^(wrong_state|impossible_move|unmet_need|unknown_|undecided)/.test(problem.code) ? [problem.message] : [],
  );
}
