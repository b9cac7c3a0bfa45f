/** Waits after which no day is open for the next visit. */
import { describe, test } from 'vitest';
import { check, checkMend, checkNoMend } from '../../support/fixture.ts';

/** Closed on weekdays, and a protocol with a visit between each two of the waits. */
const booked = (closed: readonly string[], ...waits: readonly string[]) => `
// quiet: missing_head
//- curette.json
${JSON.stringify({ closed: { weekdays: closed } })}
//- a.curette
protocol p "P" {
  visit v0 "Visit 0" {
    note "Seen"
  }
${waits.map((wait, i) => `${wait}\n  visit v${i + 1} "Visit ${i + 1}" {\n    note "Seen"\n  }`).join('\n')}
}
`;
const weekend = ['saturday', 'sunday'];
const onlyMonday = ['tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];

describe('some weekdays of the earlier visit', () => {
  test('are named', () => {
    check(
      booked(
        weekend,
        '  wait 2 d\n  //   ^^^ no_open_day (warning): If "Visit 0" is on a Thursday or Friday, no day is open',
      ),
    );
  });

  test('10 d lead from Wednesday and Thursday into the weekend', () => {
    check(booked(weekend, '  wait 10 d\n  //   ^^^^ no_open_day: on a Wednesday or Thursday'));
  });

  test('hours count as the days that they can lead to', () => {
    check(booked(weekend, '  wait 47..48 h\n  //   ^^^^^^^^ no_open_day: on a Friday'));
  });

  test('a month may lead to any weekday, by its length', () => {
    check(
      booked(weekend, '  wait 1 mo\n  //   ^^^^ no_open_day: on a Wednesday, Thursday or Friday, it hangs on the date'),
    );
  });

  test('waits one after another count together', () => {
    check(booked(weekend, '  wait 1 d\n  wait 1 d\n  //   ^^^ no_open_day: on a Thursday or Friday'));
    check(booked(weekend, '  wait 1 wk\n  wait 1..3 d'));
  });
});

test('every weekday of the earlier visit is an error', () => {
  check(booked(onlyMonday, '  wait 2 d\n  //   ^^^ no_open_day (error): visits are on Mondays only'));
  check(booked(onlyMonday, '  wait 8..13 d\n  //   ^^^^^^^ no_open_day (error)'));
});

describe('holds', () => {
  test.each(['2..4 d', '7 d', '2 wk', '7..10 d', '4..5 mo', 'at least 2 d', 'at most 3 d', '1..4 wk'])(
    '%s, closed on Saturdays and Sundays',
    (wait) => {
      check(booked(weekend, `  wait ${wait}`));
    },
  );

  test('without closed days any wait does', () => {
    check(booked([], '  wait 2 d', '  wait 1 mo'));
  });

  test('closed dates are no weekdays: they are told when a date is asked about', () => {
    check(`
// quiet: missing_head
//- curette.json
{ "closed": { "dates": ["2027-01-01/2027-12-31"] } }
//- a.curette
protocol p "P" {
  visit v0 "Visit 0" { note "Seen" }
  wait 2 d
  visit v1 "Visit 1" { note "Seen" }
}
`);
  });

  test('a wait that cannot be read, or that stands before the first or after the last visit, is not judged', () => {
    check(`
// quiet: missing_head, wrong_measure, unknown_unit
//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"] } }
//- a.curette
protocol p "P" {
  wait 2 d
  visit v0 "Visit 0" { note "Seen" }
  wait 2 mm
  visit v1 "Visit 1" { note "Seen" }
  wait 2 days_or_so
  visit v2 "Visit 2" { note "Seen" }
  wait 2 d
}
`);
  });
});

describe('a visit is on an open day itself', () => {
  test('a wait is judged from the weekdays that those before lead to', () => {
    // From a Monday: Wednesday, then Friday, then Sunday.
    const settings = ['tuesday', 'thursday', 'saturday', 'sunday'];
    check(
      booked(
        settings,
        '  wait 2 d\n  //   ^^^ no_open_day (warning): "Visit 0" is on a Friday',
        '  wait 2 d\n  //   ^^^ no_open_day (warning): "Visit 1" is on a Friday',
        '  wait 2 d\n  //   ^^^ no_open_day (error): whatever day "Visit 2" is on'.replace('whatever', 'Whatever'),
      ),
    );
  });

  test('after a wait that leads nowhere the next is judged by itself', () => {
    check(booked(onlyMonday, '  wait 2 d\n  //   ^^^ no_open_day (error)', '  wait 1 wk'));
  });

  test('after one that nothing is written for, too', () => {
    check(booked(weekend, '', '  wait 2 d\n  //   ^^^ no_open_day: on a Thursday or Friday'));
  });
});

describe('mends', () => {
  const mended = (closed: readonly string[], wait: string, title: string, wider: string) =>
    checkMend(booked(closed, `  wait ${wait}`), title, booked(closed, `  wait ${wider}`));

  test('the wait ends late enough for an open day always to fall into it', () => {
    mended(weekend, '2 d', 'Widen the wait to 2..4 d', '2..4 d');
    mended(weekend, '10 d', 'Widen the wait to 10..12 d', '10..12 d');
    mended(onlyMonday, '8..10 d', 'Widen the wait to 8..14 d', '8..14 d');
  });

  test('or begins early enough', () => {
    mended(weekend, '10 d', 'Widen the wait to 8..10 d', '8..10 d');
    mended(onlyMonday, '8..10 d', 'Widen the wait to 7..10 d', '7..10 d');
  });

  test('in months by a month, in weeks by a week, in hours to whole days', () => {
    mended(weekend, '1 mo', 'Widen the wait to 1..2 mo', '1..2 mo');
    mended(weekend, '47..48 h', 'Widen the wait to 47..72 h', '47..72 h');
  });

  test('of several waits the last is widened', () => {
    checkMend(
      booked(weekend, '  wait 1 d\n  wait 1 d'),
      'Widen the wait to 1..3 d',
      booked(weekend, '  wait 1 d\n  wait 1..3 d'),
    );
  });

  test('none is offered that a limit does not allow', () => {
    checkNoMend(`
// quiet: missing_head
//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"] } }
//- a.curette
kind pack "pack" is material {
  states out -> in_place -> removed
}
action place (pack p) {
  makes p in_place
  takes 1 min
}
action remove (pack p) {
  needs p in_place for 2..3 d because "It sticks" source common_practice
  makes p removed
  takes 1 min
}
protocol p "P" {
  materials { gauze : pack }
  visit v0 "Visit 0" {
    place gauze
  }
  wait 2..3 d
  visit v1 "Visit 1" {
    remove gauze
  }
}
`);
  });
});
