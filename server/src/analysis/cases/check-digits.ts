import { readDate } from '../calendar/date.ts';

/** Whether three groups of figures can be a day, whichever comes first; a year of two figures is taken as one of this or the last century. */
export function isDay(written: string): boolean {
  const parts = written.split(/\D/).filter((part) => part !== '');
  const [a, b, c] = parts;
  if (a === undefined || b === undefined || c === undefined) return false;
  const orders =
    a.length === 4
      ? [[a, b, c]]
      : [
          [c, b, a],
          [c, a, b],
        ];
  return orders.some(([year = '', month = '', day = '']) => {
    const full = year.length === 4 ? [year] : [`19${year}`, `20${year}`];
    return full.some((one) => readDate(`${one}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`) !== undefined);
  });
}

/**
 * Whether ten figures end in their own check digit as the British health number does: the weights 10 to 2 over the first nine, modulo 11
 * (NHS Data Dictionary, "NHS Number"; from memory).
 */
export function isHealthNumber(written: string): boolean {
  const digits = [...written.replace(/\D/g, '')].map(Number);
  const last = digits.at(9);
  if (digits.length !== 10 || last === undefined) return false;
  const sum = digits.slice(0, 9).reduce((total, digit, i) => total + digit * (10 - i), 0);
  return (11 - (sum % 11)) % 11 === last;
}
