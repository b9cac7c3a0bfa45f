import { createWorkspace, inlayHints, type Workspace } from '@curette/server';
import { expect, test } from 'vitest';
import { hintAt, hintsIn } from '../../support/editor.ts';
import { readFixture, TODAY } from '../../support/fixture.ts';
import { inVisit } from './house.ts';

test('each step says when it can begin, counted from the beginning of the visit', () => {
  const lines = `
pause check_in
wet graft with saline
clean gap takes 10..35 min
note "Look at it once more"
fill gap with graft takes 10 min
pause check_in`;
  expect(hintsIn(inVisit(lines))).toBe(
    [
      'wet graft with saline [begins 1–2 min in]',
      'clean gap takes 10..35 min [begins 2–4 min in]',
      'fill gap with graft takes 10 min [begins 12–39 min in]',
      'pause check_in [begins 22–49 min in]',
    ].join('\n'),
  );
});

test('what is of one length is one number; what is cut off is cut off outward', () => {
  const lines = `
clean gap takes 90 s
clean gap takes 40 s..50 s
clean gap takes 9.5..30.25 min
clean gap takes 2.5 h
clean gap`;
  expect(hintsIn(inVisit(lines))).toBe(
    [
      'clean gap takes 40 s..50 s [begins 90 s in]',
      'clean gap takes 9.5..30.25 min [begins 2.1–2.4 min in]',
      'clean gap takes 2.5 h [begins 11–33 min in]',
      'clean gap [begins 2 h 41 min to 3 h 3 min in]',
    ].join('\n'),
  );
});

test('behind a step whose length nothing states, only the beginning is known', () => {
  const lines = `
repeat until "Clean" {
  clean gap takes 2 min
}
clean gap takes 5 min
clean gap`;
  expect(hintsIn(inVisit(lines))).toBe(
    ['clean gap takes 5 min [begins from 2 min in]', 'clean gap [begins from 7 min in]'].join('\n'),
  );
});

test('options and lanes begin with what they stand in; the hint stands behind the brace', () => {
  const lines = `
clean gap takes 5..10 min
decide wall "Look at the wall" takes 1 min { // from above
  option intact { clean gap takes 4 min }
  option lost {
    clean gap takes 4 min
    clean gap takes 3 min
  }
}
together {
  lane left { wet graft with saline }
  lane right {
    clean gap takes 3 min
    verify "Clean" otherwise "Again"
  }
}
repeat at most 3 times {
  clean gap takes 1 min
}`;
  expect(hintsIn(inVisit(lines))).toMatchInlineSnapshot(`
    "decide wall "Look at the wall" takes 1 min { [begins 5–10 min in] // from above
      option intact { clean gap takes 4 min [begins 6–11 min in] }
        clean gap takes 4 min [begins 6–11 min in]
        clean gap takes 3 min [begins 10–15 min in]
    together { [begins 10–18 min in]
      lane left { wet graft with saline [begins 10–18 min in] }
        clean gap takes 3 min [begins 10–18 min in]
        verify "Clean" otherwise "Again" [begins 13–21 min in]
    repeat at most 3 times { [begins 13–21 min in]
      clean gap takes 1 min [begins 13–23 min in]"
  `);
});

test('a wait for a state ends when it is old enough: what comes after opens no sooner', () => {
  const lines = `
wet graft with saline
clean gap takes 2..15 min
wait until graft is wetted for 10 min
clean gap`;
  expect(hintsIn(inVisit(lines))).toBe(
    [
      'clean gap takes 2..15 min [begins 1–2 min in]',
      'wait until graft is wetted for 10 min [begins 3–17 min in]',
      'clean gap [begins 11–17 min in]',
    ].join('\n'),
  );
});

test('the line of an option has no hint of its own, whatever stands in it; nor when a limit is asked for behind it', () => {
  const lines = `
wet graft with saline
decide wall "Look at the wall" takes 1 min {
  option intact { }
  option lost {
    clean gap takes 20..30 min
    pack graft into gap
  }
}`;
  expect(hintsIn(inVisit(lines))).not.toMatch(/^ *option[^\n]*\[/m);
});

test('a complication has none: nothing says when it happens', () => {
  const lines = `
clean gap
complication "It bleeds" {
  clean gap
}
stop "Enough"`;
  expect(hintsIn(inVisit(lines))).toBe('');
});

test('only what is asked for is told', () => {
  const lines = `
clean gap
clean gap takes 2 min
$0clean gap takes 3 min
clean gap takes 4 min$0
clean gap takes 5 min`;
  expect(hintsIn(inVisit(lines))).toBe(
    ['clean gap takes 3 min [begins 3 min in]', 'clean gap takes 4 min [begins 6 min in]'].join('\n'),
  );
});

test('a line of two written lines has its hint at the end', () => {
  const lines = `
clean gap
clean gap
  takes 2 min`;
  expect(hintsIn(inVisit(lines))).toBe('  takes 2 min [begins 1 min in]');
});

test.each([
  ['a file that is no text', '//- scan.curette not text\n'],
  ['a file without a protocol', 'kind hole is place\n'],
  ['a half-typed file', 'protocol a "A" {\n  visit b "B" {\n    wait 5\n    pause'],
])('%s has none, or what can be told', (_, text) => {
  expect(hintsIn(text)).not.toMatch(/NaN|undefined|Infinity/);
});

test('who asks for more is told how long it takes and how much it may be held', () => {
  const lines = `
wet graft with saline
clean ga$0p takes 10..35 min
fill gap with graft`;
  expect(hintAt(inVisit(lines))).toBe('Takes 10–35 min.\n\nMay be held 25 min before a limit that spans it can break.');
  expect(hintAt(inVisit(lines.replace('35 min', '60 min')))).toContain('Must not be held');
  expect(hintAt(inVisit(lines.replace('35 min', '70 min')))).toContain('can break already');
});

test('in a lane: whether the work side by side waits for it', () => {
  const lines = `
clean gap
together {
  lane left { wet graft with saline }
  lane right { clean gap takes 5 min }
}`;
  expect(hintAt(inVisit(lines.replace('wet', 'we$0t')))).toBe(
    'Takes 1–2 min.\n\nMay take 3 min longer before the lane beside "left" waits for it.',
  );
  expect(hintAt(inVisit(lines.replace('clean gap takes', 'clean ga$0p takes')))).toContain('Critical in "right"');
});

test('after a keystroke in a long visit, hints are those of the text read afresh', () => {
  const line = (at: number) => `clean gap takes ${(at % 7) + 1}..${(at % 11) + 8} min`;
  const steps = Array.from({ length: 300 }, (_, at) => line(at));
  for (const special of ['clean gap takes 1 min', 'wait until graft is wetted for 10 min']) {
    const { files } = readFixture(inVisit(['wet graft with saline', ...steps, special, ...steps].join('\n')));
    const main = files.find(({ id }) => id === 'main.curette')?.text ?? '';
    const world = (main: string) => {
      const workspace = createWorkspace(
        () => ({ type: 'absent' }),
        () => TODAY,
      );
      for (const file of files) workspace.open(file.id, file.id === 'main.curette' ? main : file.text);
      return workspace;
    };
    const workspace = world(main);
    let now = main;
    for (const change of [
      { find: line(5), text: 'clean gap takes 90 min' },
      { find: special, text: '' },
      { find: line(7), text: `decide wall "Look" takes 2 min {\n option intact { ${line(3)} }\n option lost { }\n}` },
      { find: line(5), text: `${line(5)}\n    ${line(9)}` },
    ]) {
      const start = now.lastIndexOf(change.find);
      const end = start + change.find.length;
      workspace.change('main.curette', [{ start, end, text: change.text }]);
      now = now.slice(0, start) + change.text + now.slice(end);
      const told = (from: Workspace) =>
        inlayHints(from, 'main.curette', 0, now.length).map(({ at, label }) => `${at} ${label}`);
      expect(told(workspace).length).toBeGreaterThan(500);
      expect(told(workspace)).toEqual(told(world(now)));
    }
  }
});
