/** The settings of a folder: what is wrong in `curette.json` is told there, what is right counts, and the nearest file counts. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Settings, settingsFile, WEEKDAYS } from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { settingsOf } from '../../../server/src/analysis/settings.ts';
import { check, checkMend, factsOf, readFixture, workspaceOf } from '../../support/fixture.ts';

const settings = (fixture: string, id = 'a.curette'): Settings =>
  settingsOf(workspaceOf(readFixture(fixture)).snapshot(), id);

describe('what may be written', () => {
  test('closed weekdays, dates and days from one date to another', () => {
    const fixture = `
//- curette.json
{
  "closed": {
    "weekdays": ["saturday", "sunday"],
    "dates": ["2027-01-01", "2027-12-24/2027-12-31"]
  }
}
`;
    check(fixture);
    expect(settings(fixture)).toEqual({
      closed: {
        weekdays: ['saturday', 'sunday'],
        periods: [
          { from: '2027-01-01', to: '2027-01-01' },
          { from: '2027-12-24', to: '2027-12-31' },
        ],
      },
    });
  });

  test.each(['{}', '{ "closed": {} }', '{ "$schema": "./a.json", "closed": { "dates": [] } }'])(
    '%s closes nothing',
    (text) => {
      const fixture = `//- curette.json\n${text}\n`;
      check(fixture);
      expect(settings(fixture)).toEqual({ closed: { weekdays: [], periods: [] } });
    },
  );

  test('without the file nothing is closed', () => {
    expect(settings('kind a is material { }\n')).toEqual({ closed: { weekdays: [], periods: [] } });
  });
});

describe('what is wrong is told where it stands, and the rest counts', () => {
  test('a key that is not known', () => {
    const fixture = `
//- curette.json
{
  "closd": { },
//^^^^^^^ bad_settings (error): Was "closed" meant?
  "closed": { "weekday": [], "dates": ["2027-01-01"] }
  //          ^^^^^^^^^ bad_settings: There is no setting "weekday" in "closed". Was "weekdays" meant?
}
`;
    check(fixture);
    expect(settings(fixture).closed.periods).toEqual([{ from: '2027-01-01', to: '2027-01-01' }]);
  });

  test('what is no weekday', () => {
    const fixture = `
//- curette.json
{ "closed": { "weekdays": ["Sunday", 7, "saturday"] } }
//                         ^^^^^^^^ bad_settings: "Sunday" is no weekday
//                                   ^ bad_settings: "7" is no weekday
`;
    check(fixture);
    expect(settings(fixture).closed.weekdays).toEqual(['saturday']);
  });

  test('every weekday closed', () => {
    const fixture = `
//- curette.json
{ "closed": { "weekdays": [ "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday" ] } }
//                        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ bad_settings: there would never be a visit
`;
    check(fixture);
    expect(settings(fixture).closed.weekdays).toEqual([]);
  });

  test.each([
    '2027-02-29',
    '2100-02-29',
    '27-01-01',
    '2027-1-1',
    '01.01.2027',
    '2027-01-01/2027-02-30',
    '2027-01-01/02/03',
    '2027-01-01/',
    '',
  ])('"%s" is no date', (text) => {
    const fixture = `
//- curette.json
{ "closed": { "dates": ["2028-02-29", "${text}"] } }
//                                    ${'^'.repeat(text.length + 2)} bad_settings: "${text}" is no date
`;
    check(fixture);
    expect(settings(fixture).closed.periods).toEqual([{ from: '2028-02-29', to: '2028-02-29' }]);
  });

  test('lists and texts where they have to be', () => {
    check(`
//- curette.json
{
  "closed": {
    "weekdays": "sunday",
    //          ^^^^^^^^ bad_settings: has to be a list in square brackets
    "dates": [20270101]
    //        ^^^^^^^^ bad_settings: has to be texts in quotes
  }
}
`);
    check(`
//- curette.json
{ "closed": ["sunday"] }
//          ^^^^^^^^^^ bad_settings: has to be settings in braces
`);
    check(`
//- curette.json
[1]
// @0..3 bad_settings: What the file holds has to be settings in braces
`);
  });

  test('a key that stands twice: neither is lost in silence', () => {
    const fixture = `
//- curette.json
{
  "closed": { "weekdays": ["sunday"] },
  "closed": { "weekdays": ["monday"] }
//^^^^^^^^ bad_settings: the first one counts
}
`;
    check(fixture);
    expect(settings(fixture).closed.weekdays).toEqual(['sunday']);
  });

  test('a name that every object has is a key like any other', () => {
    check(`
//- curette.json
{ "__proto__": 1, "constructor": 2 }
//^^^^^^^^^^^ bad_settings: There is no setting "__proto__"
//                ^^^^^^^^^^^^^ bad_settings: There is no setting "constructor"
`);
  });

  test('what is no JSON is told once, and what could be read counts', () => {
    const fixture = `
//- curette.json
{ "closed": { "weekdays": ["sunday" "saturday"], } }
//                                  ^^^^^^^^^^ bad_settings: a comma is missing
`;
    check(fixture);
    expect(settings(fixture).closed.weekdays).toEqual(['sunday', 'saturday']);
  });

  test('comments are none of JSON', () => {
    check(`
//- curette.json
{ /* closed on Sundays */ }
//^^^^^^^^^^^^^^^^^^^^^^^ bad_settings: comments have no place in JSON
`);
  });

  test.each([
    ['not text', 'not a text file'],
    ['too large', 'far larger than settings can be'],
    ['unreadable', 'could not be read'],
    ['outside', 'leads out of the workspace'],
  ])('a file that is %s', (trouble, words) => {
    check(`
//- curette.json ${trouble}
// ^ bad_settings: ${words}
`);
  });

  test('an empty file', () => {
    check(`
//- curette.json
// ^ bad_settings: the file is empty
`);
  });

  test.each([
    ['more than a million letters', `{ "closed": {${' '.repeat(1_000_001)}} }`, 'far larger'],
    ['brackets without end', '['.repeat(900_000), 'too deep'],
  ])('%s', (_, text, words) => {
    const told = factsOf({
      quiet: new Set(),
      cursor: undefined,
      files: [{ id: 'curette.json', text, trouble: undefined, marks: [], failing: [] }],
    })('curette.json');
    expect(told?.problems.map(({ code, message }) => [code, message.includes(words)])).toEqual([
      ['bad_settings', true],
    ]);
  });

  test('whatever is in it, it is told or counts, and nothing fails', () => {
    const almost = fc.oneof(
      fc.json(),
      fc
        .record({
          closed: fc.oneof(
            fc.record(
              {
                weekdays: fc.array(fc.oneof(fc.constantFrom(...WEEKDAYS), fc.string(), fc.integer())),
                dates: fc.array(fc.oneof(fc.constant('2027-01-01'), fc.string(), fc.constant('2027-02-02/2027-02-01'))),
                other: fc.anything(),
              },
              { requiredKeys: [] },
            ),
            fc.jsonValue(),
          ),
        })
        .map((value) => JSON.stringify(value)),
      fc.string(),
    );
    fc.assert(
      fc.property(almost, (text) => {
        const facts = factsOf({
          quiet: new Set(),
          cursor: undefined,
          files: [{ id: 'curette.json', text, trouble: undefined, marks: [], failing: [] }],
        })('curette.json');
        expect(facts?.problems.every(({ code }) => code === 'bad_settings')).toBe(true);
        let valid = false;
        try {
          valid = settingsFile.safeParse(JSON.parse(text)).success;
        } catch {}
        if (!valid) expect(facts?.problems).not.toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('mends', () => {
  test('the weekday that was meant', () => {
    checkMend(
      '//- curette.json\n{ "closed": { "weekdays": ["saturday", "sundy"] } }\n',
      'Change to "sunday"',
      '//- curette.json\n{ "closed": { "weekdays": ["saturday", "sunday"] } }\n',
    );
  });

  test('the period the right way round', () => {
    checkMend(
      '//- curette.json\n{ "closed": { "dates": ["2027-12-31/2027-12-24"] } }\n',
      'Change to "2027-12-24/2027-12-31"',
      '//- curette.json\n{ "closed": { "dates": ["2027-12-24/2027-12-31"] } }\n',
    );
  });
});

test('the nearest file above counts, in its own folder and below', () => {
  const fixture = `
//- curette.json
{ "closed": { "weekdays": ["sunday"] } }
//- ward/curette.json
{ "closed": { "weekdays": ["monday"] } }
`;
  const counts = (id: string) => settings(fixture, id).closed.weekdays;
  expect(counts('a.curette')).toEqual(['sunday']);
  expect(counts('clinic/deep/a.curette')).toEqual(['sunday']);
  expect(counts('ward/a.curette')).toEqual(['monday']);
  expect(counts('ward/deep/a.curette')).toEqual(['monday']);
  expect(counts('warden/a.curette')).toEqual(['sunday']);
  expect(counts('folder2:a.curette')).toEqual([]);
  expect(counts('library:std/core.curette')).toEqual([]);
});

test('the schema for editors refuses keys that the checker refuses', () => {
  const schema = JSON.parse(readFileSync(join(import.meta.dirname, '../../../shared/settings.schema.json'), 'utf8'));
  expect(schema.additionalProperties).toBe(false);
  expect(schema.properties.closed.additionalProperties).toBe(false);
  expect(schema.properties.closed.properties.weekdays.items.enum).toEqual([...WEEKDAYS]);
});
