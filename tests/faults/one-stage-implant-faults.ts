import type { Fault, Harmless } from './edit.ts';

const file = 'protocols/one_stage_implant.curette';
const lowCap = 'place low_cap on fixture with screw_driver';
const seat = 'place fixture into ridge with implant_driver';
const lastDrill =
  '        »drill ridge to 10 mm with final_drill_42 at 800 /min under saline by resident\n        thread';

/** One wide implant that heals in sight from the first day. */
export const oneStageImplantFaults: readonly Fault[] = [
  {
    name: 'in sight with hardly any hold',
    family: 'torque and speed',
    meaning: 'Chewed on from the first day, it heals in soft tissue.',
    file,
    find: `${lowCap} at 25..50 N.cm`,
    replace: `${lowCap} at 10..20 N.cm`,
    problem: 'one_stage_needs_hold',
    on: `${lowCap} at 10..20 N.cm`,
  },
  {
    name: 'torque not said',
    family: 'torque and speed',
    meaning: 'Whether the implant may heal in sight was decided on nothing.',
    file,
    find: `${lowCap} at 25..50 N.cm`,
    replace: lowCap,
    problem: 'unmet_need',
    on: lowCap,
  },
  {
    name: 'torque ten times too low, by the unit',
    family: 'unit slip',
    meaning: 'Newton millimetres for newton centimetres.',
    file,
    find: `${lowCap} at 25..50 N.cm`,
    replace: `${lowCap} at 25..50 N.mm`,
    problem: 'one_stage_needs_hold',
    on: `${lowCap} at 25..50 N.mm`,
  },
  {
    name: 'low torque left in sight',
    family: 'decision',
    meaning: 'The wrench said no, and the abutment goes on nevertheless.',
    file,
    find: `        place screw on fixture with screw_driver by surgeon because "It may not be met while it is hardly held"
        close gingiva with softgut on fine_needle_holder in 4 stitches by resident
        press swabs on gingiva takes 3..5 min usually 3 min by assistant
        count swabs by resident, assistant
        record radiograph "Implant and canal, screw down" of ridge
        book screw by resident
        pause sign_out
        pause handover
        stop "It heals closed for 4 mo, and is opened as in the staged placement"
`,
    replace: '        note "Nothing is bitten on it for 4 mo"\n',
    problem: 'never_used',
    on: 'screw     : cover_screw',
  },
  {
    name: 'low torque not planned for',
    family: 'decision',
    meaning: 'The wrench stops at 15, and there is no line that says what then.',
    file,
    find: 'option low {',
    replace: 'option high {',
    problem: 'option_missing',
    on: 'decide seating_torque',
  },
  {
    name: 'turning implant noted and left',
    family: 'decision',
    meaning: 'It has been taken out, and the next line puts an abutment on it.',
    file,
    find: '        stop "Heal for 8 wk and begin again with a new plan"',
    replace: '        note "Heal for 8 wk and begin again with a new plan"',
    problem: 'wrong_state',
    on: lowCap,
  },
  {
    name: 'covered, and the opening not booked',
    family: 'left behind',
    meaning: 'The protocol ends there: nobody is to open the implant, and the patient waits for a letter.',
    file,
    find: '        book screw by resident\n',
    replace: '',
    problem: 'left_undone',
    on: 'place screw on fixture',
  },
  {
    name: 'low torque and no screw',
    family: 'left behind',
    meaning: 'The flap is closed over an open implant: its inside fills and rots.',
    file,
    find: '        place screw on fixture with screw_driver by surgeon because "It may not be met while it is hardly held"\n',
    replace: '',
    also: [
      { find: '        book screw by resident\n', replace: '' },
      { find: '    screw     : cover_screw\n', replace: '' },
    ],
    problem: 'left_undone',
    on: seat,
  },
  {
    name: 'no abutment over thick gingiva',
    family: 'left behind',
    meaning: 'One of the two ways ends with an open implant.',
    file,
    find: `      option thick {
        place high_cap on fixture with screw_driver at 25..50 N.cm by surgeon
      }
`,
    replace: '      option thick { }\n',
    also: [{ find: '    high_cap  : high_healing_abutment\n', replace: '' }],
    problem: 'left_undone',
    on: seat,
  },
  {
    name: 'loose mucosa not planned for',
    family: 'decision',
    meaning: 'An abutment that comes through loose mucosa stays sore.',
    file,
    find: `      option narrow {
        stop "An abutment in loose mucosa stays sore: two stages, with firm gingiva gained at the second"
      }
`,
    replace: '',
    problem: 'option_missing',
    on: 'decide firm_gingiva',
  },
  {
    name: 'wide implant in a narrow ridge',
    family: 'size',
    meaning: 'The wall on the cheek side is lost within the year.',
    file,
    find: 'ridge_width     8..11 mm',
    replace: 'ridge_width     6..7 mm',
    problem: 'bone_around_the_implant',
    on: seat,
  },
  {
    name: 'too near to its neighbours',
    family: 'size',
    meaning: 'The bone between them goes, and with it the papilla.',
    file,
    find: 'space           9..13 mm',
    replace: 'space           6..7 mm',
    problem: 'space_to_the_neighbours',
    on: seat,
  },
  {
    name: 'too near to the canal',
    family: 'size',
    meaning: 'The tip of the drill reaches farther than its mark, and the lip stays numb.',
    file,
    find: 'bone_height     14..20 mm',
    replace: 'bone_height     12..14 mm',
    problem: 'drill_stops_short',
    on: 'with pilot_drill_20 at',
  },
  {
    name: 'pilot drill to 15 mm',
    family: 'size',
    meaning: 'Five millimetres below the end of the implant lies the nerve.',
    file,
    find: 'drill ridge to 10 mm with pilot_drill_20',
    replace: 'drill ridge to 15 mm with pilot_drill_20',
    problem: 'hole_fits_the_implant',
    on: 'drill ridge to 15 mm',
  },
  {
    name: 'second widening drill skipped',
    family: 'order',
    meaning: 'From 2.8 to 4.2 mm in one step burns hard bone.',
    file,
    find: '    drill ridge to 10 mm with widening_drill_35 at 900 /min under saline by resident\n',
    replace: '',
    also: [{ find: 'widening_drill_28, widening_drill_35, final', replace: 'widening_drill_28, final' }],
    problem: 'wrong_state',
    on: lastDrill,
  },
  {
    name: 'drills in falling order',
    family: 'order',
    meaning: 'The wide one goes first, with no hole to follow.',
    file,
    find: `    drill ridge to 10 mm with widening_drill_28 at 900 /min under saline by resident
    drill ridge to 10 mm with widening_drill_35 at 900 /min under saline by resident
`,
    replace: `    drill ridge to 10 mm with widening_drill_35 at 900 /min under saline by resident
    drill ridge to 10 mm with widening_drill_28 at 900 /min under saline by resident
`,
    problem: 'wrong_state',
    on: 'with widening_drill_35 at 900',
  },
  {
    name: 'thread cut for another implant',
    family: 'torque and speed',
    meaning: 'A thread of 4.0 mm in a hole of 4.2 mm: it cuts nothing, and the implant crushes the bone.',
    file,
    find: 'tapered_expander, thread_former_48',
    replace: 'tapered_expander, thread_former_40',
    also: [{ find: 'with thread_former_48', replace: 'with thread_former_40' }],
    problem: 'thread_is_cut_slowly',
    on: 'with thread_former_40',
  },
  {
    name: 'drilled ten times too fast',
    family: 'unit slip',
    meaning: 'A nought too many: bone at 8,000 turns is burnt bone.',
    file,
    find: `drill ridge to 10 mm with final_drill_42 at 800 /min under saline by resident
        thread`,
    replace: `drill ridge to 10 mm with final_drill_42 at 8000 /min under saline by resident
        thread`,
    problem: 'drill_within_its_speed',
    on: 'at 8000 /min',
  },
  {
    name: 'seated at drilling speed',
    family: 'torque and speed',
    meaning: 'It strips its own thread, and turns.',
    file,
    find: `${seat} at 25 /min`,
    replace: `${seat} at 250 /min`,
    problem: 'implant_is_seated_slowly',
    on: `${seat} at 250`,
  },
  {
    name: 'drills cooled from the lines of the chair',
    family: 'tray',
    meaning: 'Its bacteria are in the bone that a foreign body is to heal in.',
    file,
    find: 'sterile_saline 500 mL',
    replace: 'unit_water 500 mL',
    problem: 'drill_is_cooled_sterile',
    on: 'mark ridge with round_marking_drill',
  },
  {
    name: 'crown after five weeks',
    family: 'time',
    meaning: 'What held by friction has gone by then, and what grew on is not hard yet.',
    file,
    find: 'wait 9..11 wk',
    replace: 'wait 2..3 wk',
    problem: 'crown_waits_for_bone',
    on: 'load fixture with crown',
  },
  {
    name: 'stitches out after three days',
    family: 'time',
    meaning: 'The gingiva gapes around the abutment.',
    file,
    find: 'wait 7..10 d',
    replace: 'wait 3..4 d',
    problem: 'clock_broken',
    on: 'remove thread from gingiva',
  },
  {
    name: 'scan not looked at',
    family: 'image',
    meaning: 'The canal is met by the drill.',
    file,
    find: '    review scan by surgeon\n',
    replace: '',
    problem: 'wrong_state',
    on: 'mark ridge with round_marking_drill',
  },
  {
    name: 'drilled before time out',
    family: 'counts and pauses',
    meaning: 'A hole in bone at the wrong site is not undone.',
    file,
    find: `    pause time_out {
      item "Implant, its width and its length read aloud from the box; distance to the canal read from the scan"
    }
`,
    replace: '',
    problem: 'time_out_before_drilling',
    on: 'mark ridge with round_marking_drill',
  },
  {
    name: 'swabs not counted after a low torque',
    family: 'counts and pauses',
    meaning: 'The way that was not planned ends without the count.',
    file,
    find: '        count swabs by resident, assistant\n        record radiograph "Implant and canal',
    replace: '        record radiograph "Implant and canal',
    problem: 'house_pressed_swabs_are_counted',
    on: '        »press swabs on gingiva takes 3..5 min usually 3 min by assistant\n        record',
  },
  {
    name: 'flap over the screw closed with plain gut',
    family: 'closure and stitches',
    meaning: 'The thread is gone in three days, and the screw lies bare.',
    file,
    find: 'chromic_gut 1 strand',
    replace: 'plain_gut 1 strand',
    problem: 'flap_is_held_for_a_week',
    on: '        »close gingiva with softgut on fine_needle_holder in 4 stitches by resident\n        press swabs on gingiva takes 3..5 min usually 3 min by assistant\n        count swabs by resident, assistant\n        record',
  },
  {
    name: 'not asked: a jaw that still grows',
    family: 'contraindication',
    meaning: 'The implant stays behind while the jaw grows, and sinks.',
    file,
    find: '  exclude when patient has growing_jaw because "The implant stays behind while the jaw grows"\n',
    replace: '',
    problem: 'contraindication_open',
    on: 'fixture   : wide_implant',
  },
  {
    name: 'a block for one who is watched by the lip',
    family: 'dose',
    meaning: 'Two more cartridges than planned: a weak heart gets more vasoconstrictor than it may have.',
    file,
    find: 'inject numbing 3.4 mL at ridge',
    replace: 'inject numbing 5.1 mL at ridge',
    problem: 'less_vasoconstrictor_at_cardiac_risk',
    on: 'inject numbing 5.1 mL',
  },
];

/** What a careful colleague may change in it. */
export const oneStageImplantHarmless: readonly Harmless[] = [
  {
    name: 'torque in another unit',
    family: 'equivalent unit',
    meaning: 'The same torque.',
    file,
    find: `${lowCap} at 25..50 N.cm`,
    replace: `${lowCap} at 250..500 N.mm`,
  },
  {
    name: 'more hold asked for',
    family: 'stricter',
    meaning: 'Who asks for 35 covers a few more of them.',
    file,
    find: `${lowCap} at 25..50 N.cm`,
    replace: `${lowCap} at 35..50 N.cm`,
  },
  {
    name: 'turning comes before low',
    family: 'order that does not matter',
    meaning: 'One of the options is taken, wherever it stands.',
    file,
    find: `      option right { }
      option high {
        note "Half a turn back, a minute's rest, on again; over 50 N.cm it goes out and gets its thread cut"
      }
`,
    replace: `      option high {
        note "Half a turn back, a minute's rest, on again; over 50 N.cm it goes out and gets its thread cut"
      }
      option right { }
`,
  },
  {
    name: 'more saline',
    family: 'more of the same',
    meaning: 'More saline is at hand.',
    file,
    find: 'sterile_saline 500 mL',
    replace: 'sterile_saline 1000 mL',
  },
  {
    name: 'abutments called by their height',
    family: 'renamed throughout',
    meaning: 'Only the name in this protocol changed.',
    file,
    find: 'high_cap  : high_healing_abutment',
    replace: 'cap_5     : high_healing_abutment',
    also: [{ find: 'place high_cap on', replace: 'place cap_5 on' }],
  },
  {
    name: 'crown later',
    family: 'stricter',
    meaning: 'Bone is only harder by then.',
    file,
    find: 'wait 9..11 wk',
    replace: 'wait 12..14 wk',
  },
];
