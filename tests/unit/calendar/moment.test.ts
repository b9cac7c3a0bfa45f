/**
 * Moments with a zone, on the nights on which its clocks change. `CET` is the zone of that name in the time zone database: in 2027 its clocks
 * go from 02:00 to 03:00 on 28 March and from 03:00 to 02:00 on 31 October.
 */
import { describe, expect, test } from 'vitest';
import {
  addSpanTo,
  type Moment,
  readMoment,
  secondsBetween,
  writeMoment,
} from '../../../server/src/analysis/calendar/moment.ts';

const moment = (text: string): Moment => {
  const read = readMoment(text);
  if (!read) throw new Error(`no moment ${text}`);
  return read;
};
const reach = (from: string, span: { months?: number; days?: number; hours?: number }) => {
  const { months = 0, days = 0, hours = 0 } = span;
  const reached = addSpanTo(moment(from), { months, days, seconds: hours * 3600 });
  return reached && [writeMoment(reached).slice(0, 16), secondsBetween(moment(from), reached) / 3600];
};

describe('when an hour is skipped', () => {
  test('a day keeps the time on the wall and is 23 hours', () => {
    expect(reach('2027-03-27T09:00[CET]', { days: 1 })).toEqual(['2027-03-28T09:00', 23]);
  });

  test('24 hours are by the clock, an hour later on the wall', () => {
    expect(reach('2027-03-27T09:00[CET]', { hours: 24 })).toEqual(['2027-03-28T10:00', 24]);
  });

  test('a month keeps the time on the wall', () => {
    expect(reach('2027-02-28T09:00[CET]', { months: 1 })).toEqual(['2027-03-28T09:00', 28 * 24 - 1]);
  });

  test('a time that is skipped is moved past the gap', () => {
    expect(reach('2027-03-27T02:30[CET]', { days: 1 })?.[0]).toBe('2027-03-28T03:30');
  });
});

describe('when an hour comes twice', () => {
  test('a day keeps the time on the wall and is 25 hours', () => {
    expect(reach('2027-10-30T09:00[CET]', { days: 1 })).toEqual(['2027-10-31T09:00', 25]);
  });

  test('24 hours are by the clock, an hour earlier on the wall', () => {
    expect(reach('2027-10-30T09:00[CET]', { hours: 24 })).toEqual(['2027-10-31T08:00', 24]);
  });

  test('six months from summer into winter keep the time on the wall', () => {
    expect(reach('2027-08-31T09:00[CET]', { months: 6 })?.[0]).toBe('2028-02-29T09:00');
  });
});

test('days come before hours', () => {
  expect(reach('2027-03-27T20:00[CET]', { days: 1, hours: 2 })).toEqual(['2027-03-28T22:00', 25]);
});

test('it is read back from what it is written as', () => {
  const written = writeMoment(moment('2027-10-31T02:30+01:00[CET]'));
  expect(written).toMatch(/^2027-10-31T02:30\+01:00\[/);
  expect(secondsBetween(moment(written), moment('2027-10-31T02:30+01:00[CET]'))).toBe(0);
});

test.each([
  '2027-03-27T09:00',
  '2027-03-27T09:00[Nowhere/Atall]',
  '2027-02-30T09:00[CET]',
  '2027-03-27T09:00-08:00[CET]',
  '2027-03-27',
  '',
])('"%s" is no moment with a zone', (text) => {
  expect(readMoment(text)).toBeUndefined();
});
