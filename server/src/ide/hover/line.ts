import type { Statement } from '@curette/grammar';
import type { PropertyValue } from '../../analysis/model.ts';
import type { Checked } from '../checked.ts';
import { plainly } from '../markdown.ts';
import type { Meaning } from '../meaning.ts';
import { referencesIn } from '../meant-words.ts';
import type { Surroundings } from '../surroundings.ts';
import type { SymbolAt } from '../symbol-at.ts';
import { caution, isCautioned, needsCaution } from './caution.ts';
import { amountBefore, conversions } from './conversions.ts';
import { groundWords, valueList } from './values.ts';

/** What a line about whom something is not for rests on, and what comes before it. */
export function conditionLine({ module }: Surroundings, statement: Statement | undefined): string[] {
  if (statement?.type !== 'exclude' && statement?.type !== 'caution' && statement?.type !== 'contraindicated')
    return [];
  const source = module.citation(statement.source?.text)?.citation;
  return [
    statement.because ? `Why: ${plainly(statement.because.value)}` : '',
    source === undefined ? 'No source is named.' : `Source: ${plainly(source)}`,
    caution(true),
  ];
}

/** What an amount is an amount of, where that is given in doses: what is stated of it, and what each figure rests on. */
export function amountLine(checked: Checked, { around, start, meaning: unit }: SymbolAt): string[] {
  const from = around.path.at(-1)?.start ?? 0;
  const before = referencesIn(around)
    .filter((word) => from + word.end <= start)
    .map(({ meaning }) => meaning())
    .filter((meaning) => meaning !== undefined);
  const of = before.findLast((meaning) => isGiven(meaning) || meaning.type === 'property');
  if (!of) return [];
  const amount =
    unit.type === 'unit' ? amountBefore(around.file.text.slice(Math.max(0, start - 40), start), unit.unit) : undefined;
  const comesTo = (values: ReadonlyMap<string, PropertyValue>) =>
    amount ? conversions(amount, values, around.module.units()).join('\n') : '';
  switch (of.type) {
    case 'thing':
      return [
        `Of **${plainly(of.thing.name)}**, ${plainly(of.thing.entry?.label ?? of.thing.kind.label)}:`,
        comesTo(of.thing.values),
        valueList(checked, of.thing.values.values(), of.thing.kind),
        caution(true),
      ];
    case 'entry':
      return [
        `Of ${plainly(of.entry.label)}:`,
        comesTo(of.entry.values),
        valueList(checked, of.entry.values.values(), of.entry.kind),
        caution(true),
      ];
    case 'property': {
      if (!isCautioned(of.property, of.kind)) return [];
      const ground = groundWords(checked, of.value?.ground ?? of.property.ground).trim();
      return [ground, caution(true)];
    }
    default:
      return [];
  }
}

function isGiven(meaning: Meaning): boolean {
  if (meaning.type === 'thing') return needsCaution(meaning.thing.kind, 0);
  return meaning.type === 'entry' && needsCaution(meaning.entry.kind, 0);
}
