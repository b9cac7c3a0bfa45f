import { aestheticSiteHarmless } from './aesthetic-site-faults.ts';
import { connectiveTissueGraftHarmless } from './connective-tissue-graft-faults.ts';
import { cases, graftedSocket, type Harmless, policy, type Replacement, skinExcision, stagedImplant } from './edit.ts';
import { lostWallSocketHarmless } from './lost-wall-socket-faults.ts';
import { oneStageImplantHarmless } from './one-stage-implant-faults.ts';
import { ridgeAugmentationHarmless } from './ridge-augmentation-faults.ts';
import { sinusFloorElevationHarmless } from './sinus-floor-elevation-faults.ts';

/** A change as a careful colleague makes it. */
export const harmless: readonly Harmless[] = [
  ...lostWallSocketHarmless,
  ...aestheticSiteHarmless,
  ...connectiveTissueGraftHarmless,
  ...oneStageImplantHarmless,
  ...ridgeAugmentationHarmless,
  ...sinusFloorElevationHarmless,
  ...(
    [
      [
        'visit renamed on screen',
        graftedSocket,
        'visit surgery "Extraction and graft"',
        'visit surgery "Tooth out, graft in"',
      ],
      [
        'longer note',
        graftedSocket,
        'do not pack dry graft on top"',
        'do not pack dry graft on top, and tell the surgeon before the patient leaves the chair"',
      ],
      [
        'instruction in other words',
        graftedSocket,
        'instruct "Soft food for 7 d, nothing hot today, no smoking"',
        'instruct "Eat soft for a week. Nothing hot until tomorrow. Please do not smoke."',
      ],
      [
        'reason in other words',
        graftedSocket,
        'because "It soaks while the tooth comes out"',
        'because "The extraction is its soaking time"',
      ],
      ['a reason less', graftedSocket, ' because "On the gingiva it would bridge the margin and lift"', ''],
      [
        'question in other words',
        graftedSocket,
        'decide bleeding "Look again after three minutes"',
        'decide bleeding "Lift the gauze after three minutes and look"',
      ],
      [
        'verify in other words',
        graftedSocket,
        '"Graft level with the crest, firm, not hard"',
        '"Level with the bone, firm under the condenser"',
      ],
      [
        'letters of other languages',
        skinExcision,
        '"Bring the edges together with two fingers"',
        '"Ränder zusammenführen, à deux doigts – 縫合前に"',
      ],
      ['protocol title', stagedImplant, '"Staged placement of one implant"', '"One implant in two stages"'],
      [
        'pause item in other words',
        policy,
        '"What to watch for, and until when"',
        '"What may go wrong tonight, and how one sees it"',
      ],
      [
        'owner',
        skinExcision,
        'owner   "Skin Surgery Teaching Unit, Vellamoor Teaching Hospital"',
        'owner   "Skin Unit, Vellamoor"',
      ],
      ['version', skinExcision, 'version 1.0.1', 'version 1.0.2'],
      ['case label', cases, '"Upper first premolar, wall intact"', '"First premolar above, all walls there"'],
    ] as const
  ).map(
    ([name, file, find, replace]): Harmless => ({
      name,
      family: 'wording',
      meaning: 'Only words for people changed.',
      file,
      find,
      replace,
    }),
  ),
  ...(
    [
      [
        'rinse before the film is looked at',
        'Film and rinse wait for nobody.',
        graftedSocket,
        '    review film by surgeon\n    rinse patient with mouthwash\n',
        '    rinse patient with mouthwash\n    review film by surgeon\n',
      ],
      [
        'photograph before the count',
        'A picture waits for no swab.',
        graftedSocket,
        '    count swabs\n    record photograph "From above, sheet in place" of site\n',
        '    record photograph "From above, sheet in place" of site\n    count swabs\n',
      ],
      [
        'sheet trimmed before the graft is packed',
        'It is dry and on the tray either way.',
        graftedSocket,
        '    trim cover to 8 mm by 7 mm over socket with tissue_scissors by assistant\n',
        '',
        '    pack graft into socket',
        '    trim cover to 8 mm by 7 mm over socket with tissue_scissors by assistant\n    pack graft into socket',
      ],
      [
        'exclusions in another order',
        'All are asked.',
        graftedSocket,
        '  exclude when patient allergic to cyanoacrylate because "The sheet is glued"\n  exclude when patient allergic to formaldehyde because "The glue gives it off as it ages"\n',
        '  exclude when patient allergic to formaldehyde because "The glue gives it off as it ages"\n  exclude when patient allergic to cyanoacrylate because "The sheet is glued"\n',
      ],
      [
        'tray in another order',
        'The tray is a list.',
        stagedImplant,
        'implant_driver, screw_driver',
        'screw_driver, implant_driver',
      ],
      [
        'options in another order',
        'One of them is taken.',
        skinExcision,
        '      option clear { }\n      option close {\n        note "The surgeon and the pathologist decide together whether this is enough"\n      }\n',
        '      option close {\n        note "The surgeon and the pathologist decide together whether this is enough"\n      }\n      option clear { }\n',
      ],
      [
        'dressing after the count',
        'The count is of swabs.',
        skinExcision,
        '    cover forearm with pad\n    count swabs\n',
        '    count swabs\n    cover forearm with pad\n',
      ],
      [
        'draped after the injection',
        'Nothing is cut before both are done.',
        stagedImplant,
        '    drape patient\n    inject numbing 1.7 mL at ridge, gingiva by resident\n',
        '    inject numbing 1.7 mL at ridge, gingiva by resident\n    drape patient\n',
      ],
      [
        'team in another order',
        'All are there.',
        skinExcision,
        'team { surgeon, resident, scrub_nurse }',
        'team { scrub_nurse, surgeon, resident }',
      ],
      [
        'libraries in another order',
        'All are used.',
        skinExcision,
        'use std/perioperative\nuse std/anaesthesia\n',
        'use std/anaesthesia\nuse std/perioperative\n',
      ],
    ] as const
  ).map(
    ([name, meaning, file, find, replace, find2, replace2]): Harmless => ({
      name,
      family: 'order that does not matter',
      meaning,
      file,
      find,
      replace,
      ...(find2 !== undefined && replace2 !== undefined ? { also: [{ find: find2, replace: replace2 }] } : {}),
    }),
  ),
  ...(
    [
      ['graft in microlitres', graftedSocket, 'bank_allograft 0.5 mL', 'bank_allograft 500 uL'],
      [
        'carrier in cubic centimetres',
        graftedSocket,
        'growth_factor_solution 0.5 mL',
        'growth_factor_solution 0.5 cm3',
      ],
      [
        'solution in millilitres',
        graftedSocket,
        'articaine_4_with_epinephrine 2 cartridges',
        'articaine_4_with_epinephrine 3.4 mL',
      ],
      ['soak in hours and minutes', policy, 'soak        12..50 min', 'soak        0.2 h..50 min'],
      ['grain in millimetres', policy, '250..850 um', '0.25..0.85 mm'],
      ['extraction in seconds', graftedSocket, 'takes 10..22 min usually 14 min', 'takes 600 s..22 min usually 14 min'],
      ['wait in weeks', stagedImplant, 'wait 10..14 wk', 'wait 70..98 d'],
      ['torque in newton metres', policy, '25..45 N.cm', '0.25..0.45 N.m'],
      ['sheet in centimetres', graftedSocket, 'collagen_sheet 15 mm by 20 mm', 'collagen_sheet 1.5 cm by 2 cm'],
      ['margin in tenths of a centimetre', skinExcision, 'mark lesion to 4 mm', 'mark lesion to 0.4 cm'],
      ['trimmed piece turned', graftedSocket, 'trim cover to 8 mm by 7 mm', 'trim cover to 7 mm by 8 mm'],
      ['mass in grams', cases, 'mass 70 kg', 'mass 70000 g'],
      [
        'depth of the drill in centimetres',
        stagedImplant,
        'drill ridge to 10 mm with pilot_drill_20',
        'drill ridge to 1 cm with pilot_drill_20',
      ],
    ] as const
  ).map(
    ([name, file, find, replace]): Harmless => ({
      name,
      family: 'equivalent unit',
      meaning: 'The same amount, written otherwise.',
      file,
      find,
      replace,
    }),
  ),
  {
    name: 'the pack under another name',
    family: 'renamed throughout',
    meaning: 'A name is the protocol’s own.',
    file: graftedSocket,
    find: '    pack      : gauze_throat_screen',
    replace: '    screen    : gauze_throat_screen',
    also: [
      { find: 'place pack in throat', replace: 'place screen in throat' },
      {
        find: '        apply bite on socket\n        clear pack',
        replace: '        apply bite on socket\n        clear screen',
      },
      { find: '    apply bite on cover\n    clear pack', replace: '    apply bite on cover\n    clear screen' },
    ],
  },
  {
    name: 'the paint under another name',
    family: 'renamed throughout',
    meaning: 'A name is the protocol’s own.',
    file: skinExcision,
    find: 'paint   : chlorhexidine_in_alcohol',
    replace: 'skin_paint : chlorhexidine_in_alcohol',
    also: [{ find: 'prepare forearm with paint', replace: 'prepare forearm with skin_paint' }],
  },
  {
    name: 'the abutment under another name',
    family: 'renamed throughout',
    meaning: 'A name is the protocol’s own.',
    file: stagedImplant,
    find: 'abutment  : healing_abutment',
    replace: 'cap       : healing_abutment',
    also: [{ find: 'place abutment on fixture', replace: 'place cap on fixture' }],
  },
  ...(
    [
      [
        'extraction held to a narrower time',
        'Less may go wrong in it.',
        graftedSocket,
        'takes 10..22 min usually 14 min',
        'takes 12..20 min usually 14 min',
      ],
      [
        'debridement held to a narrower time',
        'Less may go wrong in it.',
        graftedSocket,
        'with spoon_curette takes 3..8 min',
        'with spoon_curette takes 4..7 min',
      ],
      [
        'implant opened within a narrower window',
        'Later than the earliest, sooner than the latest.',
        stagedImplant,
        'wait 10..14 wk',
        'wait 11..13 wk',
      ],
      [
        'smaller first injection',
        'Less than a cartridge, and tested before the extraction.',
        graftedSocket,
        'inject numbing 1.5 mL',
        'inject numbing 1.2 mL',
      ],
      [
        'only the surgeon extracts',
        'Who may do it is in the room.',
        graftedSocket,
        'usually 14 min by resident',
        'usually 14 min by surgeon',
      ],
      [
        'deeper socket excluded',
        'The protocol is for fewer patients.',
        graftedSocket,
        'depth 9..13 mm',
        'depth 9..12 mm',
      ],
      [
        'one more exclusion',
        'The protocol is for fewer patients.',
        skinExcision,
        '  exclude when patient allergic to amide_anaesthetic\n',
        '  exclude when patient allergic to amide_anaesthetic\n  exclude when patient has pregnancy because "It can wait"\n',
      ],
      [
        'a caution made an exclusion',
        'The protocol is for fewer patients.',
        stagedImplant,
        '  caution when patient has poorly_controlled_diabetes',
        '  exclude when patient has poorly_controlled_diabetes',
      ],
    ] as const
  ).map(
    ([name, meaning, file, find, replace]): Harmless => ({ name, family: 'stricter', meaning, file, find, replace }),
  ),
  ...(
    [
      [
        'one more item at a pause',
        'More is asked, nothing less.',
        stagedImplant,
        '      item "Implant, its width and its length read aloud from the box"\n',
        '      item "Implant, its width and its length read aloud from the box"\n      item "The last drill is read aloud with them"\n',
      ],
      [
        'one more note',
        'A note asks for nothing.',
        skinExcision,
        '    pause sign_out\n',
        '    note "The pot stands beside the checklist"\n    pause sign_out\n',
      ],
      [
        'one more photograph',
        'Nobody is touched.',
        stagedImplant,
        '    pause sign_out\n    pause handover\n',
        '    record photograph "Closed wound" of ridge\n    pause sign_out\n    pause handover\n',
      ],
      [
        'swabs counted twice',
        'A second count hurts nobody.',
        graftedSocket,
        '    count swabs\n    record photograph',
        '    count swabs\n    count swabs\n    record photograph',
      ],
      ['more swabs on the tray', 'All are counted.', skinExcision, 'marked_swab 10 swabs', 'marked_swab 20 swabs'],
      ['one stitch more', 'The thread is long enough.', skinExcision, 'in 6 stitches', 'in 7 stitches'],
      [
        'five layers of graft',
        'Thinner layers, packed the same way.',
        graftedSocket,
        'in 4 increments',
        'in 5 increments',
      ],
      [
        'looked at twice',
        'A second look at the film.',
        graftedSocket,
        '    pause time_out\n',
        '    review film by surgeon\n    pause time_out\n',
      ],
      [
        'one more instruction',
        'For the patient to take home.',
        skinExcision,
        '    instruct "Sun protection',
        '    instruct "The wound may itch for a week" at home\n    instruct "Sun protection',
      ],
      [
        'washed twice',
        'Before the graft goes in.',
        graftedSocket,
        '    irrigate socket with saline\n',
        '    irrigate socket with saline takes 30 s..1 min\n    irrigate socket with saline takes 30 s..1 min\n',
      ],
    ] as const
  ).map(
    ([name, meaning, file, find, replace]): Harmless => ({
      name,
      family: 'more of the same',
      meaning,
      file,
      find,
      replace,
    }),
  ),
  ...(
    [
      ['a comment', graftedSocket, '    trim cover to', '    // dry scissors\n    trim cover to'],
      ['a comment at the end of a line', policy, 'diameter         4 mm\n', 'diameter         4 mm // at its neck\n'],
      ['an empty line', skinExcision, '    prepare forearm', '\n    prepare forearm'],
      ['columns drawn up otherwise', stagedImplant, 'numbing   : articaine', 'numbing: articaine'],
      ['indented by a tab', skinExcision, '    drape patient by', '\tdrape patient by'],
      [
        'a list over two lines',
        graftedSocket,
        'periotome, extraction_forceps, root_tip_pick',
        'periotome\n    extraction_forceps, root_tip_pick',
      ],
    ] as const
  ).map(
    ([name, file, find, replace]): Harmless => ({
      name,
      family: 'layout',
      meaning: 'The same words.',
      file,
      find,
      replace,
    }),
  ),
  ...(
    [
      [
        'a plug instead of the sheet',
        'Both hold the graft, both are bovine.',
        graftedSocket,
        'collagen_sheet 15 mm',
        'collagen_plug 15 mm',
      ],
      [
        'another thread that stays',
        'It comes out at the same visit.',
        skinExcision,
        'nylon 1 strand',
        'polypropylene 1 strand',
      ],
      [
        'another gut that outlives the week',
        'It holds longer, and goes by itself.',
        stagedImplant,
        'chromic_gut 2 strands',
        'braided_polyglactin 2 strands',
      ],
      [
        'a pointed blade',
        'Either cuts.',
        stagedImplant,
        'rounded_blade, periosteal_elevator',
        'pointed_blade, periosteal_elevator',
        'gingiva with rounded_blade by resident\n    raise',
        'gingiva with pointed_blade by resident\n    raise',
        'gingiva with rounded_blade by resident\n    remove',
        'gingiva with pointed_blade by resident\n    remove',
      ],
      [
        'another thread for the deep layer',
        'It goes by itself, later.',
        skinExcision,
        'poliglecaprone 1 strand',
        'braided_polyglactin 1 strand',
      ],
      [
        'lidocaine for articaine',
        'Half as strong, same volume, same cautions.',
        graftedSocket,
        'articaine_4_with_epinephrine 2 cartridges',
        'lidocaine_2_with_epinephrine 2 cartridges',
      ],
      [
        'another bank',
        'The same graft from the shelf.',
        graftedSocket,
        'bank_allograft 0.5 mL',
        'cortical_allograft 0.5 mL',
      ],
      [
        'another tooth in the case',
        'The neighbour has a socket of the same size.',
        cases,
        'site        14',
        'site        15',
      ],
    ] as const
  ).map(
    ([name, meaning, file, find, replace, ...more]): Harmless => ({
      name,
      family: 'another choice',
      meaning,
      file,
      find,
      replace,
      also: pairs(more),
    }),
  ),
];

function pairs(words: readonly string[]): readonly Replacement[] {
  return words.flatMap((find, i) => (i % 2 === 0 ? [{ find, replace: words[i + 1] ?? '' }] : []));
}
