/** Every rule of the pack about building up a ridge, and what a raised sinus and one-stage healing ask for. */
import type { Tried, Tries } from './tried.ts';

const protocol = (visits: string) => `use std/perioperative
use std/anaesthesia
use std/medicines
use std/wound
use std/oral
use std/grafting
use std/ridge
use std/sinus
use std/implants
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
    ridge   : ridge_defect { image scan, covering gingiva, width 3..5 mm }
    floor   : sinus_floor { image scan, covering gingiva, residual_height 4 mm }
    gap     : implant_site { image scan, covering gingiva, space 8..9 mm, ridge_width 7..8 mm, bone_height 14..16 mm, planned_implant fixture }
  }
  team { surgeon }
  materials {
    graft   : cortical_allograft 1 mL
    barrier : collagen_barrier 20 mm by 20 mm
    pins    : resorbable_tack
    fixture : standard_implant
    cap     : low_healing_abutment
    water   : sterile_saline
    tap     : unit_water
    dose    : amoxicillin
  }
  instruments {
    pointed_blade, graft_condenser, pressed_tack_driver, round_bur, round_diamond
    round_marking_drill, pilot_drill_20, thread_former_40, screw_driver
  }
${visits}
}
`;
const visit = (...lines: string[]) => protocol(`  visit v "V" {\n${lines.map((line) => `    ${line}\n`).join('')}  }`);
const visits = (wait: string, first: readonly string[], second: readonly string[]) =>
  protocol(`  visit one "One" {\n${first.map((line) => `    ${line}\n`).join('')}  }
  wait ${wait}
  visit two "Two" {\n${second.map((line) => `    ${line}\n`).join('')}  }`);

const BUILD = 'pack graft on ridge with graft_condenser';
const OVER = 'lay barrier over graft on ridge under gingiva to 3 mm';
const RELEASE = 'release gingiva with pointed_blade';
const FILL = 'pack graft into floor with graft_condenser';
const WINDOW = 'open floor with round_diamond under water';
const CAP = 'place cap on fixture with screw_driver at 30..40 N.cm';
const cooled = [
  'perforate ridge with round_bur under water',
  'mark gap with round_marking_drill at 1000 /min under water',
  'drill gap to 10 mm with pilot_drill_20 at 1000 /min under water',
  'thread gap with thread_former_40 at 25 /min under water',
] as const;
const [PERFORATE, MARK, DRILL, THREAD] = cooled;
const withTap = (line: string) => visit(line.replace('under water', 'under tap'));

const rules: Record<string, Tried> = {
  flap_is_released_before_the_graft: [[visit(BUILD), visit(BUILD, RELEASE)], visit(RELEASE, BUILD)],
  built_up_ridge_is_covered: [visit(BUILD), visit(BUILD, OVER)],
  barrier_on_a_ridge_is_fixed: [
    visit(OVER, 'hold barrier under gingiva'),
    visit(OVER, 'fix barrier into ridge with pins on pressed_tack_driver'),
  ],
  ridge_on_a_volume_scan: [visit(PERFORATE).replace('cone_beam', 'panoramic'), visit(PERFORATE)],
  cortex_is_cooled_sterile: [withTap(PERFORATE), visit(PERFORATE)],
  built_up_ridge_is_planned_on_when_it_is_bone: [
    visits('3 mo', [BUILD], ['review later']),
    visits('6..8 mo', [BUILD], ['review later']),
  ],
  ridge_is_worth_building_up: [
    [visit(BUILD).replace('width 3..5 mm', 'width 1..1.5 mm'), visit(BUILD).replace('width 3..5 mm', 'width 7..8 mm')],
    visit(BUILD),
  ],
  sinus_is_filled_in_layers: [visit(`${FILL} in 1 increment`), visit(`${FILL} in 4 increments`)],
  grafted_sinus_is_planned_on_when_it_is_bone: [
    visits('6 wk', [FILL], ['review later']),
    visits('6..7 mo', [FILL], ['review later']),
  ],
  antibiotic_after_sign_in: [
    visit('give dose 2 g to patient', 'pause sign_in'),
    visit('pause sign_in', 'give dose 2 g to patient'),
  ],
  nose_is_spared: [visit(WINDOW), visit(WINDOW, 'pause nose_advice')],
  drill_is_cooled_sterile: [[withTap(MARK), withTap(DRILL), withTap(THREAD)], visit(MARK, DRILL, THREAD)],
  one_stage_needs_hold: [[visit(CAP.replace('30..40', '10..20')), visit(CAP.replace('30..40', '45..60'))], visit(CAP)],
};

/** A step alone breaks what the steps before it would have kept. */
export const ridgeAndSinus: Tries = { alone: false, rules };
