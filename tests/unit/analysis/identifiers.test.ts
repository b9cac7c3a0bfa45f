/** What in a case could lead to a person is told; what belongs to the trade is not. All people and numbers here are invented. */
import { describe, expect, test } from 'vitest';
import { checkMend, problemsOf, readFixture } from '../../support/fixture.ts';

const PROTOCOL = `
// quiet: missing_head
kind hollow "hollow" is place { depth : length within 1 mm..30 mm source common_practice }
protocol fill_it "Fill a hollow" {
  given { patient : patient, site : hollow }
  visit surgery "Surgery" { note "Look" }
}
`;

/** What is said to look like an identifier in a case. */
function toldIn(text: string): readonly (readonly [message: string, severity: string])[] {
  return problemsOf(readFixture(`${PROTOCOL}\n${text}\n`)).flatMap(({ problem }) =>
    problem.code === 'looks_like_identifier' ? [[problem.message, problem.severity] as const] : [],
  );
}

const label = (words: string) => `case first "${words}" of fill_it { site { depth 9 mm } }`;
const remark = (words: string) => `case first of fill_it {\n  // ${words}\n  site { depth 9 mm }\n}`;

describe('told', () => {
  test.each([
    ["somebody's name", 'error', 'Mrs Weber, seen twice'],
    ["somebody's name", 'error', 'as in mrs weber last year'],
    ["somebody's name", 'error', 'Second opinion of Dr. Osterwald'],
    ["somebody's name", 'error', 'Frau Lindqvist'],
    ["somebody's name", 'error', 'Mr. J. R. Haldane, lower jaw'],
    ["somebody's name", 'warning', 'Anneliese Osterwald'],
    ["somebody's name", 'warning', 'The wall of Jonas Brandauer is gone'],
    ["somebody's name", 'warning', 'K. Osterwald, after extraction'],
    ["somebody's name", 'warning', 'Osterwald, K. after extraction'],
    ['the day of a birth', 'error', 'born 14.03.1961'],
    ['the day of a birth', 'error', 'dob 03/04/61'],
    ['the day of a birth', 'error', 'a man born 1961'],
    ['the day of a birth', 'error', '1961-03-14, wall lost'],
    ['the day of a birth', 'error', '14 March 1961'],
    ['the day of a birth', 'error', 'March 14, 1961'],
    ['the day of a birth', 'error', 'geb. 14.3.61'],
    ['the number of a record', 'error', 'MRN 48213'],
    ['the number of a record', 'error', 'record no. 48-2133'],
    ['the number of a record', 'error', 'patient number 0048213'],
    ['the number of a record', 'error', 'see 20450817 in the archive'],
    ['the number of a record', 'error', '756.1234.5678.97'],
    ['the number of a record', 'error', '078-05-1120'],
    ['the number of a record', 'error', '943 476 5919 on the form'],
    ['the number of a record', 'error', 'X1234567890 on the card'],
    ['a telephone number', 'error', 'tel. 4711 0815'],
    ['a telephone number', 'error', '+41 44 555 01 23'],
    ['a telephone number', 'error', '(555) 010-4477'],
    ['an e-mail address', 'error', 'write to anne.o@example.org'],
  ])('%s (%s): %s', (what, severity, words) => {
    for (const text of [label(words), remark(words)]) {
      const told = toldIn(text);
      expect(told.map(([, how]) => how)).toEqual([severity]);
      expect(told[0]?.[0]).toContain(`looks like ${what}`);
    }
  });

  test.each([
    ['before the case', '// Mrs Weber\ncase first of fill_it { }'],
    ['in a remark for readers', '/// Mrs Weber\ncase first of fill_it { }'],
    ['behind the case', 'case first of fill_it { }\n// Mrs Weber'],
    ['at the end of a line', 'case first of fill_it {\n  site { depth 9 mm } // Mrs Weber\n}'],
    ['in a note', 'case first of fill_it {\n  note "Mrs Weber"\n}'],
    ['in a reason', 'case first of fill_it {\n  site { depth 9 mm because "Measured by Mrs Weber" }\n}'],
    ['in the name', 'case mrs_weber of fill_it { }'],
    ['in a name written together', 'case AnneOsterwald of fill_it { }'],
    ['as a number in the name', 'case patient_4821334 of fill_it { }'],
    ['as a value', 'case first of fill_it {\n  born 1961-03-14\n}'],
  ])('%s', (_, text) => {
    expect(toldIn(text)).toHaveLength(1);
  });

  test('the text itself is not repeated in the message', () => {
    for (const [message] of toldIn(label('Mrs Weber, 14.03.1961'))) {
      expect(message).not.toContain('Weber');
      expect(message).not.toContain('1961');
    }
  });
});

describe('not told', () => {
  test.each([
    'Upper first premolar, wall intact',
    'Lost buccal wall at 14',
    'Teeth 11/12/13 and 21/22',
    'Teeth 14-16, then 24-26',
    'Tooth 1.4 and tooth 2.4, 0.5 0.25 0.75 mL',
    '2 cartridges of 1.7 mL, 72 mg at most',
    'Penicillin 1000000 IU',
    'Articaine 4 % with epinephrine 1:100000',
    '1 200 000 units',
    'Drilled at 800 500 1200 rpm in turn',
    'Guided bone regeneration with a Barrier Membrane',
    'Guided Bone Regeneration',
    'Horizontal Ridge, Second Stage',
    'A woman of 63, 58 kg, smoking',
    'Soak 10..60 min, wait 4 mo, 2 wk later',
    'Type B. The sheet lies flat',
    'Class II, Division 1',
    'E. coli grown; S. aureus not',
    'Version 2.1.0 of the protocol',
    'PMID 12345678, doi 10.1000/1234567890',
    'Graft lot 20450817',
    'MR Angiography was not needed',
    'Look of May 10 min before the end',
    'Teaching Hospital, Monday Course',
    'Depth 9.5, width 8.25, length 10.75',
    '35 Ncm at 25 rpm, ISQ 68',
    'From 0800 to 1230',
    'Sutures 4-0, then 5-0 and 6-0',
    'Guideline of 2022',
  ])('%s', (words) => {
    expect(toldIn(label(words))).toEqual([]);
    expect(toldIn(remark(words))).toEqual([]);
  });

  test('the day of the first visit, where it belongs', () => {
    expect(toldIn('case first of fill_it {\n  start 2027-03-01\n  site { depth 9 mm }\n}')).toEqual([]);
    expect(toldIn('case first of fill_it { start 2027-03-01, site { depth 9 mm } }')).toEqual([]);
  });

  test('the same day elsewhere is told', () => {
    expect(toldIn('case first "Seen 2027-03-01" of fill_it { start 2027-03-01 }')).toHaveLength(1);
  });

  test('what is no case', () => {
    expect(
      toldIn(
        'source handbook "Handbook" {\n  by "Osterwald K, Brandauer J"\n}\n// K. Osterwald said so\nfinding red "Red" { yes_it_is }',
      ),
    ).toEqual([]);
    expect(toldIn('// K. Osterwald said so\nfinding red "Red" { yes_it_is }\ncase first of fill_it { }')).toEqual([]);
  });
});

describe('taking it out', () => {
  test('of a label that has more in it', () => {
    checkMend(
      `${PROTOCOL}\ncase first "Wall lost, MRN$0 48213" of fill_it { }\n`,
      'Take it out',
      `${PROTOCOL}\ncase first "Wall lost," of fill_it { }\n`,
    );
  });

  test('with its quotation marks when it is all of it', () => {
    checkMend(
      `${PROTOCOL}\ncase first "Mrs $0Weber" of fill_it { }\n`,
      'Take it out',
      `${PROTOCOL}\ncase first of fill_it { }\n`,
    );
  });

  test('of a remark', () => {
    checkMend(
      `${PROTOCOL}\ncase first of fill_it {\n  // wall lost, born $014.03.1961\n}\n`,
      'Take it out',
      `${PROTOCOL}\ncase first of fill_it {\n  // wall lost,\n}\n`,
    );
  });

  test('a name needs another', () => {
    checkMend(
      `${PROTOCOL}\ncase mrs_$0weber of fill_it { }\n`,
      'Call the case "case_1"',
      `${PROTOCOL}\ncase case_1 of fill_it { }\n`,
    );
  });
});
