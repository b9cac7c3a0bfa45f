/** What is offered when the order of work gives a state too little or too much time: only what, tried out, helps. */
import { expect, test } from 'vitest';
import { checkMend, mendsFor, problemsOf, readFixture } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, not_judged
kind graft "graft" is material {
  soak   : time range
  states dry -> wetted -> packed
}
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) {
  needs g wetted for g.soak because "Too soon it floats out, too late it crumbles" source common_practice
  makes g packed
  takes 5 min
}
action numb (place p) { takes 4..6 min }
action extract (place p) { takes 5..40 min }
action rinse (place p) { takes 1 min }
`;

const visit = (soak: string, ...lines: string[]) => `${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak ${soak} } }
  visit v "V" {
${lines.map((line) => `    ${line}\n`).join('')}  }
}
`;

/** Titles offered for the one problem. */
const offered = (fixture: string) => {
  const read = readFixture(fixture);
  return problemsOf(read)
    .filter(({ problem }) => problem.code === 'clock_broken')
    .map((shown) => mendsFor(read, shown).map(({ title }) => title));
};

test('too soon: the step that begins it goes before as much work as it takes, and no more', () => {
  const before = visit('8..60 min', 'rinse site', 'numb site', 'wet g', 'extract site', 'pack g');
  checkMend(
    before,
    'Move "wet g" before "numb site"',
    visit('8..60 min', 'rinse site', 'wet g', 'numb site', 'extract site', 'pack g'),
  );
});

test('too late: the step that begins it goes after as much work as it takes', () => {
  const before = visit('1..10 min', 'wet g', 'extract site', 'numb site', 'pack g');
  checkMend(
    before,
    'Move "wet g" after "extract site"',
    visit('1..10 min', 'extract site', 'wet g', 'numb site', 'pack g'),
  );
});

test('too late: a step is held to the time that is left', () => {
  const before = visit('5..30 min', 'wet g', 'extract site', 'pack g');
  checkMend(
    before,
    'Hold "extract site" to at most 30 min',
    visit('5..30 min', 'wet g', 'extract site takes 5..30 min', 'pack g'),
  );
});

test('too soon: a step is held to the time that is needed, where it says its own', () => {
  const before = visit('8..60 min', 'wet g', 'extract site takes 5..20 min because "Gently"', 'pack g');
  checkMend(
    before,
    'Hold "extract site" to at least 8 min',
    visit('8..60 min', 'wet g', 'extract site takes 8..20 min because "Gently"', 'pack g'),
  );
});

test('what breaks the other end of the limit is not offered', () => {
  // Before the extraction it may soak too long, after it not long enough: only holding the extraction helps with the first.
  expect(offered(visit('10..20 min', 'wet g', 'extract site', 'pack g'))).toEqual([[], []]);
  expect(offered(visit('10..40 min', 'wet g', 'extract site', 'pack g'))).toEqual([
    ['Wait until g is wetted for 10 min', 'Hold "extract site" to at least 10 min'],
  ]);
});

test('what would put the step that begins it before what it needs is not offered', () => {
  const thawed = KIT.replace('states dry ->', 'states frozen -> dry ->').replace(
    'makes g wetted',
    'needs g dry because "Ice" source common_practice\n  makes g wetted',
  );
  const fixture = `${thawed}
action thaw (graft g) {
  makes g dry
  takes 3..4 min
}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 5..60 min } }
  visit v "V" {
    numb site
    thaw g
    wet g
    rinse site
    pack g
  }
}
`;
  expect(offered(fixture)).toEqual([['Wait until g is wetted for 5 min']]);
});

test('the wait between two visits is narrowed to what the limit leaves of it', () => {
  const course = (wait: string) => `${KIT}
protocol p "P" {
  given { site : place }
  materials { g : graft { soak 7..14 d } }
  visit one "One" {
    wet g
  }
  wait ${wait}
  visit two "Two" {
    pack g
  }
}
`;
  checkMend(course('10..21 d'), 'Wait 10..14 d between the visits', course('10..14 d'));
  checkMend(course('3..12 d'), 'Wait 7..12 d between the visits', course('7..12 d'));
  checkMend(course('3 wk'), 'Wait 1..2 wk between the visits', course('1..2 wk'));
  // What is counted in months is not told in days.
  expect(offered(course('1 mo'))).toEqual([[]]);
});
