/** Mends: each takes away the problem that it is offered for, and those that matter most are shown before and after. */
import { problemKinds } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { checkMend, checkNoMend, mendsFor, problemsOf, readFixture, type Shown, withMend } from '../support/fixture.ts';

const offered = Object.values(problemKinds).flatMap(({ code, triggers }) => {
  const fixture = readFixture(triggers);
  return problemsOf(fixture).flatMap((shown) =>
    mendsFor(fixture, shown).map((mend) => ({ code, title: mend.title, fixture, shown, mend })),
  );
});

test('a good third of the kinds of problem offer a mend', () => {
  expect(new Set(offered.map(({ code }) => code)).size).toBeGreaterThan(Object.keys(problemKinds).length / 3);
});

test.each(offered)('$code: "$title" takes the problem away', ({ fixture, shown, mend }) => {
  const alike = (other: Shown) => other.problem.code === shown.problem.code;
  const before = problemsOf(fixture);
  const after = problemsOf(withMend(fixture, mend));
  expect(after.filter(alike).length).toBeLessThan(before.filter(alike).length);
  const broken = ['unreadable_line', 'unclosed_block', 'unclosed_text', 'stray_close', 'internal_failure'];
  const told = (list: readonly Shown[]) => list.filter(({ problem }) => broken.includes(problem.code)).length;
  expect(told(after)).toBeLessThanOrEqual(told(before));
});

describe('before and after', () => {
  const KIT = `
// quiet: missing_head
finding bleeding "Bleeding" { stopped, brisk }
kind pack "pack" is material {
  states   counted -> in_place -> removed
  must end counted or removed by end of visit source common_practice
}
kind graft "graft" is material { states dry -> wetted -> packed }
kind bed "bed" is place
action place (pack p) in (bed b) { makes p in_place }
action remove (pack p) from (bed b) { makes p removed }
action wet (graft g) {
  makes g wetted
  takes 1 min
}
action pack (graft g) into (bed b) {
  needs g wetted for 10 min because "Too soon it floats out" source common_practice
  makes g packed
}
`;
  const mends = (before: string, title: string, after: string) => checkMend(KIT + before, title, KIT + after);

  test('the step that is missing before this one', () => {
    mends(
      `protocol p "P" {
  given { socket : bed }
  materials { g : graft }
  visit v "V" {
    pack g into socket
  }
}
`,
      'Add the missing step: wet g',
      `protocol p "P" {
  given { socket : bed }
  materials { g : graft }
  visit v "V" {
    wet g
    pack g into socket
  }
}
`,
    );
  });

  test('the wait that gives a state its time', () => {
    mends(
      `protocol p "P" {
  given { socket : bed }
  materials { g : graft }
  visit v "V" {
    wet g
    pack g into socket
  }
}
`,
      'Wait until g is wetted for 10 min',
      `protocol p "P" {
  given { socket : bed }
  materials { g : graft }
  visit v "V" {
    wet g
    wait until g is wetted for 10 min
    pack g into socket
  }
}
`,
    );
  });

  test('what must come out comes out on the path where it stays in, from where it went in', () => {
    mends(
      `protocol p "P" {
  given { throat : bed, other : bed }
  materials { a : pack }
  visit v "V" {
    place a in throat
    decide bleeding "Look" {
      option stopped { remove a from throat }
      option brisk { note "Press" }
    }
    note "Look at other"
  }
}
`,
      'Add the missing step: remove a from throat',
      `protocol p "P" {
  given { throat : bed, other : bed }
  materials { a : pack }
  visit v "V" {
    place a in throat
    decide bleeding "Look" {
      option stopped { remove a from throat }
      option brisk {
        note "Press"
        remove a from throat
      }
    }
    note "Look at other"
  }
}
`,
    );
  });

  test('the option that is missing', () => {
    mends(
      `protocol p "P" {
  visit v "V" {
    decide bleeding "Look" {
      option stopped { }
    }
  }
}
`,
      'Add the missing option',
      `protocol p "P" {
  visit v "V" {
    decide bleeding "Look" {
      option stopped { }
      option brisk { }
    }
  }
}
`,
    );
  });

  test('the file that declares a name', () => {
    checkMend(
      `use std/wound

counted_item packing "Packing" is gauze
`,
      'Add "use std/perioperative"',
      `use std/wound
use std/perioperative

counted_item packing "Packing" is gauze
`,
    );
  });

  test('the unit that was meant', () => {
    checkMend(
      `
kind dose "dose" is material { strength : mass within 1 mg..10 g source common_practice }
dose tablet "Tablet" { strength 400 Mg }
`,
      'Change to "mg"',
      `
kind dose "dose" is material { strength : mass within 1 mg..10 g source common_practice }
dose tablet "Tablet" { strength 400 mg }
`,
    );
  });

  test('nothing is offered where a measure would have to be invented', () => {
    checkNoMend(`
// quiet: missing_head
kind sheet "sheet" is material { states whole -> cut -> laid }
action cut (sheet s) to (size z) { makes s cut }
action lay (sheet s) {
  needs s cut
  makes s laid
}
protocol p "P" {
  materials { a : sheet }
  visit v "V" {
    lay a
  }
}
`);
  });

  test('nothing is offered for a wrong number, whose neighbours are other teeth', () => {
    checkNoMend(`
kind tooth "tooth" is place { number : one of 11..18, 21..28 }
tooth wrong "Wrong" { number 19 }
`);
  });
});
