/**
 * The tooth numbers of `kind tooth` against the outside.
 * Source: ISO 3950, Dentistry: designation system for teeth and areas of the oral cavity. Two digits, quadrant then
 * position from the midline; permanent quadrants 1 to 4 with positions 1 to 8, primary quadrants 5 to 8 with positions
 * 1 to 5. Anchors, read beside it in a published table of both notations: 11, 21, 51, 61 are the central incisors beside
 * the upper midline (universal 8, 9, E, F).
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { forEachStatement, parse } from '@curette/grammar';
import { expect, test } from 'vitest';

const permanent = codes([1, 2, 3, 4], 8);
const primary = codes([5, 6, 7, 8], 5);

test('the table has 32 permanent and 20 primary teeth, the anchors among them', () => {
  expect(permanent).toHaveLength(32);
  expect(primary).toHaveLength(20);
  expect(permanent).toEqual(expect.arrayContaining(['11', '21', '48']));
  expect(primary).toEqual(expect.arrayContaining(['51', '61', '85']));
  expect(new Set([...permanent, ...primary]).size).toBe(52);
});

test('a tooth of the library has exactly the numbers of the table', () => {
  expect([...declaredNumbers()].sort()).toEqual([...permanent, ...primary].sort());
});

test.each(['10', '19', '20', '29', '30', '39', '40', '49', '50', '56', '58', '66', '86', '91', '00', '1', '32A'])(
  '%s is no tooth',
  (code) => {
    expect(declaredNumbers()).not.toContain(code);
  },
);

function codes(quadrants: readonly number[], positions: number): string[] {
  return quadrants.flatMap((quadrant) => Array.from({ length: positions }, (_, i) => `${quadrant}${i + 1}`));
}

/** What `number : one of …` in `kind tooth` allows, as written in the shipped library. */
function declaredNumbers(): string[] {
  const text = readFileSync(join(import.meta.dirname, '../../shared/library/oral.curette'), 'utf8');
  const declared: string[] = [];
  forEachStatement(parse(text), (statement, _start, parents) => {
    const kind = parents.at(-1)?.statement;
    if (kind?.type !== 'kind' || kind.name?.text !== 'tooth') return;
    if (statement.type !== 'property' || statement.name.text !== 'number') return;
    if (statement.value?.form === 'one of') declared.push(...statement.value.values.map(({ text }) => text));
  });
  return declared;
}
