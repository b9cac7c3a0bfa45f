import { createWorkspace, previewOf } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { TODAY } from '../../support/fixture.ts';

const text = `kind peg is instrument
kind glue is material
finding gap "Gap" { wide "Wide", narrow "Narrow" }
action press (glue g) (volume v) with (peg p) {
  uses up g v
  takes 1..2 min
}
protocol first "First plan" {
  materials { paste : glue 4 mL, filler : glue 1 mL }
  instruments { long_peg : peg, short_peg : peg }
  visit one "One" {
    press paste 1 mL with long_peg
    decide gap {
      option wide { press filler 1 mL with short_peg }
      option narrow { }
    }
  }
}
protocol second "Second plan" {
}
case tall "Tall" of first {
  gap wide
}
`;

function shown(asked: Omit<Parameters<typeof previewOf>[1], 'view'> & { readonly view?: 'tray' | 'problems' }) {
  const workspace = createWorkspace(
    (id) => (id === 'main.curette' ? { type: 'bytes', bytes: new TextEncoder().encode(text) } : { type: 'absent' }),
    () => TODAY,
  );
  const facts = workspace.facts('main.curette');
  if (!facts) throw new Error('the file was not read');
  return previewOf(facts, { view: 'checklist', ...asked }, workspace.facts);
}

describe('what is shown of a file', () => {
  test('is what the cursor is in, whatever was chosen', () => {
    expect(shown({ line: 19, protocol: 'first' })).toMatchObject({ protocol: 'second', case: null });
    expect(shown({ line: 21 })).toMatchObject({ protocol: 'first', case: 'tall', title: 'First plan' });
  });

  test('is what was chosen where the cursor is in nothing of the sort; a case brings its protocol', () => {
    expect(shown({ line: 1, protocol: 'second' })).toMatchObject({ protocol: 'second', case: null });
    expect(shown({ protocol: 'second', case: 'tall' })).toMatchObject({ protocol: 'first', case: 'tall' });
  });

  test('is the first protocol where nothing was chosen, or nothing of that name is left', () => {
    expect(shown({})).toMatchObject({ protocol: 'first', case: null });
    expect(shown({ protocol: 'gone', case: 'gone' })).toMatchObject({ protocol: 'first', case: null });
  });

  test('comes with everything that could be chosen instead, and its lines', () => {
    const { protocols, cases } = shown({});
    expect(protocols).toEqual([
      { name: 'first', title: 'First plan', from: 8, to: 18 },
      { name: 'second', title: 'Second plan', from: 19, to: 20 },
    ]);
    expect(cases).toEqual([{ name: 'tall', title: 'Tall', from: 21, to: 23 }]);
  });

  test('has the line of the text at its parts', () => {
    expect(shown({}).html).toMatch(/<li class="whole" data-line="12">.*Press paste/s);
    expect(shown({ view: 'problems' }).html).toMatch(/data-line="\d+" data-file="main.curette"/);
  });
});

describe('the tray', () => {
  test('has what a visit needs, what it uses of it, and in which circumstances', () => {
    const { html } = shown({ view: 'tray' });
    expect(html).toMatch(/data-line="9">.*Paste.*1 mL <span class="why">of 4 mL/s);
    expect(html).toMatch(/data-line="10">.*Short peg.*only if gap is wide/s);
    expect(html.indexOf('Long peg')).toBeLessThan(html.indexOf('Short peg'));
  });

  test('of a case has what remains of the options', () => {
    const { html } = shown({ view: 'tray', case: 'tall' });
    expect(html).toContain('Short peg');
    expect(html).not.toContain('only if');
  });
});
