import {
  add,
  asDifference,
  asNumber,
  type Computed,
  dimension,
  dimensionNamed,
  divide,
  exactly,
  fitTo,
  formatQuantity,
  formatSource,
  greatest,
  inUnit,
  least,
  longest,
  multiply,
  notNegative,
  plainNumber,
  shortest,
  spanning,
  subtract,
} from '@curette/shared';
import { describe, expect, test } from 'vitest';
import { q, unit } from './written.ts';

const shown = (result: Computed): string => (result.ok ? formatQuantity(result.quantity) : result.reason);
const measures = (result: Computed): string => (result.ok ? result.quantity.dimension.name : result.reason);

describe('what a product or quotient measures, and how it is written', () => {
  test.each([
    ['7 mg/kg', '70 kg', '490 mg', 'mass'],
    ['70 kg', '7 mg/kg', '490 mg', 'mass'],
    ['3.2 mg/lb', '100 lb', '320 mg', 'mass'],
    ['5 ug/kg', '70 kg', '350 mcg', 'mass'],
    ['5 ug/kg/min', '70 kg', '350 mcg/min', 'mass per time'],
    ['20 mL/kg', '70 kg', '1400 mL', 'volume'],
    ['20 mg/mL', '1.7 mL', '34 mg', 'mass'],
    ['9 mm', '8..10 mm', '72–90 mm²', 'area'],
    ['9 mm2', '10 mm', '90 mm³', 'volume'],
    ['30 mL/min', '10 min', '300 mL', 'volume'],
    ['2 cartridges', '1.7 mL/cartridge', '3.4 mL', 'volume'],
    ['60 %', '0.5 mL', '0.3 mL', 'volume'],
    ['3', '10 min', '30 min', 'time'],
    ['35 N', '1 cm', '35 N·cm', 'torque'],
    ['15 /min', '2 min', '30 turns', 'count of turn'],
    ['2 drops', '3', '6 drops', 'volume'],
    ['50 %', '50 %', '0.25', 'ratio'],
  ])('%s × %s is %s, a %s', (a, b, product, name) => {
    expect(shown(multiply(q(a), q(b)))).toBe(product);
    expect(measures(multiply(q(a), q(b)))).toBe(name);
  });

  test.each([
    ['490 mg', '7 mg/kg', '70 kg', 'mass'],
    ['34 mg', '20 mg/mL', '1.7 mL', 'volume'],
    ['3.4 mL', '1.7 mL/cartridge', '2 cartridges', 'count of cartridge'],
    ['300 mL', '30 mL/min', '10 min', 'time'],
    ['300 mL', '10 min', '30 mL/min', 'volume per time'],
    ['300 um', '0.6 mm', '0.5', 'ratio'],
    ['5 mg', '4', '1.25 mg', 'mass'],
    ['14 mg/kg', '7 mg/kg', '2', 'ratio'],
  ])('%s ÷ %s is %s, a %s', (a, b, quotient, name) => {
    expect(shown(divide(q(a), q(b)))).toBe(quotient);
    expect(measures(divide(q(a), q(b)))).toBe(name);
  });

  test('a dose per body mass is no ratio, and a torque no energy', () => {
    expect(measures(add(q('7 mg/kg'), q('1 %')))).toBe('dimensions_differ');
    expect(measures(add(q('35 N.cm'), q('0.35 J')))).toBe('dimensions_differ');
  });
});

describe('sums', () => {
  test.each([
    ['10..40 min', '5..15 min', '15–55 min'],
    ['90 min', '1 h', '150 min'],
    ['at least 10 min', '5 min', 'at least 15 min'],
    ['over 10 min', '5 min', 'over 15 min'],
    ['0.1 mL', '0.2 mL', '0.3 mL'],
    ['1 drop', '0.05 mL', '2 drops'],
    ['2 cartridges', '1 cartridge', '3 cartridges'],
    ['2 cartridges', '1', '3 cartridges'],
    ['2 cartridges', '4 increments', 'dimensions_differ'],
    ['2 cartridges', '1.7 mL', 'dimensions_differ'],
    ['4 mo', '2 wk', 'dimensions_differ'],
    ['4 mo', '1 a', '16 months'],
    ['10 min', '2', 'dimensions_differ'],
  ])('%s + %s is %s', (a, b, sum) => {
    expect(shown(add(q(a), q(b)))).toBe(sum);
  });

  test('a difference that cancels is nought, not what rounding left over', () => {
    const left = subtract(q('0.3 mm'), q('300 um'));
    expect(left.ok && left.quantity.range).toEqual({ lo: 0, hi: 0 });
  });

  test('a range less a range takes the far ends', () => {
    expect(shown(subtract(q('10..40 min'), q('5..15 min')))).toBe('-5 to 35 min');
  });

  test('two readings of a thermometer differ by a rise, and do not add', () => {
    expect(measures(subtract(q('47 Cel'), q('37 Cel')))).toBe('temperature difference');
    expect(shown(subtract(q('47 Cel'), q('37 Cel')))).toBe('10 °C');
    expect(shown(add(q('37 Cel'), asDifference(q('10 Cel'))))).toBe('47 °C');
    expect(shown(add(asDifference(q('18 [degF]')), q('37 Cel')))).toBe('47 °C');
    expect(shown(add(q('37 Cel'), q('10 Cel')))).toBe('thermometer_reading');
    expect(shown(multiply(q('37 Cel'), q('2')))).toBe('thermometer_reading');
    expect(shown(subtract(asDifference(q('10 Cel')), q('37 Cel')))).toBe('thermometer_reading');
    expect(shown(add(q('37 Cel'), q('10 min')))).toBe('dimensions_differ');
  });
});

describe('the lesser and the greater', () => {
  test('of two ranges, whichever that turns out to be', () => {
    expect(shown(least(q('10..40 min'), q('20..30 min')))).toBe('10–30 min');
    expect(shown(greatest(q('10..40 min'), q('20..30 min')))).toBe('20–40 min');
    expect(shown(least(q('at least 300 mg'), q('0.5 g')))).toBe('300–500 mg');
    expect(shown(greatest(q('over 300 mg'), q('300 mg')))).toBe('over 300 mg');
    expect(shown(least(q('over 300 mg'), q('300 mg')))).toBe('300 mg');
    expect(shown(least(q('500 mg'), q('7 mg/kg')))).toBe('dimensions_differ');
  });
});

describe('a divisor that may be nought', () => {
  test('is said, and the quotient is bounded only where it is', () => {
    const quotient = divide(q('1 mL'), q('0..2 min'));
    expect(quotient).toMatchObject({ ok: true, divisorMayBeZero: true });
    expect(shown(quotient)).toBe('at least 0.5 mL/min');
    const bothSigns = divide(q('1 mL'), q('-1..2 min'));
    expect(bothSigns).toMatchObject({ ok: true, divisorMayBeZero: true });
    expect(shown(bothSigns)).toBe('any amount');
  });

  test('is not said when nought is only approached', () => {
    expect(divide(q('1 mL'), q('over 0 min'))).not.toHaveProperty('divisorMayBeZero');
  });

  test('and one that is nought for certain has no quotient', () => {
    expect(divide(q('1 mL'), q('0 min'))).toMatchObject({ ok: false, reason: 'divided_by_zero' });
  });
});

describe('reading and fitting', () => {
  test('a range may have ends in different units', () => {
    const both = spanning(q('30 min'), q('2 h'));
    expect(both && formatSource(both)).toBe('30..120 min');
    expect(spanning(q('3 h'), q('2 min'))).toBeUndefined();
    expect(spanning(q('30 min'), q('2 mL'))).toBeUndefined();
  });

  test('the ends of a range, where something bounds it', () => {
    const soak = q('10..60 min');
    expect([shortest(soak), longest(soak)].map((end) => end && formatSource(end))).toEqual(['10 min', '60 min']);
    expect(longest(q('at least 10 min'))).toBeUndefined();
    expect(shortest(q('at most 10 min'))).toBeUndefined();
  });

  test('a bare number fits a ratio or a count, a reading fits a difference, nothing else fits', () => {
    const fitted = (written: string, name: Parameters<typeof dimension>[0]): string | undefined =>
      fitTo(q(written), dimension(name))?.dimension.name;
    expect(fitted('0.5', 'ratio')).toBe('ratio');
    expect(fitted('4', 'count')).toBe('count');
    expect(fitted('2 cartridges', 'count')).toBe('count of cartridge');
    expect(fitted('10 Cel', 'temperature difference')).toBe('temperature difference');
    expect(fitted('10 Cel', 'temperature')).toBe('temperature');
    expect(fitted('4', 'length')).toBeUndefined();
    expect(fitted('50 %', 'count')).toBeUndefined();
    expect(fitted('7 mg/kg', 'ratio')).toBeUndefined();
    expect(fitted('3 mo', 'time')).toBeUndefined();
  });

  test('a dimension is found by the name the language gives it', () => {
    expect(dimensionNamed('dose per body mass')).toBe(q('7 mg/kg').dimension);
    expect(dimensionNamed('rotational speed')).toBe(q('800 rpm').dimension);
    expect(dimensionNamed('toString')).toBeUndefined();
  });

  test('a count without its noun is a number', () => {
    expect(asNumber(q('2 cartridges'))).toEqual(plainNumber(2));
    expect(shown(multiply(asNumber(q('2 cartridges')), q('1.7 mL')))).toBe('3.4 mL');
    expect(asNumber(q('2 mL'))).toEqual(q('2 mL'));
  });

  test('the same amount in another unit', () => {
    const converted = inUnit(q('0.25..1 mm'), unit('um'));
    expect(converted && formatSource(converted)).toBe('250..1000 um');
    expect(inUnit(q('1 mm'), unit('min'))).toBeUndefined();
  });

  test('what cannot be less than nought starts there', () => {
    expect(notNegative(q('at most 35 N.cm'))?.range.lo).toBe(0);
    expect(notNegative(q('under 35 N.cm'))?.range.openHi).toBe(true);
    expect(notNegative(exactly(-1, unit('mm')))).toBeUndefined();
  });
});
