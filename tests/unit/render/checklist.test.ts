import { describe, expect, test } from 'vitest';
import { everyItem, exampleSheet, sheetOf, visitOf } from './sheets.ts';

/** A small craft of its own: the sheet must come from the declarations, not from words it knows. */
const house = `
source glue_sheet "Label of the glue" {
  by       "The maker"
  year     2020
  strength label
}
kind paste "paste" is material {
  rest   : time range
  states dry -> stirred -> spread, any -> thrown_away
  must end spread or thrown_away by end of visit source glue_sheet
}
kind wedge "wedge" is material {
  states unused -> between -> out
  must end unused or out before pause last_look because "Nobody looks for it later"
}
kind spoon "spoon" is instrument
spoon flat_spoon "Flat spoon"
paste grey_paste "Grey paste" {
  rest 4..20 min source glue_sheet
}
place shelf "Shelf"
role joiner "Joiner"
pause last_look "Last look" {
  item   "Nothing left between"
  takes  1 min
  by     joiner
}
finding wood "Wood" {
  hard "Hard"
  soft "Soft"
}
action stir "Stir" (paste p) {
  makes p stirred
  takes 1..2 min
}
action spread "Spread" (paste p) on (place s) with (spoon t) {
  needs p stirred for p.rest because "It has to swell"
  makes p spread
  takes 30 s..1 min
  by    joiner
}
action wedge "Wedge" (wedge w) in (place s) {
  makes w between
  takes 30 s..1 min
}
action draw "Draw" (wedge w) from (place s) {
  makes w out
  takes 30 s..1 min
}
rule spread_on_a_shelf "Paste goes on a shelf" {
  whenever spread (paste p) on (place s) with (spoon t)
  expect   s is place
  severity error
  why      "It runs off anything else"
  source   glue_sheet
}
`;

const small = `${house}
/// How a shelf is glued.
protocol glue_shelf "Gluing a shelf" {
  version 1.2.0
  status  approved
  owner   "Workshop"
  review  every 6 mo
  approved 2026-01-15 by "The foreman"
  team { joiner }
  materials {
    paste_one : grey_paste
    peg       : wedge
  }
  instruments { flat_spoon }
  visit gluing "Gluing" {
    wedge peg in shelf
    stir paste_one because "It swells meanwhile"
    wait 5 min
    decide wood "Press a nail in" {
      option hard { }
      option soft {
        note "Spread thinly"
      }
    }
    spread paste_one on shelf with flat_spoon takes 1..2 min by joiner source glue_sheet
    draw peg from shelf
    pause last_look
    record photograph "From the side" of peg
    instruct "Do not load it for a day" at home
    complication "The paste runs" {
      stop "Wipe it off and begin again"
    }
  }
  wait 1..2 wk because "It hardens"
  visit look "Looking at it" {
    verify "It holds" otherwise "Glue it again"
  }
}
`;

/** Of the small protocol. */
function lineWith(words: string): number {
  return small.split('\n').findIndex((line) => line.includes(words)) + 1;
}

describe('a small protocol', () => {
  const sheet = sheetOf(small);

  test('has no problem that would make it unfit', () => {
    expect(sheet.problems.filter(({ severity }) => severity !== 'advice')).toEqual([]);
    expect(sheet).toMatchObject({ fit: true, errors: 0 });
  });

  test('head: who answers for it, in which version, and what is laid out', () => {
    expect(sheet).toMatchObject({
      name: 'glue_shelf',
      file: 'main.curette',
      title: 'Gluing a shelf',
      summary: 'How a shelf is glued.',
      version: '1.2.0',
      status: 'approved',
      owner: 'Workshop',
      review: 'every 6 months',
      approved: '2026-01-15 by The foreman',
      team: ['Joiner'],
      materials: [
        { name: 'Paste one', is: 'Grey paste' },
        { name: 'Peg', is: 'wedge' },
      ],
      instruments: [{ name: 'Flat spoon', is: null }],
    });
  });

  test('a step says what, with what, who, how long, why, and the limit that the order of work has to keep', () => {
    const spread = visitOf(sheet, 'gluing').steps[4];
    expect(spread).toEqual({
      type: 'step',
      line: lineWith('spread paste_one'),
      text: 'Spread paste one on shelf',
      with: ['Flat spoon'],
      who: ['Joiner'],
      takes: '1–2 min',
      because: null,
      source: 1,
      limits: [
        { type: 'clock', text: 'paste one stirred for 4–20 min', why: 'It has to swell', source: 1 },
        { type: 'rule', text: 'Paste goes on a shelf', why: 'It runs off anything else', source: 1 },
      ],
      clocks: [],
      steps: [],
    });
    expect(sheet.sources[0]).toEqual({ name: 'glue_sheet', citation: 'The maker, Label of the glue, 2020' });
  });

  test('a step that begins a state whose age is asked for later sets a clock', () => {
    expect(visitOf(sheet, 'gluing').steps[1]).toMatchObject({
      text: 'Stir paste one',
      because: 'It swells meanwhile',
      clocks: [{ text: 'paste one stirred', limit: '4–20 min', until: 'spread paste one on shelf' }],
    });
  });

  test('a decision has a branch for each option, an empty one too', () => {
    expect(visitOf(sheet, 'gluing').steps[3]).toMatchObject({
      type: 'decide',
      text: 'Wood',
      how: 'Press a nail in',
      options: [
        { label: 'Hard', steps: [] },
        { label: 'Soft', steps: [{ type: 'note', text: 'Spread thinly' }] },
      ],
    });
  });

  test('what must be out is asked for at the pause it is due before, what must be done at the first pause after it', () => {
    expect(visitOf(sheet, 'gluing').steps[6]).toMatchObject({
      type: 'pause',
      label: 'Last look',
      items: ['Nothing left between'],
      who: ['Joiner'],
      due: [
        { thing: 'peg', states: ['out'], by: 'before last look', why: 'Nobody looks for it later' },
        { thing: 'paste one', states: ['spread'], by: 'by the end of the visit', source: 1 },
      ],
    });
  });

  test('records, instructions, contingencies and the time between visits are told', () => {
    expect(visitOf(sheet, 'gluing').steps.slice(7)).toMatchObject([
      { type: 'record', what: 'Photograph of peg', text: 'From the side' },
      { type: 'instruct', text: 'Do not load it for a day', home: true },
      { type: 'complication', label: 'The paste runs', steps: [{ type: 'stop', text: 'Wipe it off and begin again' }] },
    ]);
    expect(sheet.course[1]).toEqual({
      type: 'interval',
      line: lineWith('wait 1..2 wk'),
      text: '1–2 weeks',
      because: 'It hardens',
      source: null,
    });
    expect(visitOf(sheet, 'look').steps[0]).toMatchObject({
      type: 'verify',
      text: 'It holds',
      otherwise: 'Glue it again',
    });
  });
});

describe('fit for use', () => {
  const broken = small.replace('draw peg from shelf', '');

  test('is not what has an error, and how many is said', () => {
    const sheet = sheetOf(broken);
    expect(sheet).toMatchObject({ fit: false, errors: 1 });
    expect(sheet.problems[0]).toMatchObject({ severity: 'error', title: 'Left as it must not be' });
  });

  test('where a thing is left as it must not be, all that would do is asked for', () => {
    const pause = everyItem(visitOf(sheetOf(broken), 'gluing').steps).find(({ type }) => type === 'pause');
    expect(pause).toMatchObject({ due: [{ thing: 'peg', states: ['unused', 'out'] }, { thing: 'paste one' }] });
  });

  test('is not what uses a file with an error', () => {
    const files = { 'main.curette': `use shared\n${small}`, 'shared.curette': 'kind cloth "cloth" is matrial { }\n' };
    const sheet = sheetOf(files);
    expect(sheet).toMatchObject({ fit: false, errors: 1 });
    expect(sheet.problems[0]).toMatchObject({ severity: 'error', file: 'shared.curette', line: 1 });
  });

  test('is what has a faulty neighbour in its file', () => {
    const two = `${small}\nprotocol other "Other" {\n  version 1.0.0\n  status draft\n  owner "Workshop"\n  team { joiner }\n  visit one "One" { polish shelf }\n}\n`;
    expect(sheetOf(two, 'other')).toMatchObject({ fit: false, errors: 1 });
    expect(sheetOf(two, 'glue_shelf')).toMatchObject({ fit: true, errors: 0 });
  });
});

describe('demo protocols', () => {
  const sound = [
    'grafted_socket',
    'staged_implant',
    'skin_excision',
    'ridge_augmentation',
    'sinus_floor_elevation',
    'one_stage_implant',
  ];

  test.each(sound)('%s is fit for use', (name) => {
    expect(exampleSheet(`protocols/${name}.curette`)).toMatchObject({ name, fit: true });
  });

  test('grafted socket: soaking is a clock from wetting to packing, with the limit of the bank whose graft it is', () => {
    const sheet = exampleSheet('protocols/grafted_socket.curette');
    const items = everyItem(visitOf(sheet, 'surgery').steps);
    const wet = items.find((item) => item.type === 'step' && item.text.startsWith('Wet'));
    const pack = items.find((item) => item.type === 'step' && item.text.startsWith('Pack'));
    expect(wet).toMatchObject({ who: ['Assistant'], clocks: [{ text: 'graft wetted', limit: '12–50 min' }] });
    expect(pack).toMatchObject({ with: ['Graft condenser'], who: ['Surgeon'], takes: '4–8 min' });
    const clock = pack?.type === 'step' ? pack.limits.find(({ type }) => type === 'clock') : undefined;
    expect(clock?.text).toBe('graft wetted for 12–50 min');
    expect(sheet.sources[(clock?.source ?? 0) - 1]?.citation).toContain('Vellamoor tissue bank');
  });

  test('grafted socket: each path that ends closes with what that path has in the patient', () => {
    const sheet = exampleSheet('protocols/grafted_socket.curette');
    const pauses = everyItem(visitOf(sheet, 'surgery').steps).filter((item) => item.type === 'pause');
    const due = pauses.map(({ label, due }) => [label, ...due.map((one) => `${one.thing} ${one.states.join('/')}`)]);
    expect(due).toEqual([
      ['Sign in'],
      ['Time out'],
      // The wall is lost: the graft was opened and goes, the sheet was never touched.
      ['Sign out', 'pack counted', 'graft discarded', 'swabs counted'],
      ['Sign out', 'pack counted', 'graft packed', 'swabs counted', 'cover fixed'],
    ]);
  });

  test('staged implant: what stays in is left for a later visit', () => {
    const sheet = exampleSheet('protocols/staged_implant.curette');
    const carried = visitOf(sheet, 'placement').carried.map(({ thing, states, by }) => ({ thing, states, by }));
    expect(carried).toEqual([
      { thing: 'screw', states: ['removed', 'booked'], by: 'by the end of the protocol' },
      { thing: 'thread', states: ['removed'], by: 'by the end of the protocol' },
    ]);
    expect(visitOf(sheet, 'opening').carried).toEqual([]);
  });

  test('the draft with mistakes is not fit for use', () => {
    const sheet = exampleSheet('drafts/grafted_socket_draft.curette');
    expect(sheet.fit).toBe(false);
    expect(sheet.errors).toBe(sheet.problems.filter(({ severity }) => severity === 'error').length);
    expect(sheet.errors).toBeGreaterThanOrEqual(5);
  });
});
