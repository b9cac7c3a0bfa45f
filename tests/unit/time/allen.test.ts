import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Ends, overlap, possibleRelations } from '../../../server/src/analysis/time/allen.ts';

const { POSITIVE_INFINITY: never } = Number;
const fixed = (start: number, end: number): Ends => ends(start, start, end, end);
const ends = (startLo: number, startHi: number, endLo: number, endHi: number): Ends => ({
  start: { lo: startLo, hi: startHi },
  end: { lo: endLo, hi: endHi },
});

describe('how two intervals may lie, their ends within ranges', () => {
  test('of two whose ends are known there is one way', () => {
    expect([...possibleRelations(fixed(0, 5), fixed(5, 9))]).toEqual(['meets']);
    expect([...possibleRelations(fixed(2, 5), fixed(0, 9))]).toEqual(['during']);
    expect([...possibleRelations(fixed(0, 0.3), fixed(0.1 + 0.2, 1))]).toEqual(['meets']);
  });

  test('two that begin at once, each of a range of lengths, end one before the other or at once', () => {
    expect(new Set(possibleRelations(ends(0, 0, 2, 10), ends(0, 0, 5, 8)))).toEqual(
      new Set(['starts', 'equals', 'started by']),
    );
  });

  test('what can only be of no length has no way to lie', () => {
    expect(possibleRelations(fixed(5, 5), fixed(0, 9))).toEqual(new Set());
  });

  test('agrees with trying all whole times', () => {
    const range = fc.tuple(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 0, max: 8 }));
    fc.assert(
      fc.property(range, range, range, range, (a, b, c, d) => {
        const [one, two] = [interval(a, b), interval(c, d)];
        // Half steps stand for what lies between two whole numbers, quarters for two different ends there.
        const tried = new Set(
          placements(one).flatMap((first) =>
            placements(two).flatMap((second) => [...possibleRelations(first, second)]),
          ),
        );
        expect(new Set(possibleRelations(one, two))).toEqual(tried);
      }),
      { numRuns: 60 },
    );
  });
});

describe('whether two intervals overlap', () => {
  test.each<[string, Ends, Ends, ReturnType<typeof overlap>]>([
    ['one inside the other', fixed(0, 9), fixed(2, 5), 'always'],
    ['both begin at once', ends(0, 0, 1, 9), ends(0, 0, 2, never), 'always'],
    ['one ends when the other begins', fixed(0, 5), fixed(5, 9), 'never'],
    ['one ends before the other begins', ends(0, 0, 2, 5), ends(6, 9, 10, never), 'never'],
    ['one may end after the other begins', ends(0, 0, 2, 7), ends(6, 9, 10, never), 'can'],
    ['one may begin after the other has ended', ends(0, 20, 5, 30), fixed(4, 10), 'can'],
    ['nothing says when', ends(0, never, 0, never), ends(0, never, 0, never), 'can'],
    ['one is of no length', fixed(3, 3), fixed(0, 9), 'never'],
  ])('%s', (_, a, b, answer) => {
    expect(overlap(a, b)).toBe(answer);
    expect(overlap(b, a)).toBe(answer);
  });
});

function interval([a, b]: readonly [number, number], [c, d]: readonly [number, number]): Ends {
  return ends(Math.min(a, b), Math.max(a, b), Math.min(c, d), Math.max(c, d));
}

/** All intervals of positive length with such ends, in quarters. */
function placements({ start, end }: Ends): Ends[] {
  const found: Ends[] = [];
  for (let from = start.lo; from <= start.hi; from += 0.25)
    for (let to = end.lo; to <= end.hi; to += 0.25) if (from < to) found.push(fixed(from, to));
  return found;
}
