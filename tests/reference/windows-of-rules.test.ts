/**
 * Figures that stand in rules of the library alone, against where they came from. `from memory` is a fact of the trade that was not
 * found in a source that could be read, and is marked so in the library as well.
 */
import { expect, test } from 'vitest';
import { declared } from './library-values.ts';

test.each([
  // A scan at four weeks shows graft; 3 months and more are usual before a plan, from memory.
  ['std/grafting', 'grafted_bone_is_planned_on_when_it_is_bone', 'between', /at least 3 mo$/, /from memory/],
  // 4 mm round a horny lesion that is cut out, from memory.
  ['std/skin', 'horny_lesion_takes_a_wider_margin', 'expect', /^outline >= 4 mm$/, /4 mm, from memory/],
  // Widths in which drills are usually made: common practice, no published source.
  ['std/implants', 'pilot_drill_is_narrow', 'expect', /<= 2\.3 mm$/, /common practice/],
  ['std/implants', 'widening_drill_follows_the_pilot', 'expect', /> 2\.3 mm and .* <= 3\.2 mm$/, /as usually made/],
  ['std/implants', 'second_drill_follows_the_first', 'expect', /> 3\.2 mm and .* <= 4 mm$/, /as usually made/],
] as const)('%s: %s', (file, name, line, figure, said) => {
  const rule = declared(file, `rule ${name}`);
  expect(rule.lines.get(line)).toEqual([expect.stringMatching(figure)]);
  expect(rule.doc).toMatch(said);
});

test('widths that no publication gives name none as their source', () => {
  for (const name of ['pilot_drill_is_narrow', 'widening_drill_follows_the_pilot', 'second_drill_follows_the_first'])
    expect(declared('std/implants', `rule ${name}`).lines.get('source')).toEqual(['common_practice']);
});
