/** Every rule of the packs about sockets with a lost wall and about shaping gingiva, and of soft-tissue grafts lying still. */
import type { Tried, Tries } from './tried.ts';

const protocol = (visits: string) => `use std/perioperative
use std/anaesthesia
use std/wound
use std/oral
use std/grafting
use std/connective_tissue
use std/implants
use std/lost_wall
use std/shaping
apply packaged_grains because "x"
apply margin_of_two_mm because "x"
apply cheek_bone_two_mm because "x"
apply loading_from_35 because "x"

/// P
protocol p "P" {
  given {
    patient : patient
    scan    : image { view cone_beam }
    later   : planning_image { view cone_beam }
    site    : tooth
    socket  : socket_without_wall { tooth site, opening 8 mm by 7 mm, depth 10 mm }
    gap     : implant_site { image scan, covering gingiva, space 8..9 mm, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant fixture }
  }
  team { surgeon }
  materials {
    graft   : cortical_allograft 1 mL
    barrier : slow_collagen_barrier 20 mm by 30 mm
    gut     : plain_gut
    chromic : chromic_gut
    thread  : nylon
    piece   : palatal_tissue
    swab    : marked_swab
    fixture : standard_implant
    slim    : slim_crown
    cap     : low_healing_abutment
    fibrin  : liquid_fibrin 1 mL
    biting  : shaping_crown { in_the_bite yes }
    crown   : screwed_crown
  }
  instruments { graft_condenser, fine_needle_holder, suture_scissors, implant_driver, screw_driver, tube_centrifuge }
${visits}
}
`;
const visit = (...lines: string[]) => protocol(`  visit v "V" {\n${lines.map((line) => `    ${line}\n`).join('')}  }`);
const visits = (wait: string, first: readonly string[], second: readonly string[]) =>
  protocol(`  visit one "One" {\n${first.map((line) => `    ${line}\n`).join('')}  }
  wait ${wait}
  visit two "Two" {\n${second.map((line) => `    ${line}\n`).join('')}  }`);

const TUCK = 'tuck barrier into socket to 3 mm';
const PACK = 'pack graft into socket with graft_condenser in 4 increments';
const SEAT = 'place fixture into gap with implant_driver at 25 /min';
const SECURE = 'secure piece under gingiva with chromic on fine_needle_holder';

const rules: Record<string, Tried> = {
  lining_reaches_sound_bone: [visit('tuck barrier into socket to 1 mm'), visit(TUCK, PACK, 'fold barrier over graft')],
  lining_is_folded_over: [visit(TUCK, PACK), visit(TUCK, PACK, 'fold barrier over graft')],
  stitches_over_a_lining_stay: [
    visits('7 d', [TUCK], ['remove thread from gingiva with suture_scissors']),
    visits('10..14 d', [TUCK], ['remove thread from gingiva with suture_scissors']),
  ],
  lost_wall_heals_longer: [visits('4 mo', [PACK], ['review later']), visits('5..6 mo', [PACK], ['review later'])],
  grafted_socket_is_seen_again: [
    visits('10 d', [PACK], ['instruct "Brush softly"']),
    visits('10 d', [PACK], ['recheck socket']),
  ],
  blood_is_spun_as_slowly_as_described: [
    visit('spin fibrin with tube_centrifuge at 7000 /min'),
    visit('spin fibrin with tube_centrifuge at 700 /min'),
  ],
  shaping_waits_for_bone: [
    visits('4 wk', [SEAT], ['load fixture with slim']),
    visits('3..4 mo', [SEAT], ['load fixture with slim']),
  ],
  opened_gingiva_heals_before_it_is_shaped: [
    visits('7 d', ['place cap on fixture with screw_driver'], ['load fixture with slim']),
    visits('3 wk', ['place cap on fixture with screw_driver'], ['load fixture with slim']),
  ],
  shaped_gingiva_follows_slowly: [
    visits('2 d', ['load fixture with slim'], ['widen slim 0.5 mm at gingiva']),
    visits('2 wk', ['load fixture with slim'], ['widen slim 0.5 mm at gingiva']),
  ],
  shaping_is_out_of_the_bite: [visit('load fixture with biting'), visit('load fixture with slim')],
  gingiva_is_shaped_in_small_steps: [visit('widen slim 2 mm at gingiva'), visit('widen slim 0.5 mm at gingiva')],
  shaped_gingiva_rests_before_the_crown: [
    visits('2 wk', ['widen slim 0.5 mm at gingiva'], ['load fixture with crown']),
    visits('4..6 wk', ['widen slim 0.5 mm at gingiva'], ['load fixture with crown']),
  ],
  tissue_graft_is_held_for_a_week: [visit('secure piece under gingiva with gut on fine_needle_holder'), visit(SECURE)],
  tissue_graft_is_pressed: [visit(SECURE), visit(SECURE, 'press swab on gingiva')],
};

export const lostWallAndShaping: Tries = { alone: false, rules };
