/** Whole lines and steps that completion writes, and what is told of an item before it is taken. */
import { type Body, parse } from '@curette/grammar';
import { describe, expect, test } from 'vitest';
import { namesAt, offeredAt } from '../../support/editor.ts';
import { atTop, inVisit } from './house.ts';

function flawsIn({ flaws, body }: { readonly flaws: readonly unknown[]; readonly body: Body | undefined }): unknown[] {
  return [...flaws, ...(body?.items ?? []).flatMap((item) => flawsIn({ flaws: item.flaws, body: item.body }))];
}

describe('a step', () => {
  test('is written with all that it needs, in order, with the things of the protocol that fit', () => {
    expect(offeredAt(inVisit('$0'), 'wet').writes).toBe('wet [graft] with [saline]');
    expect(offeredAt(inVisit('$0'), 'inject').writes).toBe('inject [saline] [volume] at [gap]');
  });

  test('with what may be left out as a second item', () => {
    expect(offeredAt(inVisit('$0'), 'fill').writes).toBe('fill [gap] with [graft]');
    expect(offeredAt(inVisit('$0'), 'fill … with … on … in …').writes).toBe(
      'fill [gap] with [graft] on [packer] in [count]',
    );
  });

  test('of several things that fit, the one that is ready stands first', () => {
    const two = inVisit('wet second with saline\n$0').replace(
      'graft  : bank_graft 0.5 mL',
      'graft  : bank_graft 0.5 mL\n    second : bank_graft 0.5 mL',
    );
    expect(offeredAt(two, 'fill').writes).toBe('fill [gap] with [second|graft]');
    expect(offeredAt(two, 'wet').writes).toBe('wet [graft|second] with [saline]');
  });

  test('is the verb alone where something stands behind the cursor', () => {
    expect(offeredAt(inVisit('w$0 graft with saline'), 'wet').writes).toBe('wet');
    expect(namesAt(inVisit('f$0 gap with graft'))).not.toContain('fill … with … on … in …');
  });
});

describe('a line', () => {
  test('a decision has an option for each value of its finding', () => {
    const whole = '{\n  option intact {\n    []\n  }\n  option lost {\n    []\n  }\n}';
    expect(offeredAt(inVisit('$0'), 'decide wall').writes).toBe(`decide wall ${whole}`);
    expect(offeredAt(inVisit('decide $0'), 'wall').writes).toBe(`wall ${whole}`);
  });

  test('a pause is one of those that are declared', () => {
    expect(offeredAt(inVisit('$0'), 'pause').writes).toBe('pause [check_in]');
  });

  test('a check says what to do otherwise', () => {
    expect(offeredAt(inVisit('$0'), 'verify').writes).toBe(
      'verify [property] of [thing] within [low..high] otherwise { stop "[Why]" }',
    );
  });

  test('a case of a protocol has its given things and the findings it asks for', () => {
    const text = inVisit('decide wall { option intact { }, option lost { } }').replace(
      'use house\n',
      'use house\n\n$0\n',
    );
    expect(offeredAt(text, 'case of filling').writes).toBe(
      'case [name] of filling {\n  start [2027-01-11]\n  patient { [] }\n  gap { [] }\n  wall [intact|lost]\n}',
    );
  });

  test('every form is read as one whole line of the language', () => {
    const forms: { readonly label: string; readonly text: string }[] = [];
    const look = (text: string, around: (line: string) => string) => {
      for (const label of namesAt(text)) {
        const { writes } = offeredAt(text, label);
        // Filled in with what stands there; an empty gap stays empty.
        if (writes !== label) forms.push({ label, text: around(writes.replace(/\[([^\]|]*)[^\]]*\]/g, '$1')) });
      }
    };
    look(atTop('$0'), (line) => line);
    look(inVisit('$0'), (line) => `protocol p "P" { visit v "V" {\n${line}\n} }`);
    look(atTop('protocol p "P" {\n  $0\n}'), (line) => `protocol p "P" {\n${line}\n}`);
    look(inVisit('decide wall {\n  $0\n}'), (line) => `protocol p "P" { visit v "V" { decide wall {\n${line}\n} } }`);
    look(inVisit('together {\n  $0\n}'), (line) => `protocol p "P" { visit v "V" { together {\n${line}\n} } }`);
    look(atTop('pause p "P" {\n  $0\n}'), (line) => `pause p "P" {\n${line}\n}`);
    look(atTop('kind k is material {\n  $0\n}'), (line) => `kind k is material {\n${line}\n}`);
    look(atTop('rule r "R" {\n  $0\n}'), (line) => `rule r "R" {\n${line}\n}`);
    expect(forms.length).toBeGreaterThan(40);
    expect(flawsIn(parse('visit v'))).not.toEqual([]);
    // Gaps for a place, an amount or a range have to be filled in before the line says something.
    const open = new Set(['inject', 'verify']);
    for (const { label, text } of forms)
      if (!open.has(label)) expect({ text, flaws: flawsIn(parse(text)) }).toEqual({ text, flaws: [] });
  });
});

describe('what is told of an item', () => {
  test('of a thing: why it is not ready, its state here and since when, its limits and what they rest on', () => {
    const { told } = offeredAt(inVisit('clean gap\nfill gap with $0'), 'graft');
    expect(told).toContain('**Dry here: wet it first.**');
    expect(told).toContain('Here: **dry** from the beginning.');
    expect(told).toContain('- soak: 10–60 min (Bone bank, Handling sheet, 2024)');
    expect(told).toContain('Contraindicated when\n- patient has acute infection.');
    expect(told).toContain('Local codes, product labelling and licensed practice come first.');
    expect(told).not.toContain('Afterwards');
  });

  test('since which step, with its line and when that can begin', () => {
    const { told } = offeredAt(inVisit('clean gap\nwet graft with saline\nfill gap with $0'), 'graft');
    expect(told).toContain('Here: **wetted** since `wet graft with saline` (line 20, begins 1 min into the visit).');
  });

  test('of a verb: what it needs and makes; of a form: how it reads', () => {
    const { told } = offeredAt(inVisit('$0'), 'wet');
    expect(told).toContain('- needs bone graft dry');
    expect(told).toContain('```curette\nwet graft with saline\n```');
  });

  test('of a source: title and year; of a file of the library: what it holds', () => {
    expect(offeredAt(inVisit('clean gap source $0'), 'handling_sheet').told).toContain(
      'Bone bank, Handling sheet, 2024',
    );
    expect(offeredAt(atTop('use $0'), 'std/anaesthesia').told).toContain('Not covered:');
  });
});

test('brought in: a file of the library says in a sentence what it holds', () => {
  expect(namesAt(atTop('use $0'))).toContain('std/oral');
});
