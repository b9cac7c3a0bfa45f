import { formatSource, slipOf } from '@curette/shared';
import { describe, expect, test } from 'vitest';
import { q } from './written.ts';

describe('a right number with the wrong unit', () => {
  test.each([
    ['300..900 mm', '0.001..5 mm', 'um', 1000],
    ['0.5 L', '0.1..5 mL', 'mL', 1000],
    ['500 g', '50..1000 mg', 'mg', 1000],
    ['35 N.m', '5..80 N.cm', 'N.cm', 100],
    ['35 N.mm', '50..800 N.mm', 'N.cm', 0.1],
    ['8 cm', '3..20 mm', 'mm', 10],
    ['40 mcg/mL', '5..100 mg/mL', 'mg/mL', 0.001],
    ['7 g/kg', '1..10 mg/kg', 'mg/kg', 1000],
    ['10 h', '5..60 min', 'min', 60],
    ['98.6 Cel', '30..45 Cel', '[degF]', 1.8],
  ])('%s where %s is plausible: %s was meant, a factor of %d', (written, plausible, unit, factor) => {
    const slip = slipOf(q(written), q(plausible));
    expect(slip?.suggestedUnit.canonical).toBe(unit);
    expect(slip?.factor).toBeCloseTo(factor, 9);
  });

  test('the number stays as it was written', () => {
    const slip = slipOf(q('300..900 mm'), q('0.001..5 mm'));
    expect(slip && formatSource(slip.suggested)).toBe('300..900 um');
  });

  test.each([
    ['3 mm', '0.001..5 mm', 'plausible as it stands'],
    ['4..9 mm', '0.001..5 mm', 'partly plausible'],
    ['7000 m2', '1..5 mm2', 'no unit makes it plausible'],
    ['3 min', '1..5 mm', 'another dimension'],
    ['at least 300 mm', '0.001..5 mm', 'no end to shift'],
    ['300 cartridges', '1..4 cartridges', 'a count has no other unit'],
  ])('%s where %s is plausible is left alone: %s', (written, plausible) => {
    expect(slipOf(q(written), q(plausible))).toBeUndefined();
  });
});
