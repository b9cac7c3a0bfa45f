/** A tooth's number as the other systems write it. */
import { expect, test } from 'vitest';
import { hoverAt } from '../../support/editor.ts';

const protocol = (given: string, step: string) => `use std/perioperative
use std/oral
protocol p "P" {
  given { patient : patient, ${given}, hollow : socket { tooth site } }
  team { surgeon }
  instruments { spoon_curette }
  visit v "V" { ${step} }
}
`;

test('stands beside it where the number is written', () => {
  expect(hoverAt(protocol('site : tooth { num$0ber 16 }', ''))).toContain('16 (universal 3, Palmer 6┘ upper right)');
});

test('stands beside it where the tooth is used', () => {
  expect(hoverAt(protocol('site : tooth { number 85 }', 'assemble si$0te'))).toContain(
    'number: 85 (universal T, Palmer E┐ lower right)',
  );
});

test('is not made up for what is no tooth, nor for another number', () => {
  expect(hoverAt(protocol('site : tooth { num$0ber 19 }', ''))).not.toContain('universal');
  expect(hoverAt(protocol('site : tooth, crew : patient { clotting_rat$0io 16 }', ''))).not.toContain('universal');
});
