import { expect, test } from 'vitest';
import { hoverAt, lensesOf } from '../../support/editor.ts';
import { inVisit } from './house.ts';

test('a wait within a range tells which limit it serves, and which of its lengths keep it', () => {
  const lines = `
wet graft with saline
wa$0it 5..58 min because "It soaks"
clean gap takes 2..4 min
fill gap with graft`;
  expect(hoverAt(inVisit(lines))).toMatchInlineSnapshot(`
    "wait 5..58 min because "It soaks"

    **Waits 5–58 min**: the team chooses, in view of how the work goes.

    Why: It soaks

    It serves
    - **graft** wetted for 10–60 min when "fill gap" begins, counted from the end of "wet graft": holds, if the team waits in view of it. (Bone bank, Handling sheet, 2024)

    **8–56 min** keeps the limit, however long the work around it takes.

    _Local codes, product labelling and licensed practice come first._"
  `);
});

test('every length may do', () => {
  const lines = `
wet graft with saline
wa$0it 10..20 min
clean gap takes 2..4 min
fill gap with graft`;
  expect(hoverAt(inVisit(lines))).toContain('Every length that is written keeps the limit, however long');
});

test('where no one length does for every run, the answer says whether choosing as the work goes does', () => {
  const lines = `
wet graft with saline
clean gap takes 2..55 min
wa$0it 0..20 min
clean gap takes 1 min
fill gap with graft`;
  expect(hoverAt(inVisit(lines))).toContain(': holds, if the team waits in view of it.');
  expect(hoverAt(inVisit(lines))).toContain(
    'No one length does for every run: the team has to choose as the work goes',
  );
});

test('limits that ask opposite things of one wait', () => {
  const text = `
kind filler is material {
  states dry -> wetted -> packed
}
kind cement is material {
  states unmixed -> mixed -> placed
  mixed  lasts at most 4 min, then set source common_practice
}
action wet (filler f) {
  makes f wetted
  takes 1 min
}
action pack (filler f) {
  needs f wetted for 10 min because "Too soon it floats out" source common_practice
  makes f packed
  takes 5 min
}
action mix (cement c) {
  makes c mixed
  takes 1 min
}
action place (cement c) {
  needs c mixed because "Set, it no longer sticks" source common_practice
  makes c placed
  takes 1 min
}

protocol two "Two clocks and one wait" {
  materials { granules : filler, paste : cement }
  visit surgery "Surgery" {
    wet granules
    mix paste
    wa$0it 1..20 min
    place paste
    pack granules
  }
}
`;
  expect(hoverAt(text)).toMatchInlineSnapshot(`
    "wait 1..20 min

    **Waits 1–20 min**: the team chooses, in view of how the work goes.

    It serves
    - **granules** wetted for at least 10 min when "pack granules" begins, counted from the end of "wet granules": could be kept by itself. Too soon it floats out. (common practice, no published source)

    It counts towards
    - **paste** mixed at most 4 min when "place paste" begins, counted from the end of "mix paste": could be kept by itself. Set, it no longer sticks. (common practice, no published source)

    **They contradict each other**: no length of the wait keeps them all.

    _Local codes, product labelling and licensed practice come first._"
  `);
  expect(lensesOf(text)).toEqual(['visit surgery "Surgery": In the chair 9–28 min; 2 limits always break']);
});

test('what a limit does not let go by is told as well', () => {
  const lines = `
wet graft with saline
wa$0it 100 min
fill gap with graft`;
  expect(hoverAt(inVisit(lines))).toContain('begins, counted from the end of "wet graft": **is always too late**.');
});

test('a wait for a state tells how long that is here', () => {
  const lines = `
wet graft with saline
clean gap takes 2..7 min
wa$0it until graft is wetted for 10 min
fill gap with graft`;
  expect(hoverAt(inVisit(lines))).toMatchInlineSnapshot(`
    "wait until graft is wetted for 10 min

    **Waits until graft is wetted for 10 min**, and no longer: here it takes 3–8 min.

    It serves
    - **graft** wetted for 10–60 min when "fill gap" begins, counted from the end of "wet graft": holds. (Bone bank, Handling sheet, 2024)

    _Local codes, product labelling and licensed practice come first._"
  `);
  expect(hoverAt(inVisit(lines.replace('2..7 min', '12 min')))).toContain('it takes no time');
});

test('a wait that no limit reaches over says so', () => {
  expect(hoverAt(inVisit('clean gap\nwa$0it 10 min'))).toBe(
    'wait 10 min\n\n**Waits 10 min**.\n\nNo limit on time reaches over it.',
  );
});

test.each([
  ['the number', 'wait 1$00 min'],
  ['the dots', 'wait 10.$0.20 min'],
])('%s tells of the wait', (_, line) => {
  expect(hoverAt(inVisit(line))).toContain('**Waits 10');
});

test('the unit and the thing in it tell of themselves', () => {
  expect(hoverAt(inVisit('wait 10 mi$0n'))).toContain('**min**');
  expect(hoverAt(inVisit('wait until gra$0ft is wetted for 10 min'))).toContain('**graft**');
});

test('a wait that is half typed tells what the word is for', () => {
  expect(hoverAt(inVisit('wa$0it'))).toBe('wait\n\n**wait**: Time that must go by, or a state to wait for.');
  expect(hoverAt(inVisit('wa$0it until gravel is wetted'))).toContain('**wait**');
});

/** Two visits with a wait between them; the graft is wetted in the first and packed in the second. */
const between = (wait: string) =>
  inVisit('clean gap\nwet graft with saline').replace(
    /\n {2}\}\n\}/,
    `\n  }\n  ${wait}\n  visit second "Second visit" {\n    fill gap with graft\n  }\n}`,
  );

test('a wait between visits tells the earliest and the latest day, and the limits that reach over it', () => {
  expect(hoverAt(between('wa$0it 4..5 mo because "It heals"'))).toMatchInlineSnapshot(`
    "wait 4..5 mo because "It heals"

    **From "First visit" to "Second visit"**: 120 days at the earliest, 153 days at the latest. How many days a month has depends on the date.

    Why: It heals

    It serves
    - **graft** wetted for 10–60 min when "fill gap" begins, counted from the end of "wet graft": **is always too late**. (Bone bank, Handling sheet, 2024)

    _Local codes, product labelling and licensed practice come first._"
  `);
});

test.each([
  ['7..10 d', '7 days at the earliest, 10 days at the latest.'],
  ['2 wk', '14 days.'],
  ['1 mo', '28 days at the earliest, 31 days at the latest. How many days a month has depends on the date.'],
  ['at least 36 h', '1 day at the earliest; nothing says how long at most.'],
])('%s are so many days', (length, words) => {
  expect(hoverAt(between(`wa$0it ${length}`))).toContain(`**From "First visit" to "Second visit"**: ${words}`);
});
