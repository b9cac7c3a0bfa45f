/** When each visit of a protocol can be, given the first. */
import { NO_SETTINGS, type Settings } from '@curette/shared';
import { describe, expect, test } from 'vitest';
import { readFirstVisit, type VisitDates, visitDates } from '../../../server/src/analysis/protocol/visit-dates.ts';
import { factsOf, readFixture } from '../../support/fixture.ts';

const weekend: Settings = { closed: { weekdays: ['saturday', 'sunday'], periods: [] } };
const holidays: Settings = {
  closed: { weekdays: ['saturday', 'sunday'], periods: [{ from: '2027-12-24', to: '2028-01-07' }] },
};

/** The visits after the first, of a protocol with these waits between them. */
function rows(waits: readonly string[], first: string, settings: Settings = NO_SETTINGS): readonly VisitDates[] {
  const visits = waits.map((wait, i) => `  ${wait}\n  visit v${i + 1} "V" { note "Seen" }\n`).join('');
  const facts = factsOf(readFixture(`protocol p "P" {\n  visit v0 "V" { note "Seen" }\n${visits}}\n`))('main.curette');
  const protocol = facts?.protocols[0];
  const start = readFirstVisit(first);
  if (!facts?.module || !protocol || !start) throw new Error('no protocol, or no date');
  const [head, ...others] = visitDates(facts.module, protocol.statement, start, settings);
  expect(head?.visit.name?.text).toBe('v0');
  return others;
}

const days = (row: VisitDates | undefined) => row && [row.open?.first, row.open?.last, row.open?.days, row.trouble];
const window = (row: VisitDates | undefined) => row && [row.window?.earliest, row.window?.latest];

describe('without closed days', () => {
  test('the earliest follows from the earliest, the latest from the latest', () => {
    const [stitches, opening] = rows(['wait 7..10 d', 'wait 4..5 mo'], '2027-01-21');
    expect(stitches?.wait).toEqual({ shortest: 'P7D', longest: 'P10D' });
    expect(days(stitches)).toEqual(['2027-01-28', '2027-01-31', 4, undefined]);
    expect(opening?.wait).toEqual({ shortest: 'P4M', longest: 'P5M' });
    expect(days(opening)).toEqual(['2027-05-28', '2027-06-30', 34, undefined]);
  });

  test('month ends and leap days', () => {
    expect(rows(['wait 6 mo'], '2027-08-31').map(window)).toEqual([['2028-02-29', '2028-02-29']]);
    expect(rows(['wait 6 mo'], '2099-08-31').map(window)).toEqual([['2100-02-28', '2100-02-28']]);
    expect(rows(['wait 1 mo', 'wait 1 mo'], '2027-12-31').map(window)).toEqual([
      ['2028-01-31', '2028-01-31'],
      ['2028-02-29', '2028-02-29'],
    ]);
  });

  test('where clocks change a date is a date', () => {
    expect(rows(['wait 1 d', 'wait 1 d'], '2027-03-27').map(window)).toEqual([
      ['2027-03-28', '2027-03-28'],
      ['2027-03-29', '2027-03-29'],
    ]);
  });

  test('hours lead to the same day or to the next', () => {
    expect(rows(['wait 6 h', 'wait 48 h'], '2027-03-01').map(window)).toEqual([
      ['2027-03-01', '2027-03-02'],
      ['2027-03-03', '2027-03-04'],
    ]);
  });

  test('waits one after another are one', () => {
    const [row] = rows(['wait 1 mo\n  wait 3..4 d'], '2027-01-31');
    expect(row?.wait).toEqual({ shortest: 'P1M3D', longest: 'P1M4D' });
    expect(window(row)).toEqual(['2027-03-03', '2027-03-04']);
  });
});

describe('open days', () => {
  test('the earliest is moved on, the latest back', () => {
    expect(days(rows(['wait 2..9 d'], '2027-01-21', weekend)[0])).toEqual(['2027-01-25', '2027-01-29', 5, undefined]);
  });

  test('and the next visit counts from there', () => {
    const [, second] = rows(['wait 2..9 d', 'wait 1 wk'], '2027-01-21', weekend);
    expect(window(second)).toEqual(['2027-02-01', '2027-02-05']);
  });

  test('a window without an open day is told, with its dates, and the next counts from the window', () => {
    const [first, second] = rows(['wait 2..3 d', 'wait 1 wk'], '2027-01-21', weekend);
    expect(first?.trouble).toBe('no open day');
    expect(first?.open).toBeUndefined();
    expect(window(first)).toEqual(['2027-01-23', '2027-01-24']);
    expect(window(second)).toEqual(['2027-01-30', '2027-01-31']);
  });

  test('holidays are closed as weekdays are', () => {
    expect(days(rows(['wait 1..3 wk'], '2027-12-20', holidays)[0])).toEqual(['2028-01-10', '2028-01-10', 1, undefined]);
    expect(rows(['wait 1..2 wk'], '2027-12-20', holidays)[0]?.trouble).toBe('no open day');
  });

  test('a first visit on a closed day is told', () => {
    const facts = factsOf(readFixture('protocol p "P" {\n  visit v0 "V" { note "Seen" }\n}\n'))('main.curette');
    const start = readFirstVisit('2027-01-23');
    const protocol = facts?.protocols[0];
    if (!facts?.module || !protocol || !start) throw new Error('no protocol');
    expect(visitDates(facts.module, protocol.statement, start, weekend)).toMatchObject([
      { trouble: 'closed', open: undefined, window: { earliest: '2027-01-23', latest: '2027-01-23' } },
    ]);
  });
});

describe('what cannot be told', () => {
  test('a wait without an end has a first day and no last, and so have those after it', () => {
    const [open, next] = rows(['wait at least 4 mo', 'wait 1..2 wk'], '2027-01-23', weekend);
    expect(days(open)).toEqual(['2027-05-24', undefined, undefined, undefined]);
    expect(open?.wait).toEqual({ shortest: 'P4M', longest: undefined });
    expect(days(next)).toEqual(['2027-05-31', undefined, undefined, undefined]);
  });

  test('no wait at all: not before the visit before, and it is said', () => {
    const [row] = rows([''], '2027-01-21');
    expect(row).toMatchObject({ wait: undefined, trouble: 'not told' });
    expect(window(row)).toEqual(['2027-01-21', undefined]);
  });

  test('part of a month has no fixed number of days, and it is said', () => {
    expect(rows(['wait 1.5 mo'], '2027-01-21')[0]).toMatchObject({ wait: undefined, trouble: 'part of a month' });
  });

  test('beyond the years that can be counted', () => {
    expect(rows(['wait 300000 a', 'wait 1 d'], '2027-01-21').map((row) => row.trouble)).toEqual(['too far', 'too far']);
  });
});

describe('a first moment with its zone', () => {
  test('days and months keep the time on the wall', () => {
    const [next, later] = rows(['wait 1 d', 'wait 1 mo'], '2027-03-27T09:00[CET]');
    expect(next?.window?.earliest).toMatch(/^2027-03-28T09:00\+02:00/);
    expect(later?.window?.earliest).toMatch(/^2027-04-28T09:00\+02:00/);
  });

  test('hours are by the clock', () => {
    expect(rows(['wait 24 h'], '2027-03-27T09:00[CET]')[0]?.window?.earliest).toMatch(/^2027-03-28T10:00\+02:00/);
    expect(rows(['wait 24 h'], '2027-10-30T09:00[CET]')[0]?.window?.earliest).toMatch(/^2027-10-31T08:00\+01:00/);
  });

  test('open days keep the time on the wall, too', () => {
    const [row] = rows(['wait 1..3 d'], '2027-03-25T09:00[CET]', weekend);
    expect(row?.open?.first).toMatch(/^2027-03-26T09:00\+01:00/);
    expect(row?.open?.last).toMatch(/^2027-03-26T09:00\+01:00/);
    const [over] = rows(['wait 2..4 d'], '2027-03-25T09:00[CET]', weekend);
    expect(over?.open?.first).toMatch(/^2027-03-29T09:00\+02:00/);
  });
});

test.each(['2027-02-29', 'tomorrow', '2027-03-27T09:00', ''])('"%s" is no first visit', (text) => {
  expect(readFirstVisit(text)).toBeUndefined();
});
