/** What a case makes of its protocol: exact values, the options that remain, who it is not for, and dates. */
import { describe, expect, test } from 'vitest';
import { check, checkMend, factsOf, problemsOf, readFixture, workspaceOf } from '../../support/fixture.ts';

const KIT = `
// quiet: missing_head, never_used
finding wall "Wall" { intact, windowed, lost }
finding bleeding "Bleeding" { stopped, brisk }
kind hollow "hollow" is place {
  depth  : length
  width  : length
  number : number
  states empty -> filled
}
kind person "person" is patient {
  age : time
}
kind pack "pack" is material {
  states   counted -> in_place -> removed
  must end counted or removed by end of visit source common_practice
}
kind glue "glue" is material {
  contraindicated when patient allergic to formaldehyde because "It gives some off" source common_practice
}
kind drug2 "numbing solution" is material { cartridge : volume }
action place (pack p) in (hollow h) { makes p in_place }
action remove (pack p) from (hollow h) { makes p removed }
action fill (hollow h) to (length d) { makes h filled }
action apply (glue g)
action press (hollow h)
action open (hollow h) { needs h filled }
action inject (drug2 d) (volume v) { uses up d v }
rule not_too_deep "Not filled deeper than 11 mm" {
  whenever fill (hollow h) to (length d)
  expect   h.depth <= 11 mm
  severity error
  why      "It does not set further down"
  source   common_practice
}
`;

const FILL = `
protocol fill_it "Fill a hollow" {
  given {
    patient : person
    site : hollow { depth 9..13 mm }
  }
  visit surgery "Surgery" {
    fill site to 5 mm
    //   ^^^^ not_too_deep
  }
}
`;

const DECIDE = `
protocol decide_it "Decide" {
  given { site : hollow, patient : patient }
  caution when patient allergic to formaldehyde
  materials { a : pack, g : glue }
  visit surgery "Surgery" {
    place a in site
    //    ^ left_undone (error): When wall is windowed or lost
    decide wall "Probe" {
      option intact { remove a from site }
      option windowed or lost { note "Look again" }
    }
    decide bleeding "Look" {
      option stopped { }
      option brisk { apply g }
    }
  }
}
`;

describe('values', () => {
  test('a value within what the protocol gives makes a rule exact: it holds, or it is always broken', () => {
    check(`${KIT}${FILL}
case shallow of fill_it {
  site { depth 10 mm }
}
case deep of fill_it {
  site { depth 12 mm }
  //           ^^^^^ not_too_deep (error)
}
`);
  });

  test('the problem of a case is related to the line of its protocol, and changes nothing there', () => {
    const found = problemsOf(readFixture(`${KIT}${FILL}\ncase deep of fill_it { site { depth 12 mm } }\n`));
    const inCase = found.find(({ problem }) =>
      problem.related.some(({ message }) => message === 'the line of the protocol'),
    );
    expect(inCase?.problem.rule).toBe('not_too_deep');
    expect(inCase?.problem.message).not.toContain('in some circumstances');
    expect(inCase?.problem.mends).toEqual([]);
  });

  test('outside the range is told, and the protocol is then followed with its own', () => {
    check(`${KIT}${FILL}
case outside of fill_it {
  site { depth 15 mm }
  //           ^^^^^ case_outside_range (error): the protocol is for 9–13 mm
}
case reaching of fill_it {
  site { depth 12..14 mm }
  //           ^^^^^^^^^ case_outside_range: which this reaches out of
}
`);
  });

  test('a slip of the unit has its mend', () => {
    checkMend(
      `${KIT}${FILL}\ncase slip of fill_it {\n  site { depth $011 cm$0 }\n}\n`,
      'Change the unit to mm',
      `${KIT}${FILL}\ncase slip of fill_it {\n  site { depth 11 mm }\n}\n`,
    );
  });

  test('of another measure, or of a property that the thing has not, is told as everywhere', () => {
    check(`${KIT}${FILL}
case wrong of fill_it {
  site { depth 3 mL, colour 4 mm }
  //           ^^^^ wrong_measure
  //                 ^^^^^^ unknown_property
}
`);
  });

  test('a bare value is that of the one property it can be', () => {
    check(`${KIT}${FILL}
case bare of fill_it {
  site 14
}
case which of fill_it {
  site 10 mm
  //   ^^^^^ case_value_unclear: depth and width
}
case nothing of fill_it {
  site 3 mL
  //   ^^^^ case_value_unclear: none of what can be said
}
`);
  });

  test('which one is meant can be written around it', () => {
    checkMend(
      `${KIT}${FILL}\ncase which of fill_it {\n  site $010 mm$0\n}\n`,
      'Say that it is the depth',
      `${KIT}${FILL}\ncase which of fill_it {\n  site { depth 10 mm }\n}\n`,
    );
  });

  test('what the protocol does not ask for is told, by what it is', () => {
    check(`${KIT}${FILL}
case others of fill_it {
  sites { depth 10 mm }
  // <^ case_fact_unknown: Was "site" meant?
  bleeding brisk
  // <^^^^ case_fact_unknown: No decision
  colour 3 mm
  // <^^ case_fact_unknown: given nothing called "colour"
}
`);
  });

  test('a material is no given fact', () => {
    check(`${KIT}${DECIDE}
case others of decide_it {
  g { amount 3 mL }
  // @2..3 case_fact_unknown: among the materials
}
`);
  });

  test('the same fact twice is told', () => {
    check(`${KIT}${FILL}
case twice of fill_it {
  site { depth 10 mm }
  site { depth 11 mm }
  //     ^^^^^ duplicate_name
}
`);
  });

  test('a protocol that there is none of is told at the case', () => {
    check(`${KIT}${FILL}
case lost of fil_it { }
//           ^^^^^^ unknown_name: Was "fill_it" meant?
`);
  });
});

describe('findings', () => {
  test('a finding chooses its options; what is then always so is told at the finding', () => {
    check(`${KIT}${DECIDE}
case whole of decide_it { wall intact }
case gone of decide_it {
  wall lost
  //   ^^^^ left_undone (error): "a" is still in place
}
`);
  });

  test('options that do not fit are not in what remains', () => {
    const facts = factsOf(readFixture(`${KIT}${DECIDE}\ncase gone of decide_it { wall lost }\n`))('main.curette');
    const decides = facts?.cases[0]?.protocol?.visits[0]?.items.filter((flow) => flow.type === 'decide');
    expect(decides?.map(({ branches }) => branches.map(({ label }) => label))).toEqual([
      ['windowed or lost'],
      ['stopped', 'brisk'],
    ]);
  });

  test('a value that it never has, or none, is told', () => {
    check(`${KIT}${DECIDE}
case wrong of decide_it {
  wall gone
  //   ^^^^ option_unknown
  bleeding stopped, brisk
  //       ^^^^^^^ case_value_unclear: stopped or brisk
}
`);
  });

  test('after a stop on every path nothing is followed, and the next visit is not asked for', () => {
    const protocol = `
protocol stops "Stops" {
  given { site : hollow }
  visit surgery "Surgery" {
    decide wall "Probe" {
      option lost { stop "Refer" }
      otherwise { }
    }
    fill site to 5 mm
    press site
  }
  wait 4 mo
  visit second "Second" {
    open site
  }
}
`;
    check(`// quiet: missing_head, never_used, not_too_deep
${KIT.replace('// quiet: missing_head, never_used\n', '')}${protocol}
case gone of stops { wall lost }
`);
    const facts = factsOf(readFixture(`${KIT}${protocol}\ncase gone of stops { wall lost }\n`))('main.curette');
    const followed = facts?.cases[0]?.protocol;
    expect(followed?.visits.map(({ items }) => items.map(({ type }) => type))).toEqual([['decide']]);
    expect(followed?.statement.body?.items.filter(({ type }) => type === 'wait' || type === 'visit')).toHaveLength(1);
  });

  test('a decision over two findings keeps what one of them leaves', () => {
    const facts = factsOf(
      readFixture(`${KIT}
protocol both "Both" {
  visit surgery "Surgery" {
    decide wall, bleeding "Look" {
      option intact, stopped { note "a" }
      option intact, brisk { note "b" }
      option lost, any { note "c" }
      otherwise { note "d" }
    }
  }
}
case one of both { wall intact }
case other of both { wall lost }
case third of both { wall windowed, bleeding brisk }
`),
    )('main.curette');
    const options = facts?.cases.map(({ protocol }) =>
      protocol?.visits[0]?.items.flatMap((flow) => (flow.type === 'decide' ? flow.branches.map((b) => b.label) : [])),
    );
    expect(options).toEqual([['intact, stopped', 'intact, brisk'], ['lost, any'], ['otherwise']]);
  });

  test('a finding for which the decision says nothing is told at the case', () => {
    check(`${KIT}
protocol gap "Gap" {
  visit surgery "Surgery" {
    decide bleeding "Look" {
      //   ^^^^^^^^ option_missing
      option stopped { }
    }
  }
}
case one of gap {
  bleeding brisk
  //       ^^^^^ case_without_option
}
`);
  });
});

describe('the patient', () => {
  const CAREFUL = `
protocol careful "Careful" {
  given { patient : person, site : hollow }
  exclude when patient has acute_infection because "It is lost"
  exclude when patient.mass < 30 kg because "Doses are for adults"
  caution when patient has smoking
  caution when patient allergic to formaldehyde
  materials { g : glue }
  visit surgery "Surgery" {
    decide bleeding "Look" {
      option stopped { press site }
      option brisk { apply g }
    }
  }
}
`;
  test('an exclusion is an error that names it, a caution is said', () => {
    check(`${KIT}${CAREFUL}
case ill of careful {
  patient { mass 70 kg, has acute_infection, has smoking }
  //                        ^^^^^^^^^^^^^^^ case_excluded (error): patient has acute infection
  //                                             ^^^^^^^ case_cautioned (advice)
}
`);
  });

  test('what is not stated does not apply', () => {
    check(`${KIT}${CAREFUL}\ncase well of careful {\n  patient { mass 70 kg, has diabetes }\n}\n`);
  });

  test('an exclusion over a measure is judged by the case, or cannot be told', () => {
    check(`${KIT}${CAREFUL}
case light of careful {
  patient { mass 25 kg }
  //             ^^^^^ case_excluded (error): the mass of patient (25 kg) is under 30 kg
}
case between of careful {
  patient { mass 25..40 kg }
  //             ^^^^^^^^^ case_excluded (warning)
}
case unsaid of careful { }
//   ^^^^^^ undecided (warning)
`);
  });

  test('a material in use that is contraindicated is an error even where the protocol asks for care only', () => {
    check(`${KIT}${CAREFUL}
case sticky of careful {
  patient { mass 70 kg, allergic to formaldehyde }
  //                                ^^^^^^^^^^^^ case_cautioned
  //                                ^^^^^^^^^^^^ case_contraindicated (error)
}
`);
  });

  test('so is something that is done; what only asks for care is none', () => {
    check(`
// quiet: missing_head
kind joint "joint" is place
action puncture "Puncture" (joint j) {
  contraindicated when patient has acute_infection because "It carries the infection in" source common_practice
  caution when patient takes vitamin_k_antagonist because "It bleeds on" source common_practice
}
protocol careful "Careful" {
  given { patient : patient, knee : joint }
  caution when patient has acute_infection
  caution when patient takes vitamin_k_antagonist
  visit v "V" { puncture knee }
}
case hot of careful {
  patient { has acute_infection }
  //            ^^^^^^^^^^^^^^^ case_cautioned
  //            ^^^^^^^^^^^^^^^ case_contraindicated (error): "Puncture" is done in this case, and is contraindicated when
}
case thin of careful {
  patient { takes vitamin_k_antagonist }
  //              ^^^^^^^^^^^^^^^^^^^^ case_cautioned
}
`);
  });

  test('one that the case does not come to use is none', () => {
    check(`${KIT}${CAREFUL}
case dry of careful {
  bleeding stopped
  patient { mass 70 kg, allergic to formaldehyde }
  //                                ^^^^^^^^^^^^ case_cautioned
}
`);
  });

  test('what is said of nobody in particular is said of the patient', () => {
    check(`${KIT}${CAREFUL}
case ill of careful {
  has acute_infection
  //  ^^^^^^^^^^^^^^^ case_excluded
  patient { mass 70 kg }
}
case strange of careful {
  patient { mass 70 kg, has two_heads }
  //                        ^^^^^^^^^ value_outside_set
}
`);
  });

  test('where no patient is given nothing can be said of one', () => {
    check(`${KIT}
protocol bare "Bare" { visit surgery "Surgery" { note "n" } }
case one of bare {
  has smoking
  // <^^^^^^^ case_fact_unknown: no patient
}
`);
  });
});

describe('dates', () => {
  const CLOSED = `//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"], "dates": ["2027-03-15/2027-03-19"] } }

//- main.curette
protocol twice "Twice" {
  visit first "First" { note "n" }
  wait 7..9 d
  visit second "Second" { note "n" }
}
`;
  const quiet = '// quiet: missing_head\n';
  test('a start on a closed day is told and moved, and so is a later visit without an open day', () => {
    check(`${quiet}${CLOSED}
case good of twice { start 2027-03-01 }
case saturday of twice {
  start 2027-03-06
  //    ^^^^^^^^^^ case_day_closed (warning): "First" cannot be
  //    ^^^^^^^^^^ case_day_closed (warning): "Second" falls on
}
case holidays of twice {
  start 2027-03-08
  //    ^^^^^^^^^^ case_day_closed (warning): "Second" falls on 2027-03-15 to 2027-03-17
}
`);
  });

  test('a day that there is not, and one not written, are told', () => {
    check(`${quiet}${CLOSED}
case none of twice {
  start 2027-02-29
  //    ^^^^^^^^^^ case_start (error)
}
case again of twice {
  start 2027-03-01
  start 2027-03-02
  //    ^^^^^^^^^^ duplicate_name
}
`);
  });

  test('the next open day is offered', () => {
    checkMend(
      `${quiet}//- curette.json
{ "closed": { "weekdays": ["saturday", "sunday"] } }
//- main.curette
protocol once "Once" { visit first "First" { note "n" } }
case one of once { start $02027-03-06$0 }
`,
      'Begin on 2027-03-08',
      `//- main.curette
protocol once "Once" { visit first "First" { note "n" } }
case one of once { start 2027-03-08 }
`,
    );
  });
});

describe('in another file', () => {
  const files = (depth: string) => `
//- kit.curette
${KIT.replace(/\n\/\/ quiet: .*\n/, '\n')}
//- fill.curette
use kit
${FILL}
//- cases.curette
use fill
case one of fill_it {
${depth}
}
`;
  test("a case uses its protocol's file, and needs no other", () => {
    check(`// quiet: missing_head, never_used${files('  site { depth 12 mm }\n  //           ^^^^^ not_too_deep')}`);
    check(`// quiet: missing_head, never_used${files('  site { depth 10 mm }')}`);
  });
});

test('of many facts those are told on which a problem hangs', () => {
  check(`${KIT}
protocol two "Two" {
  given { a : hollow { depth 9..13 mm }, b : hollow { depth 9..13 mm } }
  visit surgery "Surgery" {
    fill a to 5 mm
    //   ^ not_too_deep
    fill b to 5 mm
    //   ^ not_too_deep
  }
}
case one of two {
  b { depth 12 mm, width 3 mm }
  //        ^^^^^ not_too_deep
  a { depth 10 mm }
}
`);
});

describe('while it is typed', () => {
  const fixture = readFixture(`
//- kit.curette
${KIT.replace(/\n\/\/ quiet: .*\n/, '\n')}
//- fill.curette
use kit
${FILL}
//- cases.curette
use fill
case one of fill_it {
  site { depth 10 mm }
}
case two of fill_it {
  site { depth 9 mm }
}
`);
  const change = (workspace: ReturnType<typeof workspaceOf>, id: string, from: string, to: string) => {
    const text = workspace.snapshot().file(id)?.text ?? '';
    const start = text.indexOf(from);
    expect(start).toBeGreaterThanOrEqual(0);
    workspace.change(id, [{ start, end: start + from.length, text: to }]);
  };
  const opened = () => {
    const workspace = workspaceOf(fixture);
    for (const { id, text } of fixture.files) workspace.open(id, text);
    return workspace;
  };
  const codes = (workspace: ReturnType<typeof workspaceOf>) =>
    workspace.facts('cases.curette')?.problems.map(({ rule, code }) => rule ?? code);

  test('a step that changes in the file of the protocol changes its cases', () => {
    const workspace = opened();
    const before = workspace.facts('cases.curette');
    expect(codes(workspace)).toEqual([]);
    expect(workspace.facts('cases.curette')).toBe(before);
    change(workspace, 'fill.curette', '9..13 mm', '11..13 mm');
    expect(codes(workspace)).toEqual(['case_outside_range', 'case_outside_range']);
    change(workspace, 'fill.curette', '11..13 mm', '9..13 mm');
    expect(codes(workspace)).toEqual([]);
    change(workspace, 'fill.curette', 'fill site to 5 mm', 'fil site to 5 mm');
    // What is wrong with the protocol is told there alone.
    expect(codes(workspace)).toEqual([]);
    expect(workspace.facts('fill.curette')?.problems.map(({ code }) => code)).toContain('unknown_action');
  });

  test('a case that changes leaves its neighbours, and the protocol, as they were', () => {
    const workspace = opened();
    const before = workspace.facts('cases.curette');
    const protocol = workspace.facts('fill.curette');
    change(workspace, 'cases.curette', '10 mm', '12 mm');
    const after = workspace.facts('cases.curette');
    expect(codes(workspace)).toEqual(['not_too_deep']);
    expect(after?.cases[1]?.protocol).toBe(before?.cases[1]?.protocol);
    expect(workspace.facts('fill.curette')).toBe(protocol);
    change(workspace, 'cases.curette', '12 mm', '12.5 mm');
    expect(codes(workspace)).toEqual(['not_too_deep']);
    change(workspace, 'cases.curette', '12.5 mm', '11 mm');
    expect(codes(workspace)).toEqual([]);
  });

  test('a remark that comes to hold a name is told, and told no more when it is gone', () => {
    const workspace = opened();
    change(workspace, 'cases.curette', 'site { depth 9 mm }', 'site { depth 9 mm } // Mrs Weber');
    expect(codes(workspace)).toEqual(['looks_like_identifier']);
    change(workspace, 'cases.curette', ' // Mrs Weber', '');
    expect(codes(workspace)).toEqual([]);
  });

  test("two files that use each other, each with a case of the other's protocol, are both answered", () => {
    const both = readFixture(`
//- a.curette
use b
protocol pa "A" { visit v "V" { note "n" } }
case of_b of pb { start 2027-03-01 }
//- b.curette
use a
protocol pb "B" { visit v "V" { note "n" } }
case of_a of pa { start 2027-03-01 }
`);
    const facts = factsOf(both);
    expect(['a.curette', 'b.curette'].map((id) => facts(id)?.cases[0]?.protocol?.statement.name?.text)).toEqual([
      'pb',
      'pa',
    ]);
  });
});
