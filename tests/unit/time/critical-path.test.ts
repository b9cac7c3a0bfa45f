import { expect, test } from 'vitest';
import { type Activity, criticalPath } from '../../../server/src/analysis/time/critical-path.ts';

const lay = (name: string, duration: number, ...after: string[]): Activity<string> => ({ name, duration, after });

test('the longer of two lanes is critical, the shorter has slack', () => {
  const path = criticalPath([lay('end', 2, 'long', 'short'), lay('long', 20), lay('short', 5)]);
  if (!path.ok) throw new Error(path.reason);
  expect(path.length).toBe(22);
  expect(path.times.get('short')).toEqual({
    earliestStart: 0,
    earliestFinish: 5,
    latestStart: 15,
    latestFinish: 20,
    slack: 15,
    critical: false,
  });
  expect(path.times.get('long')).toMatchObject({ slack: 0, critical: true });
  expect(path.times.get('end')).toMatchObject({ earliestStart: 20, critical: true });
});

test('nothing to do takes no time', () => {
  expect(criticalPath([])).toEqual({ ok: true, length: 0, times: new Map() });
});

test('what takes no time can be critical', () => {
  const path = criticalPath([lay('pause', 0, 'work'), lay('work', 3)]);
  expect(path.ok && path.times.get('pause')).toMatchObject({ earliestStart: 3, latestFinish: 3, critical: true });
});

test('activities that come after each other are named, in the order in which each comes after the one before', () => {
  expect(criticalPath([lay('first', 1), lay('b', 1, 'first', 'd'), lay('c', 1, 'b'), lay('d', 1, 'c')])).toEqual({
    ok: false,
    reason: 'cycle',
    cycle: ['c', 'd', 'b'],
  });
});

test('an activity that comes after itself is named', () => {
  expect(criticalPath([lay('a', 1, 'a')])).toEqual({ ok: false, reason: 'cycle', cycle: ['a'] });
});

test('something that is no activity is named with what comes after it', () => {
  expect(criticalPath([lay('a', 1, 'b')])).toEqual({ ok: false, reason: 'unknown', name: 'a', after: 'b' });
});

test('a chain of a hundred thousand activities is followed', () => {
  const chain = Array.from(
    { length: 100_000 },
    (_, at): Activity<number> => ({
      name: at,
      duration: 1,
      after: at === 99_999 ? [] : [at + 1],
    }),
  );
  const path = criticalPath(chain);
  expect(path.ok && path.length).toBe(100_000);
});
