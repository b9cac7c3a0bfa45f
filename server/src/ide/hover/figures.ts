import { listWords } from '../../problems/words.ts';
import { spoken } from '../as-written.ts';
import type { Checked } from '../checked.ts';
import { code, plainly } from '../markdown.ts';
import type { Meaning } from '../meaning.ts';
import { caution } from './caution.ts';
import { valueList } from './values.ts';

/** Whose figures a set has, whether it counts here, and what it states; which set that is goes without saying. */
export function figuresHover(checked: Checked, { set, applied }: Extract<Meaning, { type: 'figures' }>): string[] {
  const lines = [...set.lines.values()].map(
    ({ statement, values }) =>
      `**${plainly(spoken(statement.name.text))}**\n${valueList(
        checked,
        [...values.values()].map((value) => ({ ...value, set: undefined })),
      )}`,
  );
  return [
    `**${plainly(set.label)}** ${code(set.name)}, a set of ${plainly(spoken(set.group))}`,
    plainly(set.statement.doc ?? ''),
    APPLIED[applied],
    ...lines,
    caution(true),
  ];
}

const APPLIED = {
  yes: 'Applied here.',
  no: 'Not applied here.',
  'one of two': 'Applied here, and so is another set: neither counts.',
} as const;

/** The sets of a group, and which of them counts here. */
export function groupHover({ group, sets }: Extract<Meaning, { type: 'figure group' }>): string[] {
  const applied = sets.filter((one) => one.applied).map(({ set }) => `"${plainly(set.label)}"`);
  return [
    `**${plainly(spoken(group))}**: a group of sets of figures, of which one is applied`,
    sets.map(({ set }) => `- ${code(set.name)} ${plainly(set.label)}`).join('\n'),
    applied.length > 0 ? `Applied here: ${listWords(applied, 'and')}.` : 'None is applied here.',
    caution(true),
  ];
}
