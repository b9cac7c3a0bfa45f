import { describe, expect, test } from 'vitest';
import { hoverAt } from '../../support/editor.ts';
import { atTop, inVisit } from './house.ts';

describe('a thing', () => {
  test('tells what it is, its state here and since when, its limits and what they rest on', () => {
    expect(hoverAt(inVisit('wet graft with saline\nclean gap\nfill gap with gr$0aft'))).toMatchInlineSnapshot(`
      "graft

      **graft**: Graft of the bank, bone graft, 0.5 mL

      Half a millilitre a vial.

      Here: **wetted** since \`wet graft with saline\` (line 19). Afterwards: **packed**.

      Wetted lasts at most 60 min, then dried out.

      Must end packed or discarded by end of visit. (common practice, no published source)

      - particle: 200–850 µm (Bone bank, Handling sheet, 2024)
      - soak: 10–60 min (Bone bank, Handling sheet, 2024)

      Contraindicated when
      - patient has acute infection. It is lost. (common practice, no published source)

      _Local codes, product labelling and licensed practice come first._"
    `);
  });

  test('from the beginning it is in its first state, and the step tells what becomes of it', () => {
    expect(hoverAt(inVisit('wet gr$0aft with saline'))).toContain(
      'Here: **dry** from the beginning. Afterwards: **wetted**.',
    );
  });

  test('where paths meet with different states, each path is told', () => {
    const lines = `
decide wall {
  option intact { wet graft with saline }
  option lost { }
}
clean gap
fill gap with gr$0aft`;
    expect(hoverAt(inVisit(lines))).toContain(
      'Here it depends on the path:\n- when wall is intact: **wetted** since `wet graft with saline` (line 20)\n- when wall is lost: **dry** from the beginning',
    );
  });

  test('a place that no list names has its state, too', () => {
    expect(hoverAt(inVisit('clean front_hole\nclean front_h$0ole'))).toContain(
      'Here: **cleaned** since `clean front_hole` (line 19).',
    );
  });

  test('what could be taken for leave to use something says what comes first', () => {
    expect(hoverAt(inVisit('wet gr$0aft with saline'))).toContain(
      '_Local codes, product labelling and licensed practice come first._',
    );
    expect(hoverAt(inVisit('wet graft with sal$0ine'))).not.toContain('Local codes');
  });
});

describe('an action', () => {
  test('reads as a step, with what it needs, makes and takes', () => {
    expect(hoverAt(inVisit('w$0et graft with saline'))).toMatchInlineSnapshot(`
      "wet

      **wet (bone graft) with (liquid)**

      All of it under the liquid.

      - needs bone graft dry because "It takes up the first liquid only" (common practice, no published source)
      - makes bone graft wetted
      - takes 1..2 min"
    `);
  });

  test('a procedure tells its steps', () => {
    expect(hoverAt(inVisit('clean_and$0_fill gap with graft'))).toContain('- fill hole with bone graft');
  });
});

test('a unit is told in others', () => {
  expect(hoverAt(inVisit('inject saline 2 m$0L at gap'))).toBe(
    'mL\n\n**mL**: unit of volume\n\n1 mL is 1000 µL, 0.001 L, 1000 mm³ or 1 cm³.',
  );
});

test('a property tells its value, what it rests on and its limits', () => {
  expect(
    hoverAt(atTop('bone_graft own "Own" {\n  part$0icle 300..400 um source handling_sheet\n}')),
  ).toMatchInlineSnapshot(`
    "particle

    **particle** of bone graft: \`particle : length range within 20 um..3 mm\`

    Own: 300–400 µm (Bone bank, Handling sheet, 2024)

    Taken for a slip outside 20–3000 µm. (common practice, no published source)"
  `);
});

test('a state tells what comes before and after it', () => {
  expect(hoverAt(inVisit('wait until graft is wet$0ted'))).toMatchInlineSnapshot(`
    "wetted

    **wetted**: a state of bone graft

    Comes after dry.

    May become packed, dried out or discarded.

    Lasts at most the longest soak, then dried out."
  `);
});

test('a pause tells its items', () => {
  expect(hoverAt(inVisit('pause check$0_in'))).toMatchInlineSnapshot(`
    "check_in

    **Check in** \`check_in\`

    - Name
    - Site

    Takes 1..2 min, by surgeon"
  `);
});

test('a finding tells its values', () => {
  expect(hoverAt(inVisit('decide wa$0ll {\n}'))).toContain('- `lost` Lost');
});

test('a rule tells why and on whose authority', () => {
  expect(hoverAt(atTop('rule own "Own" {\n  replaces clean$0_first\n}'))).toContain(
    'Why: Dirt stays in\n\nSource: Bone bank, Handling sheet, 2024',
  );
});

test('a source tells its citation', () => {
  expect(hoverAt(inVisit('clean gap source handling$0_sheet'))).toContain('Bone bank, Handling sheet, 2024');
});

test('a word of the language tells what it is for', () => {
  expect(hoverAt(inVisit('no$0te "Look"'))).toMatch(/^note\n\n\*\*note\*\*: \S/);
  expect(hoverAt(inVisit('clean gap tak$0es 5 min'))).toBe(
    'takes\n\n**takes**: How long it takes: a time, or a range of time.',
  );
});

test('text of a file is shown as it is written, whatever signs it has', () => {
  const text = 'kind odd "[x](command:y) <b>*z*</b>" is material\nodd o$0wn "Own"';
  expect(hoverAt(atTop(text.replace('o$0wn', 'own').replace('odd own', 'o$0dd own')))).toContain(
    '**\\[x\\](command:y) \\<b\\>\\*z\\*\\</b\\>**',
  );
});

test.each([
  ['a quoted text', 'note "wet gra$0ft"'],
  ['a number', 'clean gap takes 1$00 min'],
  ['an unknown name', 'wet gr$0avel with saline'],
  ['an empty line', '$0'],
])('nothing is told of %s', (_, line) => {
  expect(hoverAt(inVisit(line))).toBe('');
});
