/** Every rule of the packs about grafts, sinus, soft tissue and implants: a protocol that breaks it, and one that keeps it. */
import type { Tried, Tries } from './tried.ts';

const head = (more: string) => `use std/perioperative
use std/anaesthesia
use std/wound
use std/oral
use std/grafting
use std/sinus
use std/connective_tissue
use std/implants
apply packaged_grains because "x"
apply margin_of_two_mm because "x"
apply cheek_bone_two_mm because "x"
apply loading_from_35 because "x"

${more}`;

const protocol = (visits: string, more = '') =>
  head(`${more}
/// P
protocol p "P" {
  given {
    patient : patient
    scan    : image { view cone_beam }
    later   : planning_image { view cone_beam }
    site    : tooth
    socket  : socket { tooth site, opening 8 mm by 7 mm, depth 10 mm }
    ridge   : bone
    floor   : sinus_floor { image scan, covering gingiva, residual_height 4 mm }
    donor   : average_palate { thickness 3..4 mm }
    thin    : low_palate { thickness 2 mm }
    gap     : implant_site { image scan, covering gingiva, space 8..9 mm, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant fixture }
    beside  : site_beside_implant { image scan, covering gingiva, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant fixture, space 8.5 mm }
    amid    : site_between_implants { image scan, covering gingiva, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant fixture, space 10 mm }
    hole    : fresh_socket_site { image scan, covering gingiva, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant long, space 8..9 mm, socket socket }
    flat    : one_stage_sinus_site { image scan, covering gingiva, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant fixture, space 8..9 mm, floor floor }
    grown   : sinus_site { image scan, covering gingiva, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant fixture, space 8..9 mm, floor floor }
    crest   : crestal_site { image scan, covering gingiva, ridge_width 7..8 mm, bone_height 7 mm, planned_implant fixture, space 8..9 mm }
  }
  team { surgeon }
  materials {
    graft   : cortical_allograft 1 mL
    fine    : fine_cortical_allograft 1 mL
    fixture : standard_implant
    broad   : wide_implant
    long    : long_implant
    longer  : standard_implant { body_length 14 mm }
    early   : hollowed_crown
    biting  : immediate_crown { in_the_bite yes }
    crown   : screwed_crown
    screw   : cover_screw
    saline  : saline_for_soaking 2 mL
    sponge  : growth_protein_sponge 1 mL
    protein : bone_protein_solution 1 mL
    sheet   : collagen_sheet 20 mm by 20 mm
    barrier : collagen_barrier 20 mm by 20 mm
    dense   : dense_barrier 20 mm by 20 mm
    glue    : oral_tissue_adhesive
    skinglue : skin_tissue_adhesive
    gut     : plain_gut
    chromic : chromic_gut
    thread  : nylon
    bridge  : bonded_provisional
    plate   : partial_denture
    piece   : palatal_tissue
    water   : sterile_saline
    tap     : unit_water
    swab    : marked_swab
  }
  instruments {
    graft_condenser, tissue_scissors, fine_needle_holder, suture_scissors, fissure_bur, toothed_forceps
    ultrasonic_window_tip
    periosteal_elevator, rounded_blade, round_diamond, round_marking_drill, pilot_drill_20, widening_drill_28
    final_drill_35, final_drill_42, widening_drill_35, thread_former_40, thread_former_48, marked_depth_gauge
    implant_driver, screw_driver, stopped_osteotome
    thick_pilot : pilot_drill { diameter 2.8 mm, speed 800..1500 /min, overshoot 0.5 mm }
    thick_first : widening_drill { diameter 3.5 mm, speed 800..1500 /min, overshoot 0.5 mm }
    thin_second : second_widening_drill { diameter 2.8 mm, speed 800..1500 /min, overshoot 0.5 mm }
  }
${visits}
}
`);
const visit = (...lines: string[]) => protocol(`  visit v "V" {\n${lines.map((line) => `    ${line}\n`).join('')}  }`);
const visits = (wait: string, first: readonly string[], second: readonly string[]) =>
  protocol(`  visit one "One" {\n${first.map((line) => `    ${line}\n`).join('')}  }
  wait ${wait}
  visit two "Two" {\n${second.map((line) => `    ${line}\n`).join('')}  }`);

const MARK = 'mark gap with round_marking_drill at 1000 /min under water';
const PILOT = 'drill gap to 10 mm with pilot_drill_20 at 1000 /min under water';
const WIDEN = 'drill gap to 10 mm with widening_drill_28 at 900 /min under water';
const SEAT = 'place fixture into gap with implant_driver at 25 /min';
const HOLE = 'place long into hole with implant_driver at 25 /min';
const PACK = 'pack graft on ridge with graft_condenser';
const FILL = 'pack graft into socket with graft_condenser';
const OVER = 'lay barrier over graft on ridge under gingiva to 3 mm';
const rules: Record<string, Tried> = {
  holding_membrane_on_graft: [visit('lay sheet on gingiva'), visit('lay sheet on graft')],
  barrier_membrane_on_bone: [visit('lay barrier on graft'), visit(OVER)],
  barrier_reaches_sound_bone: [visit('lay barrier over graft on ridge under gingiva to 1 mm'), visit(OVER)],
  barrier_under_a_flap: [visit(OVER), visit('raise gingiva with periosteal_elevator', OVER)],
  barrier_is_covered: [
    visit(OVER, 'instruct "Soft food"'),
    visit(OVER, 'close gingiva with thread on fine_needle_holder'),
  ],
  open_barrier_comes_out: [
    visits('7..8 wk', ['tuck dense over graft under gingiva'], ['remove dense from ridge with toothed_forceps']),
    visits('3..4 wk', ['tuck dense over graft under gingiva'], ['remove dense from ridge with toothed_forceps']),
  ],
  stitches_over_a_barrier_stay: [
    visits('7 d', [OVER], ['remove thread from gingiva with suture_scissors']),
    visits('10..14 d', [OVER], ['remove thread from gingiva with suture_scissors']),
  ],
  trim_smaller_than_sheet: [
    visit('trim sheet to 25 mm by 10 mm with tissue_scissors'),
    visit('trim sheet to 8 mm by 7 mm with tissue_scissors'),
  ],
  piece_covers_the_opening: [
    [
      visit('trim sheet to 6 mm by 8 mm over socket with tissue_scissors'),
      visit('trim sheet to 7 mm by 7 mm over socket with tissue_scissors'),
    ],
    visit('trim sheet to 7 mm by 8 mm over socket with tissue_scissors'),
  ],
  torque_is_read: [visit(SEAT), visit(SEAT, 'verify insertion_torque of fixture within 25..50 N.cm otherwise "x"')],
  graft_is_enough_for_the_socket: [visit(FILL).replace('opening 8 mm by 7 mm', 'opening 16 mm by 14 mm'), visit(FILL)],
  adhesive_labelled_for_mucosa: [visit('fix sheet with skinglue'), visit('fix sheet with glue')],
  adhesive_never_inside: [visit('apply glue on graft'), visit('apply glue on gingiva')],
  barrier_is_not_glued: [visit('fix barrier with glue'), visit('fix sheet with glue')],
  stitch_outlives_the_clot: [
    visit('fix sheet with gut on fine_needle_holder'),
    visit('fix sheet with chromic on fine_needle_holder'),
  ],
  grain_fits: [visit('pack fine on ridge with graft_condenser'), visit(PACK)],
  sponge_takes_its_protein: [visit('wet sponge with saline'), visit('wet sponge with protein')],
  protein_stays_on_its_sponge: [visit('wet graft with protein'), visit('wet sponge with protein')],
  socket_is_filled_in_layers: [
    visit('pack graft into socket with graft_condenser in 1 increment'),
    visit('pack graft into socket with graft_condenser in 3 increments'),
  ],
  provisional_keeps_clear: [
    visit('relieve bridge to 0.5 mm with fissure_bur'),
    visit('relieve bridge to 2 mm with fissure_bur'),
  ],
  gum_borne_provisional_waits: [
    visits('7 d', [PACK], ['fit plate over ridge']),
    visits('7 d', [PACK], ['fit bridge over ridge']),
  ],
  grafted_bone_is_left_alone: [
    visits('6..8 wk', [PACK], ['raise gingiva with periosteal_elevator']),
    visits('4..6 mo', [PACK], ['raise gingiva with periosteal_elevator']),
  ],
  grafted_socket_is_seen_early: [
    visits('4 wk', [FILL], ['recheck socket']),
    visits('7..14 d', [FILL], ['recheck socket']),
  ],
  grafted_bone_is_planned_on_when_it_is_bone: [
    visits('8 wk', [FILL], ['review later']),
    visits('3..4 mo', [FILL], ['review later']),
  ],
  graft_says_its_soak: [
    head('allograft x "X" { particle 250..500 um }'),
    head('allograft x "X" { particle 250..500 um, soak 5..9 min }'),
  ],
  particulate_graft_says_its_grain: [
    head('allograft x "X" { soak 5..9 min }'),
    head('allograft x "X" { particle 250..500 um, soak 5..9 min }'),
  ],
  membrane_says_its_origin: [head('holding_membrane x "X"'), head('holding_membrane x "X" { made_of synthetic }')],
  growth_factor_says_its_strength: [head('growth_factor x "X"'), head('growth_factor x "X" { concentration 1 mg/mL }')],
  window_on_a_volume_scan: [
    visit('open floor with round_diamond under water').replace('cone_beam', 'panoramic'),
    visit('open floor with round_diamond under water'),
  ],
  window_only_where_bone_is_low: [
    visit('open floor with round_diamond under water').replace('height 4 mm', 'height 9..10 mm'),
    visit('open floor with round_diamond under water'),
  ],
  window_is_cooled_sterile: [
    visit('open floor with round_diamond under tap'),
    visit('open floor with ultrasonic_window_tip under water'),
  ],
  window_is_covered: [
    visit('pack graft into floor with graft_condenser'),
    visit('pack graft into floor with graft_condenser', 'lay barrier over graft on floor under gingiva to 3 mm'),
  ],
  palatal_artery_is_spared: [
    visit('harvest piece from thin to 8 mm with rounded_blade'),
    visit('harvest piece from donor to 8 mm with rounded_blade'),
  ],
  donor_keeps_its_cover: [
    visit('harvest piece from thin to 4 mm with rounded_blade'),
    visit('harvest piece from donor to 4 mm with rounded_blade'),
  ],
  donor_site_is_pressed: [
    visit('harvest piece from donor to 8 mm with rounded_blade'),
    visit('harvest piece from donor to 8 mm with rounded_blade', 'press swab on donor'),
  ],
  bed_before_harvest: [
    visit('harvest piece from donor to 8 mm with rounded_blade', 'raise gingiva with periosteal_elevator'),
    visit('raise gingiva with periosteal_elevator', 'harvest piece from donor to 8 mm with rounded_blade'),
  ],
  gain_is_measured_when_swelling_is_gone: [
    visits('4 wk', ['secure piece under gingiva with thread on fine_needle_holder'], ['measure piece at gingiva']),
    visits('3 mo', ['secure piece under gingiva with thread on fine_needle_holder'], ['measure piece at gingiva']),
  ],
  stitches_over_tissue_graft_stay: [
    visits(
      '7 d',
      ['secure piece under gingiva with thread on fine_needle_holder'],
      ['remove thread from gingiva with suture_scissors'],
    ),
    visits(
      '2 wk',
      ['secure piece under gingiva with thread on fine_needle_holder'],
      ['remove thread from gingiva with suture_scissors'],
    ),
  ],
  time_out_before_drilling: [visit(MARK), visit('pause time_out', MARK)],
  sign_out_after_implant: [visit(SEAT), visit(SEAT, 'pause sign_out')],
  direction_before_width: [visit(WIDEN), visit('gauge gap with marked_depth_gauge', WIDEN)],
  drill_within_its_speed: [visit(PILOT.replace('1000', '300')), visit(PILOT)],
  hole_fits_the_implant: [visit(PILOT.replace('10 mm', '8 mm')), visit(PILOT)],
  hole_is_narrower_than_the_implant: [visit(PILOT.replace('pilot_drill_20', 'final_drill_42')), visit(PILOT)],
  pilot_drill_is_narrow: [visit(PILOT.replace('pilot_drill_20', 'thick_pilot')), visit(PILOT)],
  widening_drill_follows_the_pilot: [visit(WIDEN.replace('widening_drill_28', 'thick_first')), visit(WIDEN)],
  second_drill_follows_the_first: [
    visit(WIDEN.replace('widening_drill_28', 'thin_second')),
    visit(WIDEN.replace('widening_drill_28', 'widening_drill_35')),
  ],
  drill_stops_short: [visit(PILOT.replace('10 mm', '13 mm')), visit(PILOT)],
  implant_is_seated_slowly: [visit(SEAT.replace('25 /min', '80 /min')), visit(SEAT)],
  thread_is_cut_slowly: [
    visit('thread gap with thread_former_48 at 25 /min under water'),
    visit('thread gap with thread_former_40 at 25 /min under water'),
  ],
  planned_implant_is_placed: [visit(SEAT.replace('fixture', 'broad')), visit(SEAT)],
  seated_within_its_torque: [visit(`${SEAT} to 45..60 N.cm`), visit(`${SEAT} to 30..40 N.cm`)],
  bone_around_the_implant: [visit(SEAT).replaceAll('ridge_width 7..8', 'ridge_width 6..6.5'), visit(SEAT)],
  space_to_the_neighbours: [visit(SEAT).replace('space 8..9', 'space 5.8'), visit(SEAT)],
  space_beside_an_implant: [
    visit(SEAT.replace('gap', 'beside')).replace('space 8.5', 'space 8'),
    visit(SEAT.replace('gap', 'beside')),
  ],
  space_between_implants: [
    visit(SEAT.replace('gap', 'amid')).replace('space 10', 'space 9'),
    visit(SEAT.replace('gap', 'amid')),
  ],
  holds_beyond_the_socket: [visit(HOLE), visit(HOLE.replace('long', 'longer'))],
  gap_beside_the_implant_is_filled: [visit(HOLE), visit(HOLE, 'pack graft around long with graft_condenser')],
  ridge_holds_the_implant: [
    visit('place fixture into flat with implant_driver at 25 /min').replace('residual_height 4', 'residual_height 3'),
    visit('place fixture into flat with implant_driver at 25 /min'),
  ],
  grafted_sinus_is_left_to_heal: [
    visits(
      '4 mo',
      ['pack graft into floor with graft_condenser'],
      ['place fixture into grown with implant_driver at 25 /min'],
    ),
    visits(
      '6..9 mo',
      ['pack graft into floor with graft_condenser'],
      ['place fixture into grown with implant_driver at 25 /min'],
    ),
  ],
  crest_raises_a_little: [
    visit('tap crest to 5 mm with stopped_osteotome'),
    visit('tap crest to 3 mm with stopped_osteotome'),
  ],
  built_up_bone_is_left_to_heal: [visits('3 mo', [OVER], [MARK]), visits('4..6 mo', [OVER], [MARK])],
  grafted_site_is_not_forgotten: [
    visits('18 mo', ['pack graft into socket with graft_condenser'], [SEAT]),
    visits('4..6 mo', ['pack graft into socket with graft_condenser'], [SEAT]),
  ],
  covered_implant_is_not_forgotten: [
    visits('8 mo', [SEAT], ['remove screw from fixture through gingiva with screw_driver']),
    visits('3..4 mo', [SEAT], ['remove screw from fixture through gingiva with screw_driver']),
  ],
  implant_on_a_volume_scan: [visit(MARK).replace('cone_beam', 'panoramic'), visit(MARK)],
  crown_waits_for_bone: [
    visits('6 wk', [SEAT], ['load fixture with crown']),
    visits('8..10 wk', [SEAT], ['load fixture with crown']),
  ],
  at_once_is_at_once: [
    visits('3 wk', [SEAT], ['load fixture with early at 40 N.cm']),
    visits('2..5 d', [SEAT], ['load fixture with early at 40 N.cm']),
  ],
  crown_at_once_needs_hold: [visit('load fixture with early at 30 N.cm'), visit('load fixture with early at 35 N.cm')],
  crown_at_once_is_out_of_the_bite: [
    visit('load fixture with biting at 40 N.cm'),
    visit('load fixture with early at 40 N.cm'),
  ],
  soft_tissue_settles_before_the_crown: [
    visits('6 wk', ['secure piece under gingiva with thread on fine_needle_holder'], ['load fixture with crown']),
    visits('8..12 wk', ['secure piece under gingiva with thread on fine_needle_holder'], ['load fixture with crown']),
  ],
  implant_says_its_size: [
    head('implant x "X" { diameter 4 mm, insertion_torque 25..50 N.cm }'),
    head('implant x "X" { diameter 4 mm, body_length 9 mm }'),
  ],
  implant_says_its_torque: [
    head('implant x "X" { diameter 4 mm, body_length 9 mm }'),
    head('implant x "X" { insertion_torque 25..50 N.cm }'),
  ],
};

/** A step of an implant's course alone breaks what the steps before it would have kept. */
export const graftingAndImplants: Tries = { alone: false, rules };
