import { declareUnit, dimension, dimensionNames, exactly, parseUnit, unitsOf } from '@curette/shared';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { declared, q } from './written.ts';

describe('everyday spellings', () => {
  test.each([
    ['rpm', '/min'],
    ['min-1', '/min'],
    ['min⁻¹', '/min'],
    ['{rev}/min', '/min'],
    ['Ncm', 'N.cm'],
    ['N·cm', 'N.cm'],
    ['ml', 'mL'],
    ['µm', 'um'],
    ['μm', 'um'],
    ['microns', 'um'],
    ['mcg', 'ug'],
    ['mcg/ml', 'ug/mL'],
    ['mg/kg/day', 'mg/kg/d'],
    ['°C', 'Cel'],
    ['secs', 's'],
    ['minutes', 'min'],
    ['hrs', 'h'],
    ['days', 'd'],
    ['weeks', 'wk'],
    ['months', 'mo'],
    ['years', 'a'],
    ['lbs', '[lb_av]'],
    ['mmHg', 'mm[Hg]'],
    ['inch', '[in_i]'],
    ['mm²', 'mm2'],
    ['cm^3', 'cm3'],
  ])('"%s" is written "%s"', (everyday, code) => {
    expect(parseUnit(everyday)).toMatchObject({ ok: true, everyday: true, canonical: code });
    const parsed = parseUnit(code);
    expect(parsed.ok && parsed.everyday).toBe(undefined);
  });

  test('"cc" says why it is better not written', () => {
    expect(parseUnit('cc')).toMatchObject({ ok: true, canonical: 'mL', note: expect.stringContaining('nought') });
  });
});

describe('a unit nobody knows', () => {
  test.each([
    ['milimetre', 'mm'],
    ['minuts', 'min'],
    ['KPA', 'kPa'],
    ['MG/mL', 'mg/mL'],
    ['mg/mil', 'mg/mL'],
    ['drosp', 'drop'],
    ['cartrige', 'cartridge'],
    ['Cartridges', 'cartridge'],
  ])('"%s": "%s" is offered', (written, meant) => {
    const refused = parseUnit(written, declared);
    expect(refused.ok).toBe(false);
    if (!refused.ok) expect(refused.suggestions).toContain(meant);
  });

  test.each(['', '/', '(', 'sutures', 'toString', '__proto__', '💉', 'm'.repeat(10_000), '('.repeat(50)])(
    '"%s" gets no wild guess',
    (written) => {
      const refused = parseUnit(written);
      expect(refused.ok).toBe(false);
      if (!refused.ok) expect(refused.suggestions).toEqual([]);
    },
  );

  test('no text is too odd to be answered, and whatever is offered is understood', () => {
    const pieces = fc.constantFrom(...'mgLkKMNcu./()[]{}0123-²·%° '.split(''), 'min', 'mo', 'Cel', 'mL', 'drop');
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(pieces, { maxLength: 10 }).map((p) => p.join('')),
        ),
        (text) => {
          const parsed = parseUnit(text, declared);
          if (parsed.ok) {
            expect(parseUnit(parsed.canonical, declared)).toMatchObject({ ok: true, canonical: parsed.canonical });
            expect(Number.isFinite(parsed.unit.factor) && parsed.unit.factor > 0).toBe(true);
          } else {
            for (const offered of parsed.suggestions) expect(parseUnit(offered, declared).ok, offered).toBe(true);
          }
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe('declared units', () => {
  test('one by its value, one by counting', () => {
    expect(q('2 drops').range.lo).toBeCloseTo(q('0.1 mL').range.lo);
    expect(q('2 cartridges').dimension.name).toBe('count of cartridge');
    expect(q('1.7 mL/cartridge').dimension.name).toBe('volume per cartridge');
  });

  test('cannot take the name of a unit, or of what looks like one', () => {
    expect(declareUnit(['mg'], 'count')).toBe('already_a_unit');
    expect(declareUnit(['puff', 'mL'], 'count')).toBe('already_a_unit');
    expect(declareUnit(['K'], 'count')).toBe('already_a_unit');
  });

  test('need one value above nought', () => {
    expect(declareUnit(['puff'], q('0.1..0.2 mL'))).toBe('not_one_value');
    expect(declareUnit(['puff'], q('0 mL'))).toBe('not_one_value');
    expect(declareUnit(['puff'], q('at least 1 mL'))).toBe('not_one_value');
    expect(declareUnit(['puff'], q('37 Cel'))).toBe('not_one_value');
  });

  test('are known only where they are declared', () => {
    expect(parseUnit('drop').ok).toBe(false);
    expect(parseUnit('drop', declared).ok).toBe(true);
    expect(parseUnit('drop', new Map()).ok).toBe(false);
  });
});

test('every dimension but a count has a usual unit, of that dimension', () => {
  for (const name of dimensionNames) {
    const units = unitsOf(dimension(name));
    expect(units.length, name).toBe(name === 'count' ? 0 : Math.max(1, units.length));
    for (const unit of units) expect(exactly(1, unit).dimension, unit.canonical).toBe(dimension(name));
  }
});
