import {
  type Comparison,
  compare,
  compareRanges,
  compareSizes,
  formatQuantity,
  type Range,
  rangeBetween,
  type Size,
  solveFor,
  type Verdict,
} from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { q } from './written.ts';

describe('comparing quantities', () => {
  const cases: [string, Comparison, string, Verdict | 'incomparable'][] = [
    ['10..40 min', '>=', '10 min', 'always'],
    ['10..40 min', '>', '10 min', 'sometimes'],
    ['6 min', '>=', '10..60 min', 'never'],
    ['6..20 min', '>=', '10 min', 'sometimes'],
    ['90 min', '<=', '1.5 h', 'always'],
    ['35 N.cm', '=', '0.35 N.m', 'always'],
    ['35 N.cm', '<', '0.35 N.m', 'never'],
    ['300 um', '=', '0.3 mm', 'always'],
    ['300 um', '<', '0.3 mm', 'never'],
    ['250..1000 um', 'within', '0.25..1 mm', 'always'],
    ['300..900 mm', 'within', '0.001..5 mm', 'never'],
    ['over 10 min', '>', '10 min', 'always'],
    ['at least 10 min', '>', '10 min', 'sometimes'],
    ['under 10 min', '>=', '10 min', 'never'],
    ['at most 35 N.cm', '<=', '35 N.cm', 'always'],
    ['at most 35 N.cm', '>=', '10 N.cm', 'sometimes'],
    ['2 drops', '=', '0.1 mL', 'always'],
    ['2 cartridges', '<=', '2', 'always'],
    ['2 cartridges', '<=', '4 increments', 'incomparable'],
    ['50 %', '=', '0.5', 'always'],
    ['7 mg/kg', '<=', '7', 'incomparable'],
    ['7 mg/kg', '<=', '7 %', 'incomparable'],
    ['26 wk', '>=', '6 mo', 'incomparable'],
    ['47.1 Cel', '>', '47 Cel', 'always'],
    ['47 Cel', '=', '116.6 [degF]', 'always'],
    ['0.7 g', '<=', '7 mg/kg', 'incomparable'],
  ];

  test.each(cases)('%s %s %s: %s', (a, op, b, verdict) => {
    expect(compare(q(a), op, q(b))).toBe(verdict);
  });

  test('decides as trying all values of both would', () => {
    const quarters = fc.integer({ min: -8, max: 8 }).map((n) => n / 4);
    const ranges = fc
      .tuple(quarters, quarters, fc.boolean(), fc.boolean())
      .map(([a, b, openLo, openHi]) => rangeBetween(Math.min(a, b), Math.max(a, b), openLo, openHi))
      .filter((r) => r !== undefined && (r.lo === r.hi || r.hi - r.lo >= 0.75)) as fc.Arbitrary<Range>;
    const ops = fc.constantFrom<Comparison>('<', '<=', '>', '>=', '=', 'within');
    fc.assert(
      fc.property(ranges, ops, ranges, (a, op, b) => {
        expect(compareRanges(a, op, b)).toBe(byTrying(a, op, b));
      }),
      { numRuns: 2000 },
    );
  });
});

describe('comparing sizes', () => {
  const size = (...sides: string[]): Size => sides.map(q);

  test('a piece fits whichever way it is turned', () => {
    expect(compareSizes(size('15 mm', '20 mm'), '<=', size('20 mm', '15 mm'))).toBe('always');
    expect(compareSizes(size('9 mm', '8 mm'), '>=', size('7..9 mm', '6..8 mm'))).toBe('always');
    expect(compareSizes(size('9 mm', '7 mm'), '>=', size('7..9 mm', '6..8 mm'))).toBe('sometimes');
    expect(compareSizes(size('9 mm', '5 mm'), '>=', size('7..9 mm', '6..8 mm'))).toBe('never');
  });

  test('with another number of sides, or none, nothing is decided', () => {
    expect(compareSizes(size('9 mm', '8 mm'), '<=', size('9 mm'))).toBe('incomparable');
    expect(compareSizes([], '<=', [])).toBe('incomparable');
    expect(compareSizes(size('9 mm', '8 min'), '<=', size('9 mm', '8 min'))).toBe('incomparable');
  });
});

describe('solving for the unknown', () => {
  const mass = q('at least 0 kg');

  test('a dose under a ceiling per body mass breaks under a body mass', () => {
    const solved = solveFor({ constant: q('136 mg') }, '<=', { coefficient: q('7 mg/kg') }, mass);
    expect(solved?.breaks && formatQuantity(solved.breaks, { digits: 3 })).toBe('under 19.4 kg');
    expect(solved?.breaks && formatQuantity(solved.breaks, { digits: 3, rounding: 'outward' })).toBe('under 19.5 kg');
    expect(solved?.holds && formatQuantity(solved.holds, { digits: 3 })).toBe('at least 19.4 kg');
  });

  test('with a range of doses it breaks for certain, can break, or holds', () => {
    const solved = solveFor({ constant: q('70..140 mg') }, '<=', { coefficient: q('7 mg/kg') }, mass);
    expect(solved?.breaks && formatQuantity(solved.breaks)).toBe('under 10 kg');
    expect(solved?.canBreak && formatQuantity(solved.canBreak)).toBe('under 20 kg');
    expect(solved?.holds && formatQuantity(solved.holds)).toBe('at least 20 kg');
  });

  test('the threshold itself is judged like any other value', () => {
    const holdsUpTo = (op: '<' | '<=', limit: string): boolean => {
      const solved = solveFor({ coefficient: q('7 mg/kg') }, op, { constant: q(limit) }, mass);
      return solved?.holds !== undefined && compare(q('10 kg'), 'within', solved.holds) === 'always';
    };
    expect(holdsUpTo('<=', '70 mg')).toBe(true);
    expect(holdsUpTo('<', '70 mg')).toBe(false);
    expect(holdsUpTo('<', 'over 70 mg')).toBe(true);
    expect(holdsUpTo('<', 'at least 70 mg')).toBe(false);
    const broken = solveFor({ coefficient: q('7 mg/kg') }, '<=', { constant: q('under 70 mg') }, mass)?.breaks;
    expect(broken && compare(q('10 kg'), 'within', broken)).toBe('always');
  });

  test('what the unknown cannot be is left out', () => {
    const adult = q('40..150 kg');
    const solved = solveFor({ constant: q('70 mg') }, '<=', { coefficient: q('7 mg/kg') }, adult);
    expect(solved).not.toHaveProperty('breaks');
    expect(solved?.holds && formatQuantity(solved.holds)).toBe('40–150 kg');
  });

  test('an unknown that cancels, does not fit or may be multiplied by nought has no threshold', () => {
    const minutes = q('at least 0 min');
    expect(solveFor({ constant: q('136 mg') }, '<=', { coefficient: q('7 mg/kg') }, minutes)).toBeUndefined();
    expect(solveFor({ constant: q('136 mg') }, '<=', { coefficient: q('0..7 mg/kg') }, mass)).toBeUndefined();
    expect(
      solveFor({ coefficient: q('7 mg/kg') }, '<=', { coefficient: q('7 mg/kg'), constant: q('1 mg') }, mass),
    ).toBeUndefined();
  });

  test('decides as putting values in for the unknown would', () => {
    const tenth = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max }).map((n) => n / 10);
    const ranges = fc.tuple(tenth(-50, 50), tenth(0, 30)).map(([lo, width]) => `${lo}..${lo + width}`);
    const ops = fc.constantFrom<'<' | '<=' | '>' | '>='>('<', '<=', '>', '>=');
    let decided = 0;
    fc.assert(
      fc.property(ranges, ranges, ops, ranges, tenth(-90, 90), (a, b, op, c, x) => {
        const [slope, shift, limit] = [q(`${a} mg/mL`), q(`${b} mg`), q(`${c} mg`)];
        const unknown = q('-10..10 mL');
        const solved = solveFor({ coefficient: slope, constant: shift }, op, { constant: limit }, unknown);
        if (solved === undefined) {
          expect(slope.range.lo <= 0 && slope.range.hi >= 0).toBe(true);
          return;
        }
        decided++;
        const verdict = bySubstituting(slope.range, x * 1000, shift.range, op, limit.range);
        const at = q(`${x} mL`);
        const isIn = (part: keyof typeof solved): boolean => {
          const range = solved[part];
          return range !== undefined && compare(at, 'within', range) === 'always';
        };
        expect([isIn('holds'), isIn('breaks'), isIn('canBreak')]).toEqual([
          verdict === 'always',
          verdict === 'never',
          verdict !== 'always',
        ]);
      }),
      { numRuns: 2000 },
    );
    expect(decided).toBeGreaterThan(300);
  });
});

/** Tries every corner of the ranges, as a product is greatest and least there; a millionth counts as equal. */
function bySubstituting(a: Range, x: number, b: Range, op: '<' | '<=' | '>' | '>=', c: Range): Verdict {
  const outcomes = [a.lo, a.hi].flatMap((slope) =>
    [b.lo, b.hi].flatMap((shift) =>
      [c.lo, c.hi].map((limit) => {
        const difference = slope * x + shift - limit;
        const sign = Math.abs(difference) < 1e-6 ? 0 : difference;
        return { '<': sign < 0, '<=': sign <= 0, '>': sign > 0, '>=': sign >= 0 }[op];
      }),
    ),
  );
  if (outcomes.every((o) => o)) return 'always';
  return outcomes.some((o) => o) ? 'sometimes' : 'never';
}

function byTrying(a: Range, op: Comparison, b: Range): Verdict {
  const right = pointsOf(b);
  const outcomes = pointsOf(a).flatMap((x) =>
    op === 'within'
      ? [right.includes(x)]
      : right.map((y) => ({ '<': x < y, '<=': x <= y, '>': x > y, '>=': x >= y, '=': x === y })[op]),
  );
  if (outcomes.every((o) => o)) return 'always';
  return outcomes.some((o) => o) ? 'sometimes' : 'never';
}

function pointsOf(r: Range): number[] {
  const points: number[] = [];
  for (let x = r.lo; x <= r.hi; x += 0.0625) {
    if (!(r.openLo && x === r.lo) && !(r.openHi && x === r.hi)) points.push(x);
  }
  return points;
}
