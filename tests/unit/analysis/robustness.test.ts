/** A pass that fails is one problem of ours; everything else still answers. */
import { createAnalysis, problemPage, rulePage, type Snapshot } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { check, factsOf, problemsOf, readFixture, workspaceOf } from '../../support/fixture.ts';

test('a step that makes the checker fail costs its protocol and nothing else', () => {
  check(`
// quiet: missing_head
kind sheet "sheet" is materiel
//                    ^^^^^^^^ unknown_kind
action rinse (place p)

protocol one "One" {
// <^^^^^^^^^^^^^^ internal_failure: made to fail
  given { mouth : place }
  visit v "V" {
    rinse lips
    rinse mouth //! fails
  }
}

protocol two "Two" {
  given { mouth : place }
  visit v "V" {
    rinse lips
    //    ^^^^ unknown_name
  }
}
`);
});

test('a file that makes the checker fail costs no other file anything', () => {
  check(`
// quiet: missing_head
//- a.curette
action rinse (place p)

protocol one "One" {
// <^^^^^^^^^^^^^^ internal_failure
  given { mouth : place }
  visit v "V" {
    rinse mouth //! fails
  }
}

//- b.curette
use a

protocol two "Two" {
  given { mouth : place }
  visit v "V" {
    rinse mouth
    rinse lips
    //    ^^^^ unknown_name
  }
}
`);
});

test('what failed once is checked again when it is asked for anew', () => {
  const fixture = readFixture(`
protocol one "One" {
  version 1.0.0
  status  draft
  owner   "Unit"
  given { mouth : place }
  visit v "V" {
    note "Look"
  }
}
`);
  const sound = workspaceOf(fixture).snapshot();
  let broken = true;
  const snapshot = (): Snapshot => ({
    ...sound,
    file: (id) => {
      const file = sound.file(id);
      if (!file || !broken || id !== 'main.curette') return file && { ...file };
      const items = file.tree.body.items.map((item) =>
        Object.defineProperty({ ...item }, 'name', {
          get: () => {
            throw new Error('made to fail');
          },
        }),
      );
      return { ...file, tree: { ...file.tree, body: { ...file.tree.body, items } } };
    },
  });
  const analysis = createAnalysis();
  const codes = () => analysis.facts(snapshot(), 'main.curette')?.problems.map((problem) => problem.code);
  expect(codes()).toContain('internal_failure');
  broken = false;
  expect(codes()).toEqual([]);
});

test('the same file is not checked twice', () => {
  const fixture = readFixture('kind sheet "sheet" is material\n');
  const facts = factsOf(fixture);
  expect(facts('main.curette')).toBe(facts('main.curette'));
  expect(problemsOf(fixture)).toEqual([]);
});

describe('pages', () => {
  const { modules } = workspaceOf(
    readFixture(`
/// Said by everybody who has looked for one at night.
rule count_swabs "Swabs are counted" {
  count    tally (material m) at least once in a visit
  severity error
  why      "What is not counted is not missed"
  source   handbook
}
source handbook "Handbook of counting" {
  by   "A committee"
  year 2001
}
action tally (material m)
`),
  );
  const module = modules().module('main.curette');

  test('a rule has a page with its sentence, its reason and its source', () => {
    const page = module && rulePage(module, 'count_swabs');
    expect(page).toContain('# Swabs are counted');
    expect(page).toContain('rule · error');
    expect(page).toContain('Said by everybody who has looked for one at night.');
    expect(page).toContain('**Why:** What is not counted is not missed.');
    expect(page).toContain('**Source:** A committee, Handbook of counting, 2001.');
  });

  test('a rule of a file in use has one as well, one that is not there has none', () => {
    const using = workspaceOf(readFixture('use std/perioperative\n')).modules().module('main.curette');
    expect(using && rulePage(using, 'throat_pack_in_throat')).toContain('rule · error');
    expect(module && rulePage(module, 'throat_pack_in_throat')).toBeUndefined();
  });

  test('a page shows neither what only tests read nor an example that is empty', () => {
    const page = problemPage('clock_broken') ?? '';
    expect(page).not.toContain('// quiet');
    expect(page.match(/```curette\n\S/g)).toHaveLength(2);
  });
});
