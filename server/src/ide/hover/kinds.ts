import { formatQuantity } from '@curette/shared';
import { figuresOf } from '../../analysis/kinds/applied.ts';
import type { Duty, Entry, Kind, Track } from '../../analysis/model.ts';
import { listWords } from '../../problems/words.ts';
import { spoken, writtenAt } from '../as-written.ts';
import type { Checked } from '../checked.ts';
import { capital, code, plainly } from '../markdown.ts';
import type { Meaning } from '../meaning.ts';
import type { Surroundings } from '../surroundings.ts';
import { caution, isCautioned, needsCaution } from './caution.ts';
import { statedWords } from './other-numbers.ts';
import {
  citationOf,
  contraindicationList,
  gapWords,
  groundWords,
  propertyLine,
  setWords,
  valueList,
} from './values.ts';

export function kindHover(checked: Checked, kind: Kind): string[] {
  const parent = kind.parent ? `, a kind of ${plainly(kind.parent.label)}` : '';
  const properties = [...kind.properties.values()].map((property) => `- ${propertyLine(checked, property)}`).join('\n');
  return [
    `**${plainly(kind.label)}** ${code(kind.name)}${parent}`,
    plainly(kind.statement.doc ?? ''),
    properties,
    stateLines(kind),
    dutyLines(checked, kind),
    contraindicationList(checked, kind.contraindications),
    caution(needsCaution(kind, kind.contraindications.length)),
  ];
}

export function entryHover(checked: Checked, { module }: Surroundings, entry: Entry): string[] {
  const { kind } = entry;
  const figures = figuresOf(module, kind, entry);
  return [
    `**${plainly(entry.label)}** ${code(entry.name)}, ${plainly(kind.label)}`,
    plainly(entry.statement.doc ?? kind.statement.doc ?? ''),
    valueList(checked, [...entry.values.values(), ...figures.values.values()]),
    gapWords(figures.gaps.values()),
    dutyLines(checked, kind),
    contraindicationList(checked, entry.contraindications),
    caution(needsCaution(kind, entry.contraindications.length)),
  ];
}

export function propertyHover(checked: Checked, meaning: Extract<Meaning, { type: 'property' }>): string[] {
  const { property, value, of, kind } = meaning;
  const stated = value
    ? `${capital(plainly(of))}: ${statedWords(citationOf(checked, property.ground), value, checked.teeth?.())}${groundWords(checked, value.ground)}${setWords(value)}`
    : '';
  const within = property.within
    ? `Taken for a slip outside ${plainly(formatQuantity(property.within))}.${groundWords(checked, property.ground)}`
    : '';
  return [
    `**${plainly(spoken(property.name))}** of ${plainly(kind.label)}: ${propertyLine(checked, property)}`,
    stated,
    within,
    caution(isCautioned(property, kind)),
  ];
}

export function stateHover(checked: Checked, kind: Kind, track: Track, state: string): string[] {
  const from = [...track.moves].filter(([, to]) => to.has(state)).map(([name]) => spoken(name));
  const to = [...(track.moves.get(state) ?? [])].map(spoken);
  return [
    `**${plainly(spoken(state))}**: a state of ${plainly(kind.label)}${track.initial === state ? ', the one it begins in' : ''}`,
    from.length > 0 ? `Comes after ${plainly(listWords(from))}.` : '',
    to.length > 0 ? `May become ${plainly(listWords(to))}.` : '',
    ...kind.ages
      .filter((age) => age.state === state)
      .map(({ atMost, then, ground }) => {
        const { file, statement } = ground.place;
        const written = spoken(writtenAt(checked, file, statement, atMost));
        // `soak.longest` is the longest soak.
        const limit = plainly(written.replace(/^([\p{L}\d ]+)\.(longest|shortest)$/u, 'the $2 $1'));
        return `Lasts at most ${limit}${then === undefined ? '' : `, then ${plainly(spoken(then))}`}.${groundWords(checked, ground)}`;
      }),
    kind.duties.some((duty) => duty.states.includes(state)) ? dutyLines(checked, kind) : '',
  ];
}

/** What a thing must be left in. */
export function dutyLines(checked: Checked, kind: Kind): string {
  return kind.duties
    .map(
      (duty) =>
        `Must end ${plainly(listWords(duty.states.map(spoken)))} ${due(duty)}.${groundWords(checked, duty.ground)}`,
    )
    .join('\n\n');
}

function due(duty: Duty): string {
  return duty.by === 'pause' ? `before the pause ${plainly(spoken(duty.pause ?? ''))}` : `by ${duty.by}`;
}

function stateLines(kind: Kind): string {
  if (kind.tracks.length === 0) return '';
  return `States: ${kind.tracks.map((track) => plainly([...track.states].map(spoken).join(', '))).join('; ')}`;
}
