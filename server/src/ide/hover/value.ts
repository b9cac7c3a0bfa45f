import type { Expr, Statement } from '@curette/grammar';
import { propertiesFitting } from '../../analysis/cases/bare-value.ts';
import { valueWords } from '../../analysis/kinds/value-words.ts';
import type { PropertyValue } from '../../analysis/model.ts';
import { spoken, writtenAt } from '../as-written.ts';
import type { Checked, Stretch } from '../checked.ts';
import { capital, code, plainly } from '../markdown.ts';
import type { Bearer } from '../meaning.ts';
import { ownerOf } from '../name-meanings.ts';
import { type Surroundings, surroundingsAt } from '../surroundings.ts';
import { caution, isCautioned } from './caution.ts';
import { numberedTooth, toothWords } from './other-numbers.ts';
import { citationOf, groundWords, propertyLine } from './values.ts';

/**
 * What is told of a value under the cursor that is no name: which property states it, what that may hold, and in a case what the protocol
 * gives.
 */
export function valueHover(
  checked: Checked,
  file: string,
  offset: number,
): (Stretch & { readonly markdown: string }) | undefined {
  const around = surroundingsAt(checked, file, offset);
  const line = around?.path.at(-1);
  if (!around || line?.statement.type !== 'value') return undefined;
  const { statement, start } = line;
  const at = offset - start;
  const value = statement.values.find((one) => one.start <= at && at <= one.end);
  const stated = value && propertyStated(around, statement, value);
  if (!value || !stated) return undefined;
  const { owner, name } = stated;
  const property = owner.kind?.properties.get(name);
  if (!owner.kind || !property) return undefined;
  const written = writtenAt(checked, file, statement.id, value);
  const tooth = numberedTooth(citationOf(checked, property.ground), written);
  const given = around.path[0]?.statement.type === 'case' ? owner.thing?.values.get(name) : undefined;
  const paragraphs = [
    tooth ? `**${plainly(toothWords(tooth, checked.teeth?.() ?? 'iso'))}**` : `**${plainly(written)}**`,
    `${capital(plainly(spoken(name)))} of ${plainly(owner.thing?.label ?? owner.kind.label)}: ${propertyLine(checked, property)}`,
    given ? `The protocol gives ${code(spokenValues(given))}.${groundWords(checked, given.ground)}` : '',
    caution(isCautioned(property, owner.kind)),
  ].filter((paragraph) => paragraph !== '');
  return { file, start: start + value.start, end: start + value.end, markdown: paragraphs.join('\n\n') };
}

/** A line of a case names the thing, and its value the property: the only one that can have it. */
function propertyStated(
  around: Surroundings,
  statement: Extract<Statement, { type: 'value' }>,
  value: Expr,
): { readonly owner: Bearer; readonly name: string } | undefined {
  if (around.path.at(-2)?.statement.type !== 'case') {
    const owner = ownerOf(around);
    return owner && { owner, name: statement.name.text };
  }
  const owner = around.named(statement.name.text);
  const things = owner?.meaning.type === 'thing' ? owner.meaning.facts()?.context.things : undefined;
  const [name, ...others] = owner?.kind && things ? propertiesFitting(around.module, owner.kind, value, things) : [];
  return owner && name !== undefined && others.length === 0 ? { owner, name } : undefined;
}

function spokenValues({ values }: PropertyValue): string {
  return values.map(valueWords).join(', ');
}
