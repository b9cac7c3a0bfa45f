import { editDistance, nearest, nearestFew } from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

describe('did you mean', () => {
  test.each([
    ['periotme', ['periotome', 'forceps'], 'periotome'],
    ['Periotome', ['periotomes', 'periotome'], 'periotome'],
    ['surgoen', ['surgeon', 'surgery'], 'surgeon'],
    ['mm', ['mm', 'cm'], 'cm'],
    ['forceps', ['scissors', 'condenser'], undefined],
    ['', ['a'], 'a'],
    ['graft', [], undefined],
  ])('"%s" among %j is %s', (name, candidates, meant) => {
    expect(nearest(name, candidates)).toBe(meant);
  });

  test('only those equally near are offered, in their order', () => {
    expect(nearestFew('lay_a', ['lay_c', 'lay_b', 'lay_xy'], 5)).toEqual(['lay_c', 'lay_b']);
    expect(nearestFew('lay_a', ['lay_c', 'lay_b'], 1)).toEqual(['lay_c']);
  });

  test('is never further than a third of the name', () => {
    const words = fc.string({ maxLength: 12 });
    fc.assert(
      fc.property(words, fc.array(words), (name, candidates) => {
        const found = nearest(name, candidates);
        if (found === undefined || found.toLowerCase() === name.toLowerCase()) return;
        expect(editDistance(name, found)).toBeLessThanOrEqual(Math.max(1, Math.floor(name.length / 3)));
      }),
    );
  });
});

describe('edit distance (optimal string alignment)', () => {
  // kitten–sitting and ca–abc are the textbook examples (the latter tells it from the unrestricted distance, which is 2).
  test.each([
    ['kitten', 'sitting', 3],
    ['ca', 'abc', 3],
    ['ab', 'ba', 1],
    ['', 'abc', 3],
    ['same', 'same', 0],
  ])('%s and %s are %d edits apart', (a, b, edits) => {
    expect(editDistance(a, b)).toBe(edits);
  });

  test('is the same both ways, and nought only for equal words', () => {
    const words = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 7 });
    fc.assert(
      fc.property(words, words, (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
      }),
    );
  });

  test('stopping early changes no answer within the bound', () => {
    const words = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 7 });
    fc.assert(
      fc.property(words, words, fc.nat(7), (a, b, furthest) => {
        const whole = editDistance(a, b);
        const bounded = editDistance(a, b, furthest);
        expect(whole <= furthest ? bounded : Math.min(bounded, furthest + 1)).toBe(
          whole <= furthest ? whole : furthest + 1,
        );
      }),
    );
  });
});
