/** What an amount comes to, by what the thing says of itself; a tooth in the numbering of whoever reads. */
import { completion, hover } from '@curette/server';
import { describe, expect, test } from 'vitest';
import { hoverAt, namesAt, offeredAt } from '../../support/editor.ts';
import { readFixture, workspaceOf } from '../../support/fixture.ts';

const text = (materials: string, line: string) => `//- main.curette
use std/perioperative
use std/oral
use std/anaesthesia

anaesthetic own "Own solution" {
  concentration 40 mg/mL source common_practice
  cartridge     1.7 mL source common_practice
}
protocol p "P" {
  given { patient : patient, site : tooth { number 14 } }
  team { surgeon }
  materials { numbing : own ${materials} }
  visit v "V" { ${line} }
}
`;

describe('an amount', () => {
  test('of pieces is what they hold, and what that holds', () => {
    const told = hoverAt(text('2 cart$0ridges', ''));
    expect(told).toContain('2 cartridges is 3.4 mL (cartridge 1.7 mL)');
    expect(told).toContain('2 cartridges is 136 mg (concentration 40 mg/mL)');
  });

  test('of a solution is so many pieces and so much of what is dissolved', () => {
    const told = hoverAt(text('2 cartridges', 'inject numbing 1.7 m$0L at site'));
    expect(told).toContain('1.7 mL is 1 cartridge (cartridge 1.7 mL)');
    expect(told).toContain('1.7 mL is 68 mg (concentration 40 mg/mL)');
    expect(told).toContain('Local codes, product labelling and licensed practice come first.');
  });

  test('from a least to a most is so, too', () => {
    expect(hoverAt(text('2 cartridges', 'inject numbing 1..2 m$0L at site'))).toContain('1–2 mL is 40–80 mg');
  });

  test('of something that states neither is turned into nothing', () => {
    const bare = text('2 cart$0ridges', '').replace(/ {2}con.*\n {2}cart.*\n/, '');
    expect(hoverAt(bare)).not.toContain(' is 3.4 mL');
  });
});

test('what a thing comes in stands behind the most usual unit of it', () => {
  expect(namesAt(text('2 cartridges', 'inject numbing 1.7 $0')).slice(0, 2)).toEqual(['mL', 'cartridges']);
});

test('a reason is written with its source', () => {
  const reason = offeredAt(text('2 cartridges', 'inject numbing 1.7 mL at site because $0\n'), 'common_practice');
  expect(reason.writes).toBe('"[The reason]" source common_practice');
});

test.each([
  ['iso', '14 (universal 5, Palmer 4┘ upper right)'],
  ['universal', 'universal 5 (ISO 14, Palmer 4┘ upper right)'],
  ['palmer', 'Palmer 4┘ upper right (ISO 14, universal 5)'],
] as const)('a tooth by %s first', (teeth, words) => {
  const fixture = readFixture(text('2 cartridges', ''));
  const checked = { ...workspaceOf(fixture), teeth: () => teeth };
  const main = fixture.files[0]?.text ?? '';
  expect(hover(checked, 'main.curette', main.indexOf('number 14') + 1)?.markdown).toContain(words);
  expect(hover(checked, 'main.curette', main.indexOf('site : tooth') + 1)?.markdown).toContain(words);
  const { items } = completion(checked, 'main.curette', main.indexOf('number 14') + 7, () => []);
  expect(items.find(({ label }) => label === '14')?.detail).toBe(words);
});
