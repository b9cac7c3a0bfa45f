import { describe, expect, test } from 'vitest';
import { mendsAt } from '../../support/editor.ts';
import { checkMend } from '../../support/fixture.ts';
import { inVisit } from './house.ts';

/** Mends are told apart by the line they stand on, whatever else is wrong there. */
function mended(lines: string, title: string, after: string): void {
  checkMend(inVisit(lines), title, inVisit(after).replace(/\/\/- house[\s\S]*$/, ''));
}

describe('a mend is made as a person would write it', () => {
  test('a step that is missing before this one, on a line of its own', () => {
    mended(
      'clean gap\nfill gap with gra$0ft',
      'Add the missing step: wet graft with saline',
      'clean gap\nwet graft with saline\nfill gap with graft',
    );
  });

  test('in a block on one line, which is opened up', () => {
    mended(
      'clean gap\ndecide wall {\n  option intact { fill gap with gra$0ft }\n  otherwise { }\n}',
      'Add the missing step: wet graft with saline',
      'clean gap\ndecide wall {\n  option intact {\n    wet graft with saline\n    fill gap with graft\n  }\n  otherwise { }\n}',
    );
  });
});

test('the first mend of a problem is the preferred one', () => {
  const [first, ...rest] = mendsAt(inVisit('fi$0l gap with graft'));
  expect(first).toBe('Change to "fill" *');
  expect(rest.every((title) => !title.endsWith('*'))).toBe(true);
});

test('only the problems of the selection are mended', () => {
  expect(mendsAt(inVisit('fil gap with graft\ncl$0ean gap'))).toEqual([]);
  expect(mendsAt(inVisit('$0fil gap with graft\ncleen gap$0')).map((title) => title.replace(' *', ''))).toEqual(
    expect.arrayContaining(['Change to "fill"', 'Change to "clean"']),
  );
});

test('where all is well nothing is offered', () => {
  expect(mendsAt(inVisit('cl$0ean gap'))).toEqual([]);
});
