/** Sets of figures: bodies disagree, one set is applied, and no two are ever mixed. */
import { createWorkspace, type Workspace } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { check, checkMend, problemsOf, readFixture } from '../../support/fixture.ts';

/** A drug, two bodies that disagree about it, and a step that is judged by what they say. */
const SETS = `
//- sets.curette
source leaflet "Leaflet"
source society "Guideline"
kind drug "drug" is material {
  most  : mass within 1..900 mg from leaflets
  onset : time
}
kind numbing_drug "numbing drug" is drug
numbing_drug strong "Strong"
numbing_drug mild "Mild"
drug other "Other"
figures of_leaflet "Ceilings of the leaflet" of leaflets {
  strong { most 500 mg source leaflet }
  mild   { most 600 mg source leaflet }
}
figures of_society "Ceilings of the society" of leaflets {
  strong { most 300 mg source society }
}
action give (drug d) (mass dose) {
  needs dose <= d.most because "More is a poison" source leaflet
}
`;

/** A protocol that gives something, in a file that begins as said. */
function giving(dose: string, head = 'use sets', listed = 'strong'): string {
  return `
// quiet: missing_head
//- main.curette
${head}
protocol p "P" {
  materials { ${listed} }
  visit v "V" {
    give ${dose}
  }
}
${SETS}`;
}

describe('the set that is applied', () => {
  test('gives a figure its value, and every problem says which set that is', () => {
    expect(told(giving('strong 400 mg', 'use sets\napply of_society because "Agreed"'))).toEqual([
      'unmet_need: "give" asks that dose (400 mg) is at most the most of Strong (300 mg, leaflets: Ceilings of the society); that is not so.',
    ]);
    check(giving('strong 400 mg', 'use sets\napply of_leaflet because "Agreed"'));
  });

  test('counts in every file that reaches the line', () => {
    const files = `
//- house/policy.curette
use ../sets
apply of_society because "Agreed" source society
//- house/all.curette
use policy
`;
    expect(told(giving('strong 400 mg', 'use sets\nuse house/all') + files)).toEqual([
      expect.stringContaining('leaflets: Ceilings of the society'),
    ]);
    expect(told(giving('strong 200 mg', 'use sets\nuse house/all') + files)).toEqual([]);
  });

  test('counts once, however many files lead to it or say so', () => {
    check(`${giving('strong 200 mg', 'use sets\nuse policy\napply of_society because "Agreed"')}
//- policy.curette
use sets
apply of_society because "Agreed"
`);
  });

  test('is asked for the nearest kind where an entry has no line of its own', () => {
    const own = `
figures house "House" of leaflets {
  drug         { most 100 mg source common_practice }
  numbing_drug { most 200 mg source common_practice }
  strong       { most 300 mg source common_practice }
}
apply house because "Agreed"
`;
    const limit = (thing: string) => told(giving(`${thing} 800 mg`, `use sets\n${own}`, thing)).join();
    expect(limit('strong')).toContain('300 mg, leaflets: House');
    expect(limit('mild')).toContain('200 mg, leaflets: House');
    expect(limit('other')).toContain('100 mg, leaflets: House');
    expect(told(giving('a 800 mg', `use sets\n${own}`, 'a : numbing_drug')).join()).toContain('200 mg');
  });

  test('is not asked for a kind where an entry has a line that is silent', () => {
    const own = `
figures house "House" of leaflets {
  drug   { most 100 mg source common_practice }
  strong { }
}
apply house because "Agreed"
`;
    expect(codes(giving('strong 90 mg', `use sets\n${own}`))).toEqual(['figure_not_stated']);
  });

  test('is not filled up from another set where it is silent', () => {
    expect(told(giving('mild 700 mg', 'use sets\napply of_society because "Agreed"', 'mild'))).toEqual([
      'figure_not_stated: It cannot be told whether dose (700 mg) is at most the most of Mild: "Ceilings of the society", the set of leaflets that is applied here, does not state the most of Mild.',
    ]);
  });

  test('gives the times that states last and that are waited for', () => {
    const timed = (head: string, wait: string) => `
// quiet: missing_head
${head}
source handbook "Handbook"
kind paste "paste" is material {
  rest   : time range from rests
  states dry -> wetted -> spread
  wetted lasts at most rest.longest
}
paste grey "Grey paste"
figures of_handbook "Rests of the handbook" of rests {
  grey { rest 10..20 min source handbook }
}
action wet (paste p) {
  makes p wetted
  takes 1 min
}
action spread (paste p) {
  needs p wetted for p.rest
  makes p spread
  takes 1 min
}
protocol p "P" {
  materials { grey }
  visit v "V" {
    wet grey
    ${wait}
    spread grey
  }
}
`;
    expect(told(timed('apply of_handbook', 'wait 5 min')).join()).toContain(
      'it needs at least 10 min (rests: Rests of the handbook)',
    );
    expect(told(timed('apply of_handbook', 'wait 40 min')).join()).toContain(
      'it may be at most 20 min (rests: Rests of the handbook)',
    );
    expect(told(timed('apply of_handbook', 'wait until grey is wetted for grey.rest'))).toEqual([]);
    expect(codes(timed('', 'wait 5 min'))).toEqual(['figures_not_applied']);
    expect(codes(timed('', 'wait until grey is wetted for grey.rest'))).toEqual(['figures_not_applied']);
  });

  test('judges what a rule expects', () => {
    const ruled = (dose: string) =>
      giving(
        `strong ${dose}`,
        `use sets
apply of_society because "Agreed"
rule careful "Less than the ceiling is enough" {
  whenever give (drug d) (mass dose)
  expect   dose < d.most
  severity warning
  why      "There is always a second need"
  source   common_practice
}`,
      );
    expect(told(ruled('300 mg'))).toEqual([
      'rule_broken: The rule asks that dose (300 mg) is under the most of Strong (300 mg, leaflets: Ceilings of the society); that is not so.',
    ]);
    check(ruled('200 mg'));
  });
});

describe('no set applied', () => {
  test('is told where a figure is asked for, with the sets there are, and once for all of a group', () => {
    expect(told(giving('strong 200 mg\n    give strong 100 mg'))).toEqual([
      'figures_not_applied: It cannot be told whether dose (200 mg) is at most the most of Strong: the most of Strong comes from a set of leaflets, and none is applied here. There are "Ceilings of the leaflet" (of_leaflet) and "Ceilings of the society" (of_society).',
    ]);
  });

  test('is not told where nothing asks', () => {
    check(`
// quiet: missing_head
use sets
action look (drug d)
protocol p "P" {
  materials { strong }
  visit v "V" {
    look strong
  }
}
${SETS}`);
  });

  test('is mended by a line before the protocol, or beside those there are', () => {
    checkMend(
      giving('strong 2$000 mg'),
      'Apply "Ceilings of the society"',
      giving('strong 200 mg', 'use sets\napply of_society\n'),
    );
    const brand = `
kind tool "tool" is instrument { speed : rotational speed from speeds }
figures slow "Slow" of speeds { }
`;
    checkMend(
      giving('strong 2$000 mg', `use sets${brand}apply slow\n`),
      'Apply "Ceilings of the society"',
      giving('strong 200 mg', `use sets${brand}apply slow\napply of_society\n`),
    );
  });

  test('brings in the file of a set that the protocol reaches but does not see', () => {
    const files = `
//- drugs.curette
use far
kind drug "drug" is material { most : mass from leaflets }
drug strong "Strong"
action give (drug d) (mass dose) { needs dose <= d.most because "Poison" source common_practice }
//- far.curette
use drugs
figures house "House" of leaflets { strong { most 300 mg source common_practice } }
`;
    const protocol = (head: string) => `
// quiet: missing_head, use_cycle, unused_use
//- main.curette
${head}
protocol p "P" {
  materials { strong }
  visit v "V" {
    give strong 200 mg
  }
}
`;
    const before = protocol('use drugs\n') + files;
    expect(told(before)).toEqual([expect.stringContaining('There is "House" (house, in far).')]);
    checkMend(before, 'Apply "House"', protocol('use drugs\nuse far\n\napply house\n') + files);
  });
});

describe('two sets of one group', () => {
  test('are told where the file says it, and neither counts', () => {
    check(
      giving(
        'strong 800 mg',
        `use sets
apply of_leaflet because "Printed"
apply of_society because "Agreed"
//    ^^^^^^^^^^ figures_conflict: neither counts`,
      ),
    );
  });

  test('are told where the file says one and a file it uses the other', () => {
    check(`${giving(
      'strong 800 mg',
      `use sets
use policy
apply of_leaflet because "Printed"
//    ^^^^^^^^^^ figures_conflict: "Ceilings of the leaflet" and "Ceilings of the society"`,
    )}
//- policy.curette
use sets
apply of_society because "Agreed"
`);
  });

  test('are told where the second is brought in', () => {
    check(`${giving(
      'strong 800 mg',
      `use sets
use policy
use ward
//  ^^^^ figures_conflict`,
    )}
//- policy.curette
use sets
apply of_society because "Agreed"
//- ward.curette
use sets
apply of_leaflet because "Printed"
`);
  });

  test('are mended by keeping one', () => {
    const two = 'use sets\napply of_leaflet\napply of_society';
    checkMend(
      giving('strong 200 mg', two.replace('society', 'soc$0iety')),
      'Keep "Ceilings of the leaflet" only',
      giving('strong 200 mg', 'use sets\napply of_leaflet'),
    );
    checkMend(
      giving('strong 200 mg', two.replace('society', 'soc$0iety')),
      'Keep "Ceilings of the society" only',
      giving('strong 200 mg', 'use sets\napply of_society'),
    );
  });

  test('of two groups do not meddle with one another', () => {
    check(
      `
kind drug "drug" is material { most : mass from leaflets, onset : time from onsets }
`
        .replace(', onset', '\n  onset')
        .concat(`figures a "A" of leaflets { drug { most 1 mg source common_practice } }
figures b "B" of onsets { drug { onset 1 min source common_practice } }
apply a because "Agreed"
apply b because "Agreed"
`),
    );
  });
});

describe('a figure outside its sets', () => {
  test('is told in an entry and with a thing of the protocol, and does not count', () => {
    check(`
// quiet: missing_head
//- main.curette
use sets
apply of_society because "Agreed"
drug own "Own" {
  most 800 mg source common_practice
//^^^^ figure_outside_set
}
protocol p "P" {
  materials {
    strong { most 800 mg source common_practice }
    //       ^^^^ figure_outside_set
    own
  }
  visit v "V" {
    give strong 400 mg
    //          ^^^^^^ unmet_need: 300 mg, leaflets: Ceilings of the society
    give own 400 mg
    //       ^^^^^^ figure_not_stated
  }
}
${SETS}`);
  });

  test('moves to a set of the same file, to the line of its entry if there is one', () => {
    const text = (entry: string, set: string) => `
kind drug "drug" is material {
  most  : mass from leaflets
  onset : time from leaflets
}
drug own "Own" {
${entry}}
figures house "House" of leaflets {
${set}}
`;
    checkMend(
      text('  mo$0st 80 mg source common_practice\n', '  drug { most 10 mg source common_practice }\n'),
      'Move it to "House"',
      text('', '  drug { most 10 mg source common_practice }\n  own { most 80 mg source common_practice }\n'),
    );
    checkMend(
      text('  mo$0st  80 mg source common_practice\n', '  own { onset 1 min source common_practice }\n'),
      'Move it to "House"',
      text('', '  own { onset 1 min source common_practice, most 80 mg source common_practice }\n'),
    );
  });

  test('is not asked of each entry by a rule about what every entry declares', () => {
    check(`
kind drug "drug" is material { most : mass from leaflets }
drug own "Own"
rule drugs_say_most "Every drug has its ceiling" {
  every    drug declares most
  severity error
  why      "Without it nobody can tell"
  source   common_practice
}
`);
  });
});

describe('a set', () => {
  const kinds = `
kind drug "drug" is material {
  most  : mass within 1..900 mg from leaflets
  onset : time
}
drug own "Own"
`;

  test('speaks of entries and kinds that there are, and of what comes from its group', () => {
    check(`${kinds}
figures house "House" of leaflets {
  onw { most 1 mg source common_practice }
//^^^ unknown_name: Was "own" meant?
  own {
    most  300 mg source common_practice
    onset 3 min source common_practice
//  ^^^^^ figure_outside_group: What comes from a set of leaflets is most.
    mots  3 mg source common_practice
//  ^^^^ unknown_property: Was "most" meant?
  }
  tissue { most 1 mg source common_practice }
//^^^^^^ figure_outside_group: It takes nothing from a set of leaflets.
}
`);
  });

  test('belongs to a group that a property takes its value from', () => {
    check(`${kinds}
figures house "House" of leaflet {
//                       ^^^^^^^ unknown_name: Was "leaflets" meant?
  own { most 300 mg source common_practice }
}
`);
  });

  test('may stand apart from the file that declares the group', () => {
    check(`
// quiet: unused_use
//- main.curette
use entries
figures house "House" of leaflets { own { most 300 mg source common_practice } }
//- entries.curette
use kinds
drug own "Own"
//- kinds.curette
kind drug "drug" is material { most : mass from leaflets }
`);
  });

  test('states figures as they are stated anywhere: in their measure, plausible, with a source', () => {
    check(`${kinds}
figures house "House" of leaflets {
  own { most 3 min source common_practice }
  //         ^^^^^ wrong_measure
  drug { most 30 g source common_practice }
  //          ^^^^ outside_plausible
}
figures other "Other" of leaflets {
  own { most 300 mg }
  //    ^^^^^^^^^^^ limit_without_source
  drug { most 300 mg source nobody }
  //                        ^^^^^^ unknown_name
}
`);
  });

  test('says each thing once', () => {
    check(`${kinds}
figures house "House" of leaflets {
  own { most 300 mg source common_practice, most 400 mg source common_practice }
  //                                        ^^^^ duplicate_name
  own { most 500 mg source common_practice }
//^^^ duplicate_name
}
figures house "House again" of leaflets { }
//      ^^^^^ duplicate_name
apply house because "Agreed"
apply house because "Agreed again"
//    ^^^^^ duplicate_name
`);
  });

  test('that is applied has to be there', () => {
    check(`${kinds}
figures house "House" of leaflets { own { most 300 mg source common_practice } }
apply hose because "Agreed" source nobody
//    ^^^^ unknown_name: Was "house" meant?
//                                 ^^^^^^ unknown_name
`);
  });

  test('whose line is wrong is not said to be silent as well', () => {
    expect(
      codes(
        giving(
          'strong 200 mg',
          `use sets
figures house "House" of leaflets { strong { most 3 min source common_practice } }
apply house because "Agreed"`,
        ),
      ),
    ).toEqual(['wrong_measure']);
  });
});

test('a file is needed for what it applies, for its sets and for its groups', () => {
  check(`
//- main.curette
use policy
use sets
use kinds
//  ^^^^^ unused_use
apply house because "Agreed"
//- policy.curette
use sets
apply house because "Agreed"
//- sets.curette
use kinds
figures house "House" of leaflets { }
//- kinds.curette
kind drug "drug" is material { most : mass from leaflets }
`);
});

describe('after a change', () => {
  const files = (first: string) => ({
    'main.curette':
      giving('strong 400 mg', 'use sets\nuse policy').split('//- main.curette\n')[1]?.split('//- ')[0] ?? '',
    'policy.curette': `use sets\napply ${first} because "Agreed"\n`,
    'sets.curette': SETS.split('//- sets.curette\n')[1] ?? '',
  });

  test('of the line that applies a set, protocols of other files are judged anew', () => {
    const workspace = open(files('of_leaflet'));
    expect(messages(workspace, 'main.curette')).toEqual([]);
    const policy = files('of_leaflet')['policy.curette'];
    const start = policy.indexOf('of_leaflet');
    workspace.change('policy.curette', [{ start, end: start + 'of_leaflet'.length, text: 'of_society' }]);
    expect(messages(workspace, 'main.curette')).toEqual([expect.stringContaining('leaflets: Ceilings of the society')]);
  });

  test('of a figure in a set, so they are', () => {
    const workspace = open(files('of_society'));
    expect(messages(workspace, 'main.curette')).toEqual([expect.stringContaining('300 mg')]);
    const start = files('of_society')['sets.curette'].indexOf('300 mg');
    workspace.change('sets.curette', [{ start, end: start + 3, text: '450' }]);
    expect(messages(workspace, 'main.curette')).toEqual([]);
  });

  test('anywhere in the files, and back, the problems are those of the text read anew', () => {
    const texts = files('of_society');
    const workspace = open(texts);
    const ids = Object.keys(texts) as (keyof typeof texts)[];
    let differed = 0;
    const before = ids.map((id) => messages(workspace, id));
    for (const id of ids) {
      const text = texts[id];
      for (let start = 0; start < text.length; start += 7) {
        const removed = text.slice(start, start + 5);
        workspace.change(id, [{ start, end: start + removed.length, text: '' }]);
        const anew = open({ ...texts, [id]: text.slice(0, start) + text.slice(start + removed.length) });
        const now = ids.map((other) => messages(workspace, other));
        expect(now).toEqual(ids.map((other) => messages(anew, other)));
        if (JSON.stringify(now) !== JSON.stringify(before)) differed++;
        workspace.change(id, [{ start, end: start, text: removed }]);
      }
    }
    expect(ids.map((id) => messages(workspace, id))).toEqual(before);
    expect(differed).toBeGreaterThan(50);
  });
});

function told(fixture: string): string[] {
  return problemsOf(readFixture(fixture)).map(({ problem }) => `${problem.code}: ${problem.message}`);
}

function codes(fixture: string): string[] {
  return problemsOf(readFixture(fixture)).map(({ problem }) => problem.code);
}

function open(texts: Readonly<Record<string, string>>): Workspace {
  const workspace = createWorkspace(
    (id) => {
      const text = texts[id];
      return text === undefined ? { type: 'absent' } : { type: 'bytes', bytes: new TextEncoder().encode(text) };
    },
    () => '2026-03-01',
  );
  for (const [id, text] of Object.entries(texts)) workspace.open(id, text);
  return workspace;
}

function messages(workspace: Workspace, id: string): string[] {
  return (workspace.facts(id)?.problems ?? [])
    .filter(({ code }) => code !== 'missing_head')
    .map(({ code, message, label }) => `${code} ${message} ${label}`)
    .sort();
}
