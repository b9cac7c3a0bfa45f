/** Each rule about teeth, wounds and skin: a protocol that breaks it, and one that keeps it. */
import type { Tried, Tries } from './tried.ts';

export const extractionWoundSkin: Tries = {
  alone: true,
  rules: { ...aboutTeeth(), ...aboutWounds(), ...aboutSkin() },
};

function aboutTeeth(): Record<string, Tried> {
  const visit = (steps: string, teeth = 'site : tooth') => `use std/perioperative
use std/anaesthesia
use std/wound
use std/oral
apply label_ceilings because "The house's own"
apply dental_vasoconstrictor_ceilings because "The house's own"
protocol p "P" {
  given {
    patient : patient { mass 70 kg }
    ${teeth}
    hollow  : socket { tooth site }
    crest   : bone
    film    : image { view periapical }
  }
  exclude when patient allergic to amide_anaesthetic
  exclude when patient allergic to sulfite
  exclude when patient has jaw_radiotherapy
  exclude when patient takes antiresorptive or patient takes high_dose_antiresorptive
  caution when patient takes vitamin_k_antagonist or patient takes direct_oral_anticoagulant
  team { surgeon }
  materials {
    numbing : articaine_4_with_epinephrine 3 cartridges
    saline  : sterile_saline 100 mL
    coolant : unit_water 100 mL
    wax     : sterile_bone_wax
    bite    : folded_gauze
  }
  instruments {
    periodontal_probe, periotome, spoon_curette
    fissure_bur, round_bur, surgical_handpiece, air_turbine
  }
  visit v "V" {
${steps}
  }
}`;
  const numb = `    pause sign_in
    review film
    inject numbing 1.7 mL at site
    wait 2 min
    pause time_out
    test site with periodontal_probe
`;
  const out = '    extract site with periotome\n';
  const sounded = '    decide buccal_wall "x" { option intact or windowed or lost { } }\n';
  const test = '    test site with periodontal_probe\n';
  const end = '    apply bite on hollow\n    pause sign_out';
  const all = `${numb + out}    debride hollow with spoon_curette\n${end}`;
  const without = (line: string) => visit(all.replace(line, ''));
  const sectioned = (how: string, back = '    assemble site\n') =>
    visit(`${numb}    section site with fissure_bur on ${how}\n${out}${back}${end}`);
  const cut = (how: string) =>
    visit(`${numb.replaceAll('at site', 'at site, crest').replace('test site', 'test site, crest')}
    cut crest with round_bur on ${how}\n${out}${end}`);
  const waxed = (where: string) => visit(`${numb}${out}    place wax in ${where}\n${end}`);
  const found = (then: string) =>
    visit(`${all}
    decide pus "Press beside the site" {
      option absent { }
      option present { ${then} }
    }`);
  const several = (...teeth: string[]) =>
    visit(
      `${numb.replaceAll('at site', `at ${teeth.join(', ')}`).replace('test site', `test ${teeth.join(', ')}`)}${teeth
        .map((tooth) => `    extract ${tooth} with periotome takes 3..5 min\n`)
        .join('')}${end}`,
      teeth.map((tooth) => `${tooth} : tooth`).join('\n    '),
    );
  const sound = visit(all);
  return {
    time_out_before_extraction: [without('    pause time_out\n'), sound],
    sign_out_after_extraction: [without('\n    pause sign_out'), sound],
    injection_at_a_tooth_is_small: [visit(all.replace('1.7 mL', '4 mL')), sound],
    injection_at_a_tooth_is_enough: [visit(all.replace('1.7 mL', '0.17 mL')), sound],
    wall_is_sounded_where_it_is_numb: [
      visit(all.replace(test, sounded + test)),
      visit(all.replace(test, test + sounded)),
    ],
    image_before_extraction: [without('    review film\n'), sound],
    patient_bites_on_gauze: [without('    apply bite on hollow\n'), sound],
    sectioned_tooth_is_put_together: [
      sectioned('surgical_handpiece under saline', ''),
      sectioned('surgical_handpiece under saline'),
    ],
    no_air_into_a_wound: [
      [sectioned('air_turbine under saline'), cut('air_turbine under saline')],
      sectioned('surgical_handpiece under saline'),
    ],
    bur_is_cooled_sterile: [
      [sectioned('surgical_handpiece under coolant'), cut('surgical_handpiece under coolant')],
      sectioned('surgical_handpiece under saline'),
    ],
    pus_is_not_passed_over: [found('note "Pus"'), found('stop "Open, and refer"')],
    primary_socket_is_not_scraped: [visit(all, 'site : primary_tooth'), sound],
    few_extractions_at_once: [several('site', 'b', 'c', 'd'), several('site', 'b', 'c')],
    no_wax_in_a_socket: [waxed('hollow'), waxed('crest')],
  };
}

function aboutWounds(): Record<string, Tried> {
  const visit = (steps: string, later = '') => `use std/perioperative
use std/anaesthesia
use std/wound
use std/oral
apply label_ceilings because "The house's own"
apply dental_vasoconstrictor_ceilings because "The house's own"
skin arm "Arm"
protocol p "P" {
  given { patient : patient { mass 70 kg } }
  exclude when patient allergic to amide_anaesthetic
  exclude when patient allergic to sulfite
  exclude when patient allergic to chlorhexidine
  exclude when patient has implanted_cardiac_device
  team { surgeon }
  materials {
    paint   : chlorhexidine_in_alcohol 20 mL
    numbing : lidocaine_1_with_epinephrine 1 ampoule
    thread  : nylon 1 strand
    gut     : chromic_gut 1 strand
    weak    : plain_gut 1 strand
    prongs  : nasal_oxygen
  }
  instruments {
    needle_tip, rounded_blade, periosteal_elevator, needle_electrode, fine_needle_holder, suture_scissors
  }
  visit v "V" {
    pause sign_in
${steps}
    pause sign_out
  }
${later}}`;
  const burn = (wait: string) =>
    visit(
      `    inject numbing 4 mL at arm
    wait 2 min
    prepare arm with paint takes 2..3 min
    pause time_out takes 30 s..1 min
    test arm with needle_tip takes 20..40 s
${wait}    incise arm with rounded_blade takes 20 s..1 min
    seal arm with needle_electrode
    close arm with thread on fine_needle_holder`,
      `  wait 10 d
  visit later "Later" {
    remove thread from arm with suture_scissors
  }
`,
    );
  const flap = (thread: string) =>
    visit(`    inject numbing 1 mL at gingiva
    wait 2 min
    pause time_out
    test gingiva with needle_tip
    incise gingiva with rounded_blade
    raise gingiva with periosteal_elevator
    close gingiva with ${thread} on fine_needle_holder`);
  const oxygen = (wait: string) =>
    visit(`    start prongs
    inject numbing 1 mL at gingiva
    wait 2 min
    pause time_out
    test gingiva with needle_tip
    incise gingiva with rounded_blade
    stop_flow prongs
${wait}    seal gingiva with needle_electrode
    close gingiva with gut on fine_needle_holder`);
  const suture = (body: string) => `use std/wound
resorbable_suture own_thread "Own thread"${body}`;
  const sound = flap('gut');
  return {
    time_out_before_incision: [sound.replace('    pause time_out\n', ''), sound],
    sign_out_after_incision: [sound.replace('    pause sign_out\n', ''), sound],
    alcohol_dries_before_a_current: [burn(''), burn('    wait 3 min\n')],
    oxygen_clears_before_a_current: [oxygen(''), oxygen('    wait 1 min\n')],
    flap_is_held_for_a_week: [flap('weak'), sound],
    resorbable_suture_says_its_strength: [suture(''), suture(' {\n  holds 10..14 d source common_practice\n}')],
  };
}

function aboutSkin(): Record<string, Tried> {
  const course = (place: string, wait: string, cut: string, deep = '') => `use std/perioperative
use std/anaesthesia
use std/wound
use std/skin
apply label_ceilings because "The house's own"
apply dental_vasoconstrictor_ceilings because "The house's own"
/// Too narrow for most of what is asked of it.
skin_punch narrow_punch "Skin punch 2 mm" {
  diameter 2 mm
  contact  critical source spaulding_classes
}
protocol p "P" {
  given { patient : patient { mass 70 kg }, lesion : skin_lesion { width 5 mm, margin 2..4 mm } }
  exclude when patient allergic to amide_anaesthetic
  exclude when patient allergic to sulfite
  exclude when patient allergic to chlorhexidine
  team { surgeon, scrub_nurse }
  materials {
    paint   : chlorhexidine_in_alcohol 20 mL
    numbing : lidocaine_1_with_epinephrine 1 ampoule
    pot     : formaldehyde_pot
    lasting : poliglecaprone 1 strand
    weak    : fast_polyglactin 1 strand
    thread  : nylon 1 strand
  }
  instruments {
    sterile_skin_marker, needle_tip, rounded_blade, punch_4, narrow_punch, fine_needle_holder, suture_scissors
  }
  visit v "V" {
    pause sign_in
    mark lesion to 2 mm with sterile_skin_marker
    inject numbing 4 mL around lesion
    prepare ${place} with paint
    wait 2 min
    pause time_out
    test lesion with needle_tip
    ${cut}
    place lesion in pot by scrub_nurse
    label pot by scrub_nurse
    send pot by scrub_nurse
${deep}    close ${place} with thread on fine_needle_holder
    pause sign_out
  }
  wait ${wait}
  visit later "Later" {
    remove thread from ${place} with suture_scissors
  }
}`;
  const cut = (place: string, wait: string) => course(place, wait, `excise lesion from ${place} with rounded_blade`);
  const sample = (punch: string) => course('forearm', '10 d', `sample lesion from forearm with ${punch}`);
  const deep = (thread: string) =>
    course(
      'forearm',
      '10 d',
      'excise lesion from forearm with rounded_blade',
      `    approximate forearm with ${thread} on fine_needle_holder\n`,
    );
  const sound = cut('forearm', '10 d');
  const looked = (margin: string) =>
    sound.replace(
      '    mark lesion to 2 mm with sterile_skin_marker\n',
      `    decide lesion_look "Look" {
      option keratinous { mark lesion to ${margin} with sterile_skin_marker }
      otherwise { mark lesion to 2 mm with sterile_skin_marker }
    }
`,
    );
  return {
    time_out_before_excision: [
      [sound, sample('punch_4')].map((text) => text.replace('    pause time_out\n', '')),
      sound,
    ],
    sign_out_after_excision: [
      [sound, sample('punch_4')].map((text) => text.replace('    pause sign_out\n', '')),
      sound,
    ],
    horny_lesion_takes_a_wider_margin: [looked('2 mm'), looked('4 mm')],
    outline_within_margin: [sound.replace('to 2 mm', 'to 1 mm'), sound],
    sample_is_wide_enough: [sample('narrow_punch'), sample('punch_4')],
    deep_layer_holds_for_a_week: [deep('weak'), deep('lasting')],
    face_stitches_out_early: [cut('face', '10 d'), cut('face', '6 d')],
    stitches_under_pull_stay: [cut('back', '7 d'), cut('back', '12 d')],
  };
}
