/** Texts the grammar's tests read: a file that uses every sort of line, and the blocks of the language reference. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../../..');

/** Every sort of line once at least, laid out by hand. */
export const sample = `use std/oral
use ../shared/policy

unit drop, drops is 0.05 mL
unit cartridge, cartridges is count

/// What fills a defect.
/// It soaks before it is packed.
kind filler "bone filler" is material {
  particle    : length range within 1 um..5 mm source common_practice    // outside: taken for a slip
  mineralised : yes or no
  soak        : time range
  wall        : one of thick, thin
  tooth       : one of 11..18, 21..28
  origin      : text
  limit       : mass within 1..900 mg from ceilings source common_practice
  states      dry -> wetted -> packed, wetted -> dried_out, any -> discarded
  wetted      lasts at most soak.longest, then dried_out
  must end    packed or discarded by end of visit
  serves as   filler_surface
  contraindicated when patient has acute_infection because "It would not take" source common_practice
}

kind patient is person {
  has         acute_infection, pregnancy
  takes       antiresorptive
  allergic to penicillin
}

material granules "Granules" is filler {
  particle 300..900 um
  soak     10..60 min source common_practice
}

soft_tissue gum "Gum"

figures leaflet_limits "Limits of the leaflets" of ceilings {
  granules { limit 500 mg source house_rule }
  filler {
    limit 400 mg source house_rule
    note  "For all that has no line of its own"
  }
}

apply leaflet_limits because "Agreed with the department" source house_rule

action pack "Pack" (filler g) into (site s) with (condenser) in (optional count n) {
  needs    g wetted for g.soak because "Dry granules do not hold together"
  needs    s debrided
  makes    g packed, s filled
  uses up  g at least g.amount
  takes    5..10 min usually 7 min
  by       surgeon
  source   common_practice
}

procedure close "Close the wound" (flap f) with (suture s) {
  adapt f
  tie s around f takes 2..4 min
}

pause time_out "Before the first cut" {
  item   "Patient, site and procedure said aloud"
  takes  1..2 min
  by     surgeon, assistant
  source house_rule
}

finding wall "Wall of the socket" { intact "Intact", lost "Lost" }

source house_rule "Pauses in theatre" {
  by       "The teaching unit"
  year     2020
  strength guideline
}

rule hold_on_filler "A holding sheet lies on the filler" {
  whenever lay (holding_sheet m) on (place p) where m.area > 1 cm2 and not p is wet
  expect   p is filler_surface or total m <= min(m.limit * patient.mass, 500 mg)
  severity error
  why      "It works loose on soft tissue"
  source   common_practice
  replaces other_rule
}

rule order_of_things {
  between  pack (filler g) and place (implant i) at least 4 mo
  for each drug d given in a visit
  order    cut before close
  count    pause time_out exactly once in a visit
  pause    time_out before cut (tissue)
  every    drug declares concentration, ceiling
}

/// Single-rooted site.
protocol grafted_socket "Grafted socket" {
  version  1.2.0
  status   draft
  owner    "Teaching unit"
  review   every 12 mo
  reviewed 2026-02-01
  approved 2026-02-03 by "Teaching committee"
  follows  first_visit

  given {
    patient : patient
    site    : tooth { number 14 }
    socket  : socket { tooth site, opening 7..9 mm by 6..8 mm, depth 9..12 mm }
  }
  exclude when patient has acute_infection because "Treat it first"
  caution when patient takes antiresorptive source house_rule
  team { surgeon, assistant }
  materials {
    graft   : granules 0.5 mL
    cover   : sheet 15 mm by 20 mm
    numbing : articaine 2 cartridges
    pack    : throat_pack
  }
  instruments { periotome, small : round_bur }

  visit surgery "Extraction and graft" {
    pause sign_in
    pause time_out { item "Local addition" }
    inject numbing 1.7 mL at site
      takes 2..3 min by surgeon because "Pain" source house_rule
    wet graft with carrier by assistant
    extract site with periotome, extraction_forceps   takes 10..40 min
    decide wall "Probe the wall" {
      option intact or thin { }
      option lost {
        note "Shape the filler against the soft tissue"
      }
      otherwise { stop "Refer" }
    }
    together {
      lane chairside by surgeon { debride socket with spoon_curette takes 5..15 min }
      lane "Side table" by assistant {
        trim cover to 9 mm by 8 mm with tissue_scissors
      }
    }
    wait until graft is wetted for 10 min
    pack graft into socket with condenser in 4 increments takes 5..10 min
    verify depth of socket within 9..12 mm otherwise {
      repeat until "it is flat" at most 3 times { press graft with gauze }
    }
    verify "Lies flat on the filler" otherwise "Lift and lay it again"
    lay cover on graft
    complication "Root tip breaks" { elevate tip with root_pick }
    instruct "Bite on gauze for 30 min"
    instruct "Soft food for 7 d" at home
    record photograph "Occlusal view" of site
    remove pack from throat
  }

  wait 4..6 mo

  visit planning "Imaging and planning" {
    pause sign_in
    record scan "Cone beam" of site
  }
}

case first_premolar of grafted_socket {
  site    14
  patient { mass 70 kg, has diabetes }
  wall    lost
}
`;

/** The code blocks of the language reference, in order. */
export function referenceBlocks(): string[] {
  const page = readFileSync(join(root, 'grammar/LANGUAGE.md'), 'utf8');
  return [...page.matchAll(/^```\n([\s\S]*?)^```$/gm)].map((match) => match[1] ?? '');
}
