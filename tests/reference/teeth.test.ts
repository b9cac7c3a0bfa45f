/**
 * Teeth in three systems of numbering against published tables.
 * ISO 3950 and universal: the full tables of both dentitions, as a chapter on dentition in a public textbook of dentistry and digests of
 * the systems print them; anchors read beside each other in a published list of both notations: 11 = 8, 21 = 9, 51 = E, 61 = F.
 * Palmer: position from the midline, letters for primary teeth, and the corner of the quadrant; from memory.
 */
import { teeth, toothByIso, toothByUniversal } from '@curette/shared';
import { describe, expect, test } from 'vitest';

/** Each row: quadrant as ISO 3950 writes it, then the universal codes from the midline outward. */
const PERMANENT = {
  1: [8, 7, 6, 5, 4, 3, 2, 1],
  2: [9, 10, 11, 12, 13, 14, 15, 16],
  3: [24, 23, 22, 21, 20, 19, 18, 17],
  4: [25, 26, 27, 28, 29, 30, 31, 32],
};
const PRIMARY = { 5: 'EDCBA', 6: 'FGHIJ', 7: 'ONMLK', 8: 'PQRST' };

const table = [...Object.entries(PERMANENT), ...Object.entries(PRIMARY)].flatMap(([quadrant, codes]) =>
  [...codes].map((code, i) => [`${quadrant}${i + 1}`, String(code)] as const),
);

test('the table holds 32 permanent and 20 primary teeth', () => {
  expect(table).toHaveLength(52);
  expect(teeth.map(({ iso }) => iso)).toEqual(table.map(([iso]) => iso));
  expect(teeth.filter(({ primary }) => primary)).toHaveLength(20);
});

test.each(table)('%s is universal %s, and back', (iso, universal) => {
  expect(toothByIso(iso)?.universal).toBe(universal);
  expect(toothByUniversal(universal)?.iso).toBe(iso);
});

test.each([
  ['11', '8'],
  ['21', '9'],
  ['51', 'E'],
  ['61', 'F'],
  // Named confusion: universal 3 is 16, and 13 is universal 6.
  ['16', '3'],
  ['13', '6'],
])('published anchor: %s = %s', (iso, universal) => {
  expect(toothByIso(iso)?.universal).toBe(universal);
});

describe('codes that both permanent systems know', () => {
  const both = teeth.filter(({ iso, primary }) => !primary && toothByUniversal(iso)).map(({ iso }) => iso);
  test('are 18: 11 to 18, 21 to 28, 31 and 32', () => {
    expect(both).toEqual([...codes(1), ...codes(2), '31', '32']);
  });
  test('never mean the same tooth', () => {
    expect(both.filter((code) => toothByUniversal(code)?.iso === code)).toEqual([]);
  });
});

test('no code stands twice', () => {
  for (const names of [
    teeth.map(({ iso }) => iso),
    teeth.map(({ universal }) => universal),
    teeth.map(({ palmer }) => palmer),
  ])
    expect(new Set(names).size).toBe(52);
});

test.each([
  ['16', '6┘', 'upper right'],
  ['21', '└1', 'upper left'],
  ['38', '┌8', 'lower left'],
  ['45', '5┐', 'lower right'],
  ['55', 'E┘', 'upper right'],
  ['61', '└A', 'upper left'],
  ['74', '┌D', 'lower left'],
  ['85', 'E┐', 'lower right'],
])('%s is %s in Palmer, %s', (iso, palmer, quadrant) => {
  expect(toothByIso(iso)).toMatchObject({ palmer, quadrant });
});

test.each(['00', '01', '10', '19', '20', '49', '56', '58', '86', '90', '1', '111', 'A', ''])(
  '%s is no tooth',
  (code) => {
    expect(toothByIso(code)).toBeUndefined();
  },
);

test.each(['0', '33', 'U', 'a', '51', ''])('%s is no tooth of the universal system', (code) => {
  expect(toothByUniversal(code)).toBeUndefined();
});

function codes(quadrant: number): string[] {
  return [1, 2, 3, 4, 5, 6, 7, 8].map((position) => `${quadrant}${position}`);
}
