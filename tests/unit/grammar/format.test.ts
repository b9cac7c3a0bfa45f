import { format, parse } from '@curette/grammar';
import { parseUnit, unitCodes } from '@curette/shared';
import { describe, expect, test } from 'vitest';
import { isClean } from '../../support/layouts.ts';

function formatted(text: string): string {
  expect(isClean(parse(text)), text).toBe(true);
  const once = format(text, { spell }).text ?? '';
  expect(format(once, { spell }).text).toBe(once);
  return once;
}

function spell(unit: string): string {
  const known = parseUnit(unit);
  return known.ok ? known.canonical : unit;
}

/** Lines of a visit, formatted, without what stands around them. */
function steps(lines: string): string {
  const text = formatted(`protocol p "P" {\nvisit v "V" {\n${lines}\n}\n}\n`);
  return text
    .split('\n')
    .slice(2, -3)
    .map((line) => line.slice(4))
    .join('\n');
}

describe('blocks', () => {
  test('are indented by two, however they were', () => {
    expect(formatted('protocol p "P" {\n\tvisit v "V"\n\t{\n      pause sign_in\n wait 5 min }\n}')).toBe(
      'protocol p "P" {\n  visit v "V" {\n    pause sign_in\n    wait 5 min\n  }\n}\n',
    );
  });

  test('stay on the line of their head when they stood there and there is room', () => {
    expect(steps('complication "Root tip breaks" {elevate tip}')).toBe(
      'complication "Root tip breaks" { elevate tip }',
    );
    expect(steps('complication "Root tip breaks" {\nelevate tip }')).toBe(
      'complication "Root tip breaks" {\n  elevate tip\n}',
    );
    const long = 'elevate tip with root_pick because "A tip that is left behind keeps the socket from healing"';
    expect(steps(`complication "Root tip breaks" { ${long} }`)).toBe(`complication "Root tip breaks" {\n  ${long}\n}`);
  });

  test('of one statement a line are opened when there are several in them', () => {
    expect(steps('decide wall { option intact { } option lost { stop "Refer" } }')).toBe(
      'decide wall {\n  option intact { }\n  option lost { stop "Refer" }\n}',
    );
  });

  test('with nothing in them are two braces', () => {
    expect(formatted('kind a "A" {\n\n}\nkind b "B" {}\n')).toBe('kind a "A" { }\nkind b "B" { }\n');
  });

  test('of names keep on one line what stood on one line', () => {
    expect(formatted('protocol p {\n team {surgeon ,assistant}\n instruments {\n  a,b ,\n  c\n }\n}')).toBe(
      'protocol p {\n  team { surgeon, assistant }\n  instruments {\n    a, b\n    c\n  }\n}\n',
    );
    const names = Array.from({ length: 20 }, (_, at) => `instrument_${at}`);
    const lines = formatted(`protocol p {\n instruments {\n ${names.join(', ')}\n }\n}`).split('\n');
    expect(lines.slice(2, 5).map((line) => line.length)).toEqual([100, 104, 92]);
  });
});

describe('columns', () => {
  test('of what is given and used', () => {
    expect(
      formatted(
        'protocol p {\n materials {\n graft:bank_graft 0.5 mL, cover : sheet 15 mm by 20 mm\n swabs :  swab\n }\n}',
      ),
    ).toBe(`protocol p {
  materials {
    graft : bank_graft 0.5 mL
    cover : sheet 15 mm by 20 mm
    swabs : swab
  }
}
`);
  });

  test('of kinds, actions, rules, entries, sources, findings, pauses, cases, figures', () => {
    expect(
      formatted(`kind graft is material {
soak : time range
states dry -> wetted,wetted->dried_out
wetted lasts at most soak.longest , then dried_out
must end dry or wetted by end of visit
contraindicated when patient has pus
}
action pack "Pack" (graft g) {
needs g wetted for g.soak
uses up g at least g.amount
by surgeon
contraindicated when patient has pus
}
rule r "R" {
whenever pack ( graft g )where g.area>1 cm2
expect (g is wet or min( g.soak ,5 min)<2 h) and not g is dry
severity error
why "W"
}
graft a "A" {
soak 1..2 min
mineralised yes
}
finding wall {
intact "Intact"
lost "Lost"
}
case c of p {
start 2027-03-01
patient { mass 70 kg }
}
figures f of g {
a { soak 1 min }
bank { soak 2 min }
}
`),
    ).toBe(`kind graft is material {
  soak            : time range
  states          dry -> wetted, wetted -> dried_out
  wetted          lasts at most soak.longest, then dried_out
  must end        dry or wetted by end of visit
  contraindicated when patient has pus
}
action pack "Pack" (graft g) {
  needs   g wetted for g.soak
  uses up g at least g.amount
  by      surgeon
  contraindicated when patient has pus
}
rule r "R" {
  whenever pack (graft g) where g.area > 1 cm2
  expect   (g is wet or min(g.soak, 5 min) < 2 h) and not g is dry
  severity error
  why      "W"
}
graft a "A" {
  soak        1..2 min
  mineralised yes
}
finding wall {
  intact "Intact"
  lost   "Lost"
}
case c of p {
  start   2027-03-01
  patient { mass 70 kg }
}
figures f of g {
  a    { soak 1 min }
  bank { soak 2 min }
}
`);
  });

  test('end at a blank line, and not at a comment', () => {
    expect(
      formatted(
        'graft a {\n  soak 1 min\n  /// Grain.\n  particle 1 mm\n  // more\n  wall thin\n\n  mineralised yes\n}\n',
      ),
    ).toBe(
      'graft a {\n  soak     1 min\n  /// Grain.\n  particle 1 mm\n  // more\n  wall     thin\n\n  mineralised yes\n}\n',
    );
  });

  test('leave out a line that they would make too long', () => {
    const sentence =
      'contraindicated when patient allergic to sulfite because "It is kept with a sulfite" source a_label';
    const text = `kind a is b {\n  a_property_with_a_rather_long_name : mass\n  ${sentence}\n  soak : time\n}\n`;
    expect(formatted(text)).toBe(text.replace('soak :', 'soak                               :'));
  });

  test('leave steps alone', () => {
    expect(steps('lay   cover on graft\nrecord photograph "From above"   of site')).toBe(
      'lay cover on graft\nrecord photograph "From above" of site',
    );
  });
});

describe('spaces', () => {
  test.each([
    ['trim cover to 9mm by 8 mm', 'trim cover to 9 mm by 8 mm'],
    ['wait 10 .. 40 min', 'wait 10..40 min'],
    ['wait 30 min .. 2 h', 'wait 30 min..2 h'],
    ['wait until graft is wetted for  graft . soak . shortest', 'wait until graft is wetted for graft.soak.shortest'],
    [
      'verify depth of socket within at   least 5 mm otherwise{stop "x"}',
      'verify depth of socket within at least 5 mm otherwise { stop "x" }',
    ],
    ['dilute d to 1 : 100000', 'dilute d to 1:100000'],
    ['cool bath to -18 .. -15 Cel', 'cool bath to -18..-15 Cel'],
    ['drill a at 800/min , b', 'drill a at 800 /min, b'],
    ['fill a with 60% , b', 'fill a with 60 %, b'],
    ['instruct "x  y"at    home', 'instruct "x  y" at home'],
    ['wait until a.b-2 min<c+3*(d/2)', 'wait until a.b - 2 min < c + 3 * (d / 2)'],
  ])('%s', (written, canonical) => {
    expect(steps(written)).toBe(canonical);
  });

  test.each([
    ['use std / oral', 'use std/oral'],
    ['use ../ shared/policy', 'use ../shared/policy'],
    ['unit drop,drops is 0.05mL', 'unit drop, drops is 0.05 mL'],
    ['kind a { wall:one of 11 .. 18,21..28 }', 'kind a { wall : one of 11..18, 21..28 }'],
    [
      'rule r { count count( item c )at most 2 times in a visit }',
      'rule r { count count (item c) at most 2 times in a visit }',
    ],
    ['rule r { expect sum (d.mass) < total d }', 'rule r { expect sum(d.mass) < total d }'],
  ])('%s', (written, canonical) => {
    expect(formatted(written)).toBe(`${canonical}\n`);
  });
});

test('units are spelled in one way', () => {
  expect(
    steps(
      'inject a 1.7 ml at site\ninject b 5 mcg at site\nseat c at 35 Ncm\nmix d 5 μg/ml\nwait 3 minutes\ndrill e at 800 rpm',
    ),
  ).toBe(
    'inject a 1.7 mL at site\ninject b 5 ug at site\nseat c at 35 N.cm\nmix d 5 ug/mL\nwait 3 min\ndrill e at 800 /min',
  );
  // `mg/[lb_av]` is no word of a line.
  expect(steps('inject a 5 mg/lb at b')).toBe('inject a 5 mg/lb at b');
  // What is a name, and what is no unit, stays.
  expect(steps('inject ml 3 drops at cc\nwait 3 dazes')).toBe('inject ml 3 drops at cc\nwait 3 dazes');
});

// `g%` is no word of a line: people write g/100 mL as a label only.
const codes = unitCodes().filter((code) => code !== 'g%');
test.each([...codes, 'mg/mL', 'N.cm', '/min', 'ug/mL', 'mm2', 'mg/kg'])(
  'the spelling %s is one that a line can hold',
  (code) => {
    const line = `set a to 3 ${code}, b`;
    expect(spell(code)).toBe(code);
    expect(steps(line)).toBe(line);
  },
);

describe('lines that are too long', () => {
  test('are broken before the last clause that fits', () => {
    expect(
      steps(
        'inject numbing 1.7 mL at the_upper_left_first_premolar, gingiva takes 2..3 min usually 2 min by resident because "It lasts long enough" source local_anaesthesia_handbook',
      ),
    ).toBe(
      'inject numbing 1.7 mL at the_upper_left_first_premolar, gingiva takes 2..3 min usually 2 min by resident\n' +
        '    because "It lasts long enough" source local_anaesthesia_handbook',
    );
  });

  test('are broken before a preposition where there is no clause', () => {
    expect(
      formatted(
        'action place "Seat the implant below the lining" (implant i) into (one_stage_sinus_site b) with (driver d) at (rotational speed turning) { }',
      ),
    ).toBe(
      'action place "Seat the implant below the lining" (implant i) into (one_stage_sinus_site b) with (driver d)\n    at (rotational speed turning) { }\n',
    );
  });

  test('come together again when there is room', () => {
    expect(steps('inject numbing 1.7 mL\n  at site\n  takes 2..3 min\n  because "Pain"')).toBe(
      'inject numbing 1.7 mL at site takes 2..3 min because "Pain"',
    );
  });

  test('stay long where nothing may go on in the next line', () => {
    const note = `note "${'word '.repeat(30)}"`;
    expect(steps(note)).toBe(note);
    const source = `because "${'word '.repeat(16)}" source a_source_with_a_long_name`;
    expect(formatted(`action a "A" (b c) { needs c cut ${source} }`)).toBe(
      `action a "A" (b c) {\n  needs c cut\n      ${source}\n}\n`,
    );
  });
});

describe('blank lines', () => {
  test('become one, and none at the edges of a block', () => {
    expect(formatted('\n\nkind a "A"\n\n\n\nkind b "B"\nkind c "C" {\n\n  note "x"\n\n\n  note "y"\n\n}\n\n\n')).toBe(
      'kind a "A"\n\nkind b "B"\nkind c "C" {\n  note "x"\n\n  note "y"\n}\n',
    );
  });

  test('do not part a doc comment from what it belongs to', () => {
    expect(formatted('/// A.\n\n/// B.\n\n// c\n\nkind a "A"\n')).toBe('/// A.\n/// B.\n// c\nkind a "A"\n');
  });

  test('an empty file stays empty', () => {
    expect(formatted('')).toBe('');
    expect(formatted(' \n\t\n')).toBe('');
  });
});

describe('comments', () => {
  test('at the end of a line stay there', () => {
    expect(steps('lay cover on graft//flat\nwait 5 min      // three   spaces  \npause sign_in /// aside')).toBe(
      'lay cover on graft //flat\nwait 5 min // three   spaces\npause sign_in /// aside',
    );
  });

  test('between words keep the words apart', () => {
    expect(steps('lay cover // the sheet\n  on graft\n// by hand\n  with forceps')).toBe(
      'lay cover // the sheet\n    on graft\n    // by hand\n    with forceps',
    );
  });

  test('before and behind braces', () => {
    expect(
      formatted('kind a "A" // one\n// two\n{ // three\n  note "x" // four\n  // five\n} // six\n// seven\n'),
    ).toBe('kind a "A" { // one\n  // two\n  // three\n  note "x" // four\n  // five\n} // six\n// seven\n');
  });

  test('/// behind a brace belongs to the next line, before a brace to none', () => {
    expect(formatted('kind a "A" { /// of x\n note "x" } /// of b\nkind b "B" /// aside\n{ note "y" }\n')).toBe(
      'kind a "A" {\n  /// of x\n  note "x"\n}\n/// of b\nkind b "B" /// aside\n{\n  note "y"\n}\n',
    );
  });

  test('/// at the end of a block stays there', () => {
    expect(formatted('kind a "A" {\n note "x"\n\n ///last\n}\n')).toBe('kind a "A" {\n  note "x"\n\n  /// last\n}\n');
  });
});

describe('what would be read otherwise on one line stays on two', () => {
  test('a text, and a place called home', () => {
    expect(steps('say "x"\n  at home')).toBe('say "x"\n    at home');
  });

  test('a thing called allergic', () => {
    expect(steps('move allergic\n  to site')).toBe('move allergic\n    to site');
  });
});

test('line ends and a byte order mark stay as they are', () => {
  expect(formatted('kind a "A"\r\n\r\n\r\nkind b "B"')).toBe('kind a "A"\r\n\r\nkind b "B"\r\n');
  expect(formatted('\ufeffkind  a "A"')).toBe('\ufeffkind a "A"\n');
});

describe('a file with something in it that could not be read is refused, and the first such place told', () => {
  test.each([
    ['a misspelt word', 'kind a "A"\nknid b "B" {\n  soak : time\n}\n', 'knid', 'unreadable'],
    ['a sign from elsewhere', 'rule r {\n  expect a == b\n}\n', '==', 'foreign_sign'],
    ['curly quotes', 'kind a “A”\n', '“A”', 'foreign_sign'],
    ['a text that is not closed', 'kind a "A\n', '"A', 'unclosed_text'],
    ['a merge', 'kind a\n<<<<<<< mine\nkind b\n', '<<<<<<< mine', 'merge_marker'],
    ['a missing brace', 'kind a {\n  note "x"\n', '{', 'unclosed_block'],
    ['a brace too many', 'kind a { }\n}\n', '}', 'stray_close'],
    ['a line in the wrong place', 'lay a on b\nwiht x\n', 'lay', 'misplaced'],
  ])('%s', (_, text, words, code) => {
    const { text: result, refused } = format(text);
    expect(result).toBeUndefined();
    expect(refused?.code).toBe(code);
    expect(text.slice(refused?.start, refused?.end)).toBe(words);
  });
});
