/** A state that has to last for a certain time, over visits: whether the waits put a visit inside that window. */
import { describe, test } from 'vitest';
import { check } from '../../support/fixture.ts';

/** What `remove` needs, and the lines from the first visit on; the last visit takes the stitches out. */
const stitched = (needs: string, between: string, marks = '', states = '') => `
// quiet: missing_head
kind stitch "stitches" is material {
  states out -> in_place -> removed
${states}
}
action place (stitch s) {
  makes s in_place
  takes 1 min
}
action remove (stitch s) {
  needs s in_place${needs}
  makes s removed
  takes 1 min
}
protocol p "P" {
  materials { thread : stitch }
  visit surgery "Surgery" {
    place thread
    note "Closed"
  }
${between}
  visit stitches "Stitches out" {
    remove thread
${marks}
  }
}
`;
const broken = (severity: string, words = '') =>
  `    //     ^^^^^^ clock_broken (${severity})${words === '' ? '' : `: ${words}`}`;
const fortnight = ' for 7..14 d because "Earlier it opens, later they grow in" source common_practice';
const months = ' for at least 4 mo because "Bone takes its time" source common_practice';
const look = '  visit look "Look" {\n    note "Dry"\n  }\n';

describe('a window of days', () => {
  test('holds for a wait that is inside it, to its very ends', () => {
    check(stitched(fortnight, '  wait 7..10 d'));
    check(stitched(fortnight, '  wait 7..14 d'));
    check(stitched(fortnight, '  wait 1..2 wk'));
    check(stitched(fortnight, `  wait 3..4 d\n${look}  wait 4..10 d`));
  });

  test('no visit falls into it: always too soon, always too late', () => {
    check(stitched(fortnight, '  wait 3..5 d', broken('error', 'at most 5 days')));
    check(stitched(fortnight, `  wait 3..4 d\n${look}  wait 3..4 wk`, broken('error', 'at least 24 days')));
  });

  test('at an end of the booking the visit falls outside', () => {
    check(stitched(fortnight, '  wait 5..10 d', broken('warning')));
    check(stitched(fortnight, '  wait 10..21 d', broken('warning')));
    check(stitched(fortnight, `  wait 3..4 d\n${look}  wait 3..10 d`, broken('warning')));
  });

  test('so it is for a state that lasts at most so long', () => {
    const lasts = '  in_place lasts at most 14 d, then ingrown source common_practice';
    check(stitched('', '  wait 10..14 d', '', lasts));
    check(stitched('', '  wait 15..21 d', broken('error', 'then it is ingrown'), lasts));
    check(stitched('', '  wait 10..21 d', broken('warning', 'then it is ingrown'), lasts));
  });
});

describe('a window of months', () => {
  test('months against months hold on every date', () => {
    check(stitched(months, '  wait 4..5 mo'));
    check(stitched(months, `  wait 1 mo\n${look}  wait 4 mo`));
  });

  test('two times two months are no four from the end of December', () => {
    check(stitched(months, `  wait 2 mo\n${look}  wait 2 mo`, broken('warning', '12-29')));
  });

  test('days against months: 123 d are always four, 120 d only over February', () => {
    check(stitched(months, '  wait 123 d'));
    check(stitched(months, '  wait 120 d', broken('warning')));
    check(stitched(months, '  wait 119 d', broken('error')));
  });
});

test('a wait without an end is never known to be short enough', () => {
  check(stitched(fortnight, '  wait at least 7 d', '    //     ^^^^^^ time_not_stated'));
});
