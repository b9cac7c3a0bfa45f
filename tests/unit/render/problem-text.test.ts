import { createWorkspace, problemText, summaryText, unpainted } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { TODAY } from '../../support/fixture.ts';

/** The problems of a text as the terminal shows them, in a width; the first words of the title pick one. */
function shown(text: string, title: string, width = 72): string {
  const workspace = createWorkspace(
    (id) => (id === 'a.curette' ? { type: 'bytes', bytes: new TextEncoder().encode(text) } : { type: 'absent' }),
    () => TODAY,
  );
  const problem = workspace.facts('a.curette')?.problems.find((one) => one.title.startsWith(title));
  if (!problem) throw new Error(`no problem ${title}`);
  return problemText(problem, workspace.snapshot().file, { width, paint: unpainted, name: (id) => id });
}

describe('a problem in the terminal', () => {
  test('title and code, place, line and marks, message, mend', () => {
    expect(`\n${shown('kind cloth "cloth" is matrial { }\n', 'Unknown kind')}\n`).toMatchInlineSnapshot(`
      "
      Unknown kind                                                unknown_kind
      error in a.curette:1:23
         1 │ kind cloth "cloth" is matrial { }
           │                       ^^^^^^^ not known
      No kind of thing is called "matrial" here. Was "material" meant?
      Mend: Change to "material"
      "
    `);
  });

  test('the reason, the source, and what else has to do with it', () => {
    const text = `
kind paste "paste" is material {
  states dry -> stirred -> spread
}
paste grey "Grey paste"
action stir "Stir" (paste p) {
  makes p stirred
  takes 1 min
}
action spread "Spread" (paste p) {
  needs p stirred because "Dry it does not hold" source common_practice
  makes p spread
  takes 1 min
}
protocol a "A" {
  version 1.0.0
  status  draft
  owner   "Workshop"
  materials { one : grey }
  visit v "V" {
    spread one
  }
}
`;
    expect(`\n${shown(text, 'Not ready')}\n`).toMatchInlineSnapshot(`
      "
      Not ready for this step                                      wrong_state
      error in a.curette:21:12
        21 │     spread one
           │            ^^^ dry, not stirred
      Before "spread one", "one" has to be stirred. "one" is still dry.
      Why: Dry it does not hold
      Source: common practice, no published source
      Mend: Add the missing step: stir one
      "
    `);
  });

  test('tabs and wide letters: the marks stand under the words as a terminal shows them', () => {
    const lines = shown('kind 布 "布" is material { }\nkind b\t"布布" is\tmatrial { }\n', 'Unknown kind').split('\n');
    expect(lines.slice(2, 4)).toEqual([
      '   2 │ kind b  "布布" is   matrial { }',
      '     │                     ^^^^^^^ not known',
    ]);
  });

  test('control characters are shown and not obeyed', () => {
    const text = shown('kind a "\u001b[31m\u202Egnp.exe" is matrial { }\n', 'Unknown kind');
    expect(text).toContain('"␛[31m\ufffdgnp.exe"');
    for (const control of ['\u001b', '\u202E']) expect(text).not.toContain(control);
  });

  test('a line longer than the terminal is shown around the words', () => {
    const label = 'x'.repeat(3000);
    const lines = shown(
      `kind a "${label}" is matrial { states ${'on -> off, '.repeat(300)}on -> off }\n`,
      'Unknown kind',
    ).split('\n');
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(72);
    expect(lines[2]).toMatch(/^ {3}1 │ …x+" is matrial \{ states .*…$/);
    const column = lines[2]?.indexOf('matrial') ?? -1;
    expect(lines[3]?.slice(column, column + 9)).toBe('^^^^^^^ n');
  });

  test('a file of one line of megabytes gives as little to read as any other', () => {
    const text = shown(`kind a "${'x'.repeat(3_000_000)}" is matrial { }\n`, 'Unknown kind');
    expect(text.length).toBeLessThan(1000);
  });

  test('words over several lines are marked to the end of the first', () => {
    const text = shown('protocol a "A" {\n  version 1.0.0\n', 'Block not closed');
    expect(text.split('\n').filter((line) => line.includes('^'))).toHaveLength(1);
  });

  test('every line fits, whatever the width', () => {
    for (const width of [40, 55, 80])
      for (const line of shown(
        'kind cloth_of_a_long_name "cloth" is matrial_of_another_name { }\n',
        'Unknown kind',
        width,
      ).split('\n'))
        expect(line.length).toBeLessThanOrEqual(width);
  });

  test('what is painted reads the same without the paint', () => {
    const text = 'kind cloth "cloth" is matrial { }\n';
    const workspace = createWorkspace(
      () => ({ type: 'bytes', bytes: new TextEncoder().encode(text) }),
      () => TODAY,
    );
    const [problem] = workspace.facts('a.curette')?.problems ?? [];
    if (!problem) throw new Error('no problem');
    const inks = new Set<string>();
    const painted = problemText(problem, workspace.snapshot().file, {
      width: 72,
      paint: (ink, words) => {
        inks.add(ink);
        return `‹${words}›`;
      },
      name: (id) => id,
    });
    expect(painted.replaceAll(/[‹›]/g, '')).toBe(shown(text, 'Unknown kind'));
    expect([...inks].sort()).toEqual(['error', 'quiet', 'title']);
  });
});

test('the closing line counts by severity', () => {
  const problems = (text: string) => {
    const workspace = createWorkspace(
      () => ({ type: 'bytes', bytes: new TextEncoder().encode(text) }),
      () => TODAY,
    );
    return workspace.facts('a.curette')?.problems ?? [];
  };
  const faulty = problems('kind a "a" is matrial { }\nkind b "b" is matrial { }\n');
  expect(summaryText([], 3, unpainted)).toBe('3 files checked, no problem found.');
  expect(summaryText(faulty.slice(0, 1), 1, unpainted)).toBe('1 file checked: 1 error.');
  expect(summaryText(faulty, 4, unpainted)).toBe('4 files checked: 2 errors in 1 file.');
});
