import type { Contraindication, FigureGap, Ground, Kind, Property, PropertyValue } from '../../analysis/model.ts';
import { spoken, writtenAt } from '../as-written.ts';
import type { Checked } from '../checked.ts';
import { capital, code, plainly } from '../markdown.ts';
import { statedWords } from './other-numbers.ts';

/** ` (source: …)`, or nothing */
export function groundWords(checked: Checked, ground: Ground): string {
  const because = ground.because === undefined ? '' : ` ${plainly(ground.because)}.`;
  const cited = citationOf(checked, ground);
  return `${because}${cited === undefined ? '' : ` (${plainly(cited)})`}`;
}

export function citationOf(checked: Checked, ground: Ground): string | undefined {
  return checked.modules().module(ground.place.file)?.citation(ground.source)?.citation;
}

/** A list of what is stated of a thing of a kind, with what each rests on. */
export function valueList(checked: Checked, values: Iterable<PropertyValue>, kind?: Kind): string {
  return [...values]
    .map((value) => {
      const property = kind?.properties.get(value.name);
      const stated = statedWords(property && citationOf(checked, property.ground), value, checked.teeth?.());
      return `- ${plainly(spoken(value.name))}: ${stated}${groundWords(checked, value.ground)}${setWords(value)}`;
    })
    .join('\n');
}

/** `, ceilings: …` where the value comes from a set of figures */
export function setWords({ set }: PropertyValue): string {
  return set ? `, ${plainly(spoken(set.group))}: ${plainly(set.label)}` : '';
}

/** What comes from a set of figures and is not known. */
export function gapWords(gaps: Iterable<FigureGap>): string {
  return [...gaps]
    .map(({ property, group, why, set }) => {
      const reason =
        why === 'silent' && set
          ? `not stated by "${plainly(set.label)}", the set of ${plainly(spoken(group))} that is applied`
          : why === 'none applied'
            ? `from a set of ${plainly(spoken(group))}, and none is applied`
            : `from a set of ${plainly(spoken(group))}`;
      return `- ${plainly(spoken(property))}: ${reason}`;
    })
    .join('\n');
}

/** A property as it is declared: `soak : time range`. */
export function propertyLine(checked: Checked, property: Property): string {
  const { file, statement, span } = property.ground.place;
  return code(writtenAt(checked, file, statement, span).replace(/\s(?:source|because)\s.*$/, ''));
}

export function contraindicationList(checked: Checked, all: readonly Contraindication[]): string {
  const listed = (words: string, list: readonly Contraindication[]) => {
    if (list.length === 0) return [];
    const lines = list.map(({ condition, ground }) => {
      const { file, statement } = ground.place;
      return `- ${plainly(writtenAt(checked, file, statement, condition).replaceAll('_', ' '))}.${groundWords(checked, ground)}`;
    });
    return `${capital(words)}\n${lines.join('\n')}`;
  };
  return [
    listed(
      'contraindicated when',
      all.filter(({ strictly }) => strictly),
    ),
    listed(
      'caution when',
      all.filter(({ strictly }) => !strictly),
    ),
  ]
    .flat()
    .join('\n\n');
}
