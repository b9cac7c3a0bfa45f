import { describe, expect, test } from 'vitest';
import { mendedAll, offersIn } from '../../support/structure.ts';
import { inVisit } from './house.ts';

const visitOf = (text: string) =>
  (/ {2}visit first "First visit" \{\n([\s\S]*?)\n {2}\}\n\}/.exec(text)?.[1] ?? '').replace(/^ {4}/gm, '');

describe('all problems of a kind', () => {
  test('are mended at once, each as its own first mend does it', () => {
    const text = inVisit('cleen gap\ncleann gap\nfil gap with graft');
    expect(offersIn(text, 'unknown_action', 'wrong_kind')).toEqual(['Unknown action']);
    expect(visitOf(mendedAll(text, 'unknown_action'))).toBe('clean gap\nclean gap\nfill gap with graft');
  });

  test('problems of other kinds stay as they are', () => {
    const text = inVisit('cleen gap takes 1 mn\ncleen gap takes 1 mn');
    expect(visitOf(mendedAll(text, 'unknown_action'))).toBe('clean gap takes 1 mn\nclean gap takes 1 mn');
  });

  test('one mend that several problems offer is made once', () => {
    const text = `
use std/core
kind k is membrane
kind l is membrane
`;
    expect(offersIn(text, 'unknown_kind')).toEqual([]);
    expect(mendedAll(text, 'unknown_kind').match(/^use std\/grafting$/gm)).toHaveLength(1);
  });

  test('of mends that would change the same words the first is made', () => {
    const text = (tray: string) => `kind hook is instrument
kind rod is instrument
kind wedge is instrument
kind cut is place
action hold (cut c) with (instrument i) { takes 1 min }
protocol p "P" {
  given { patient : patient, gap : cut }
  team { surgeon }
  instruments { ${tray} }
  visit one "One" {
    hold gap with hook
    hold gap with rod
    hold gap with wedge
  }
}
`;
    expect(offersIn(text('wedge'), 'not_listed')).toEqual(['Not on the tray']);
    expect(mendedAll(text('wedge'), 'not_listed')).toBe(text('wedge, hook'));
  });

  test('lines that are missing are added wherever they are', () => {
    const text = inVisit(`clean gap
decide wall {
  option intact { fill gap with graft }
  option lost {
    fill gap with graft
  }
}`);
    expect(offersIn(text, 'wrong_state')).toEqual(['Not ready for this step']);
    expect(visitOf(mendedAll(text, 'wrong_state'))).toBe(`clean gap
decide wall {
  option intact {
    wet graft with saline
    fill gap with graft
  }
  option lost {
    wet graft with saline
    fill gap with graft
  }
}`);
  });

  test('one problem alone has no such offer', () => {
    expect(offersIn(inVisit('cleen gap'), 'unknown_action')).toEqual([]);
  });

  test('only the kinds asked about are offered', () => {
    expect(offersIn(inVisit('cleen gap\ncleen gap'), 'unknown_unit')).toEqual([]);
  });
});

describe('what is spelling and nothing else', () => {
  const excluding = (condition: string) => `// quiet: missing_head
protocol p "P" {
  given { patient : patient }
  exclude when ${condition}
  visit one "One" {
    note "x"
  }
}
`;
  const bare = (text: string) => text.replace(/^\/\/ quiet: .*\n/, '');

  test('is written as it is read', () => {
    expect(mendedAll(excluding('patient has diabetes && patient has pregnancy || patient has epilepsy'))).toBe(
      bare(excluding('patient has diabetes and patient has pregnancy or patient has epilepsy')),
    );
  });

  test('without growing together with the words beside it', () => {
    expect(mendedAll(excluding('patient has diabetes&&patient has pregnancy'))).toBe(
      bare(excluding('patient has diabetes and patient has pregnancy')),
    );
  });

  test('a name or a unit that is near another is no spelling: it might be the wrong one', () => {
    const text = inVisit('cleen gap takes 1 mn');
    expect(visitOf(mendedAll(text))).toBe('cleen gap takes 1 mn');
  });
});
