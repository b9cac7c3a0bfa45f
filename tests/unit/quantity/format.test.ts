import {
  add,
  formatNumber,
  formatQuantity,
  formatSize,
  formatSizeSource,
  formatSource,
  fromBase,
  parseUnit,
  toBase,
  unitCodes,
} from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { q } from './written.ts';

describe('quantities for people and in a protocol', () => {
  test.each([
    ['10 min', '10 min', '10 min'],
    ['10..40 min', '10–40 min', '10..40 min'],
    ['at least 10 min', 'at least 10 min', 'at least 10 min'],
    ['at most 35 N.cm', 'at most 35 N·cm', 'at most 35 N.cm'],
    ['over 10 min', 'over 10 min', 'over 10 min'],
    ['under 19.5 kg', 'under 19.5 kg', 'under 19.5 kg'],
    ['4..6 months', '4–6 months', '4..6 mo'],
    ['1 mo', '1 month', '1 mo'],
    ['2 weeks', '2 weeks', '2 wk'],
    ['800..1200 rpm', '800–1200 rpm', '800..1200 /min'],
    ['37 °C', '37 °C', '37 Cel'],
    ['300..900 µm', '300–900 µm', '300..900 um'],
    ['10 µg/mL', '10 mcg/mL', '10 ug/mL'],
    ['150 lb', '150 lb', '150 [lb_av]'],
    ['20 mmHg', '20 mmHg', '20 mm[Hg]'],
    ['60 %', '60%', '60 %'],
    ['15 deg', '15°', '15 deg'],
    ['40 mm2', '40 mm²', '40 mm2'],
    ['1 cartridge', '1 cartridge', '1 cartridge'],
    ['2 cartridges', '2 cartridges', '2 cartridges'],
    ['1..2 cartridges', '1–2 cartridges', '1..2 cartridges'],
    ['0.5 drops', '0.5 drops', '0.5 drops'],
    ['4', '4', '4'],
    ['-5..10 min', '-5 to 10 min', '-5..10 min'],
  ])('%s is %s for people and %s in a protocol', (written, people, source) => {
    expect(formatQuantity(q(written))).toBe(people);
    expect(formatSource(q(written))).toBe(source);
  });

  test('sums show no noise of binary fractions', () => {
    const sum = add(q('0.1 mL'), q('0.2 mL'));
    expect(sum.ok && [formatQuantity(sum.quantity), formatSource(sum.quantity)]).toEqual(['0.3 mL', '0.3 mL']);
  });

  test('sizes', () => {
    expect(formatSize([q('15 mm'), q('20 mm')])).toBe('15 × 20 mm');
    expect(formatSize([q('7..9 mm'), q('6..8 mm')])).toBe('7–9 × 6–8 mm');
    expect(formatSize([q('15 mm'), q('2 cm')])).toBe('15 mm × 2 cm');
    expect(formatSizeSource([q('7..9 mm'), q('6..8 mm')])).toBe('7..9 mm by 6..8 mm');
  });

  test.each([
    [19.428571428571427, 3, '19.4'],
    [0.30000000000000004, 6, '0.3'],
    [1234567.2, 3, '1234567'],
    [0.00000015, 6, '0.00000015'],
    [1e21, 6, '1000000000000000000000'],
    [-0.5, 6, '-0.5'],
    [0, 6, '0'],
    [-0, 6, '0'],
  ])('%d with %d digits is %s', (value, digits, text) => {
    expect(formatNumber(value, digits)).toBe(text);
  });

  test('rounding outward never covers less than the range', () => {
    const ends = fc.double({ min: 0.001, max: 10_000, noNaN: true });
    fc.assert(
      fc.property(ends, ends, fc.integer({ min: 1, max: 5 }), (a, b, digits) => {
        const [lo, hi] = [Math.min(a, b), Math.max(a, b)];
        if (hi / lo < 1 + 1e-8) return;
        const mm = parseUnit('mm');
        if (!mm.ok) throw new Error('no unit');
        const text = formatQuantity(
          { dimension: mm.unit.dimension, range: { lo, hi }, unit: mm.unit },
          { digits, rounding: 'outward' },
        );
        const [low, high] = text.replace(' mm', '').split('–').map(Number);
        expect(low).toBeLessThanOrEqual(lo * (1 + 1e-10));
        expect(high ?? low).toBeGreaterThanOrEqual(hi * (1 - 1e-10));
      }),
    );
  });

  test('what is written in a protocol is read back as the same quantity', () => {
    const hundredths = fc.integer({ min: 0, max: 1_000_000 }).map((n) => n / 100);
    const codes = unitCodes().filter((code) => code !== 'm');
    fc.assert(
      fc.property(fc.constantFrom(...codes), hundredths, hundredths, (code, a, width) => {
        const written = width === 0 ? `${a} ${code}` : `${a}..${Number((a + width).toFixed(2))} ${code}`;
        expect(formatSource(q(written))).toBe(written);
      }),
    );
  });

  test('a value survives the way into base units and back', () => {
    fc.assert(
      fc.property(fc.constantFrom(...unitCodes()), fc.double({ min: 0.001, max: 1e6, noNaN: true }), (code, value) => {
        const parsed = parseUnit(code === 'm' ? 'm2' : code);
        if (!parsed.ok) throw new Error(code);
        expect(fromBase(toBase(value, parsed.unit), parsed.unit)).toBeCloseTo(value, 6);
      }),
    );
  });
});
