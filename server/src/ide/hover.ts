import type { FileId } from '../problems/problem.ts';
import { spoken } from './as-written.ts';
import type { Checked, Stretch } from './checked.ts';
import { actionHover, findingHover, pauseHover, protocolHover, ruleHover, sourceHover } from './hover/declarations.ts';
import { figuresHover, groupHover } from './hover/figures.ts';
import { fileHover } from './hover/file.ts';
import { entryHover, kindHover, propertyHover, stateHover } from './hover/kinds.ts';
import { amountLine, conditionLine } from './hover/line.ts';
import { thingHover } from './hover/thing.ts';
import { unitHover } from './hover/unit.ts';
import { valueHover } from './hover/value.ts';
import { waitHover } from './hover/wait.ts';
import { code, plainly } from './markdown.ts';
import { surroundingsAt } from './surroundings.ts';
import { type SymbolAt, symbolAt } from './symbol-at.ts';

/** What is told of the word under the cursor. */
export interface Hover extends Stretch {
  /** paragraphs; every text of a file in it is shown as it is written */
  readonly markdown: string;
}

export function hover(checked: Checked, file: FileId, offset: number): Hover | undefined {
  const word = symbolAt(checked, file, offset);
  const wait = word && !isWaitWord(word) ? undefined : waitAt(checked, file, offset);
  if (wait) return wait;
  const symbol = word ?? unitBehind(checked, file, offset);
  if (!symbol) return valueHover(checked, file, offset);
  const paragraphs = told(checked, symbol).filter((paragraph) => paragraph !== '');
  const { start, end } = symbol;
  return { file, start, end, markdown: paragraphs.join('\n\n') };
}

/** The unit of the number under the cursor, where that is an amount of what is given in doses. */
function unitBehind(checked: Checked, file: FileId, offset: number): SymbolAt | undefined {
  const text = checked.snapshot().file(file)?.text ?? '';
  const behind = /^[\d.]+ ?/.exec(text.slice(offset, offset + 40));
  const symbol = behind ? symbolAt(checked, file, offset + behind[0].length) : undefined;
  if (symbol?.meaning.type !== 'unit' || amountLine(checked, symbol).length === 0) return undefined;
  const before = /[\d.]*$/.exec(text.slice(Math.max(0, offset - 40), offset));
  return { ...symbol, start: offset - (before?.[0].length ?? 0) };
}

/** The word that begins a wait; what else stands in the line is told of itself. */
function isWaitWord({ meaning, around, start }: SymbolAt): boolean {
  const line = around.path.at(-1);
  return meaning.type === 'word' && line?.statement.type === 'wait' && start === line.start + line.statement.head.start;
}

/** What is told of the line of a wait as a whole. */
function waitAt(checked: Checked, file: FileId, offset: number): Hover | undefined {
  const around = surroundingsAt(checked, file, offset);
  const line = around?.path.at(-1);
  if (!around || line?.statement.type !== 'wait') return undefined;
  const start = line.start + line.statement.head.start;
  const end = line.start + line.statement.head.end;
  if (offset < start || offset > end) return undefined;
  const paragraphs = waitHover(checked, around, line.statement).filter((paragraph) => paragraph !== '');
  return paragraphs.length === 0 ? undefined : { file, start, end, markdown: paragraphs.join('\n\n') };
}

function told(checked: Checked, symbol: SymbolAt): readonly string[] {
  const { meaning, around } = symbol;
  switch (meaning.type) {
    case 'thing': {
      const facts = meaning.facts();
      return facts ? thingHover(checked, around, meaning.thing, facts) : [];
    }
    case 'kind':
      return kindHover(checked, meaning.kind);
    case 'entry':
      return entryHover(checked, around, meaning.entry);
    case 'property':
      return propertyHover(checked, meaning);
    case 'state':
      return stateHover(checked, meaning.kind, meaning.track, meaning.state);
    case 'actions':
      return (meaning.chosen ? [meaning.chosen] : meaning.actions).flatMap((action) => actionHover(checked, action));
    case 'rule':
      return ruleHover(checked, meaning.rule);
    case 'source':
      return sourceHover(meaning.name, meaning.source);
    case 'finding':
      return findingHover(meaning.finding);
    case 'finding value':
      return [
        `**${plainly(meaning.finding.values.get(meaning.value) ?? spoken(meaning.value))}**`,
        `A value of ${code(meaning.finding.name)}, ${plainly(meaning.finding.label)}.`,
      ];
    case 'pause':
      return pauseHover(checked, meaning.pause);
    case 'protocol':
      return protocolHover(meaning.declared.statement);
    case 'unit':
      return [...unitHover(meaning.spelling, meaning.unit), ...amountLine(checked, symbol)];
    case 'slot':
      return [
        `**${plainly(spoken(meaning.slot.name))}**: ${meaning.slot.optional ? 'optional, ' : ''}${
          meaning.slot.many ? 'one or more of ' : ''
        }${plainly(spoken(meaning.slot.kindWord))}`,
      ];
    case 'relation value':
      return [
        `**${plainly(spoken(meaning.value))}**`,
        `One of what ${code(`${meaning.kind.name} ${meaning.relation} …`)} may ask about.`,
        ...conditionLine(around, around.path.at(-1)?.statement),
      ];
    case 'figures':
      return figuresHover(checked, meaning);
    case 'figure group':
      return groupHover(meaning);
    case 'file':
      return fileHover(checked, meaning.id);
    case 'word':
      return [
        `**${meaning.word.word}**: ${meaning.word.says}`,
        ...conditionLine(around, around.path.at(-1)?.statement),
      ];
    default:
      return meaning satisfies never;
  }
}
