/** Each rule of the packs that every operation shares: a protocol that breaks it, and one that keeps it. */
import type { Tried, Tries } from './tried.ts';

export const perioperative: Tries = {
  alone: true,
  rules: { ...atEveryOperation(), ...fromPatientToPatient(), ...medicinesAround() },
};

function atEveryOperation(): Record<string, Tried> {
  const visit = (steps: string) => `use std/perioperative
place wound_bed "Wound bed"
protocol p "P" {
  given { patient : patient }
  exclude when patient allergic to iodine
  team { surgeon, assistant }
  materials {
    pack    : gauze_throat_screen
    swabs   : marked_swab 5 swabs
    plain   : plain_swab 5 swabs
    paint   : povidone_iodine 20 mL
    rinse   : povidone_iodine_rinse 20 mL
    saline  : sterile_saline 100 mL
    coolant : unit_water 100 mL
  }
  visit v "V" {
    ${steps}
  }
}`;
  const pack = (where: string) => `pause sign_in
    place pack in ${where}
    remove pack from ${where}
    count pack
    pause sign_out`;
  const gauze = (swabs: string) => `place ${swabs} in wound_bed
    remove ${swabs} from wound_bed
    count ${swabs}`;
  const consent = (between: string) =>
    visit(`consent patient by surgeon${between}
    pause sign_in
    position patient`);
  const suction = (body: string) => `use std/perioperative
suction long_tip "Long tip"${body}`;
  return {
    throat_pack_in_throat: [visit(pack('mouth')), visit(pack('throat'))],
    throat_pack_after_sign_in: [
      visit(
        pack('throat').replace('pause sign_in\n    place pack in throat', 'place pack in throat\n    pause sign_in'),
      ),
      visit(pack('throat')),
    ],
    throat_pack_is_counted_out: [visit(pack('throat').replace('    count pack\n', '')), visit(pack('throat'))],
    time_out_after_sign_in: [visit('pause time_out'), visit('pause sign_in\n    pause time_out')],
    consent_before_the_day: [consent(''), consent('\n  }\n  wait 1..4 wk\n  visit w "W" {')],
    gauze_in_a_wound_has_a_marker: [visit(gauze('plain')), visit(gauze('swabs'))],
    wound_is_washed_sterile: [visit('irrigate wound_bed with coolant'), visit('irrigate wound_bed with saline')],
    instrument_says_its_contact: [suction(''), suction(' {\n  contact semicritical source spaulding_classes\n}')],
  };
}

function fromPatientToPatient(): Record<string, Tried> {
  const course = (set: string, ...steps: string[]) => `use std/reprocessing
protocol p "P" {
  team { circulating_nurse }
  materials { bath : glutaraldehyde 2 L }
  instruments { ${set}, gravity_steam, prevacuum_steam }
  visit v "V" {
    clean ${set}
${steps.map((step) => `    ${step}\n`).join('')}    release ${set}
  }
}`;
  const steam = (how: string) => course('surgical_set', 'wrap surgical_set', `sterilise surgical_set in ${how}`);
  const bath = (set: string, time: string) => course(set, `disinfect ${set} in bath through ${time}`);
  return {
    critical_instruments_are_sterile: [
      bath('surgical_set', '20 min'),
      steam('prevacuum_steam at 134 °C through 4 min'),
    ],
    gravity_steam_at_121: [
      steam('gravity_steam at 121 °C through 29 min'),
      steam('gravity_steam at 121 °C through 30 min'),
    ],
    gravity_steam_at_132: [
      steam('gravity_steam at 132 °C through 4 min'),
      steam('gravity_steam at 132 °C through 15 min'),
    ],
    prevacuum_steam_at_132: [
      steam('prevacuum_steam at 121 °C through 30 min'),
      steam('prevacuum_steam at 132 °C through 4 min'),
    ],
    disinfectant_has_its_time: [bath('examination_set', '15 min'), bath('examination_set', '20 min')],
  };
}

function medicinesAround(): Record<string, Tried> {
  const visit = (give: string, after = '') => `use std/perioperative
use std/anaesthesia
use std/wound
use std/oral
use std/medicines
apply label_ceilings because "The house's own"
apply dental_vasoconstrictor_ceilings because "The house's own"
protocol p "P" {
  given { patient : patient { mass 70 kg }, site : tooth, film : image { view periapical } }
  exclude when patient allergic to amide_anaesthetic
  exclude when patient allergic to sulfite
  exclude when patient allergic to penicillin
  exclude when patient has jaw_radiotherapy
  exclude when patient takes antiresorptive or patient takes high_dose_antiresorptive
  caution when patient takes vitamin_k_antagonist or patient takes direct_oral_anticoagulant
  team { surgeon }
  materials {
    numbing : articaine_4_with_epinephrine 2 cartridges
    tablets : amoxicillin 4 g
    thinner : apixaban 5 mg
    bite    : folded_gauze
    gut     : chromic_gut 1 strand
  }
  instruments { periodontal_probe, periotome, rounded_blade, fine_needle_holder }
  visit v "V" {
    pause sign_in
    review film
    ${give}
    inject numbing 1.7 mL at site, gingiva
    wait 2 min
    pause time_out
    test site, gingiva with periodontal_probe
    extract site with periotome
    apply bite on site
${after}    pause sign_out
  }
}`;
  const give = (dose: string, wait: string) => `give tablets ${dose} to patient\n    wait ${wait}`;
  const thinner = (wait: string) =>
    visit('note "No antibiotic"', `    wait ${wait}\n    give thinner 5 mg to patient\n`);
  const sound = visit(give('2 g', '30 min'));
  const incised = (text: string) =>
    text.replace(
      'extract site with periotome\n    apply bite on site',
      'incise gingiva with rounded_blade\n    close gingiva with gut on fine_needle_holder',
    );
  return {
    antibiotic_has_been_taken_up: [[visit(give('2 g', '10 min')), incised(visit(give('2 g', '10 min')))], sound],
    antibiotic_is_still_there: [visit(give('2 g', '60 min')), visit(give('2 g', '50 min'))],
    one_dose_is_not_passed: [visit(give('3 g', '30 min')), sound],
    one_dose_is_enough: [visit(`give tablets 900 mg to patient\n    ${give('1 g', '30 min')}`), sound],
    anticoagulant_waits_for_the_clot: [thinner('2 h'), thinner('4 h')],
  };
}
