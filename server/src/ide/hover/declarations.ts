import type { ProtocolStatement, Statement } from '@curette/grammar';
import { isOfDoses, takeDosed } from '../../analysis/kinds/dosed.ts';
import type { Action, Finding, Pause, Procedure, Rule, Source } from '../../analysis/model.ts';
import { readingOf, spoken, spokenOut, writtenAt } from '../as-written.ts';
import type { Checked } from '../checked.ts';
import { capital, code, plainly } from '../markdown.ts';
import { caution } from './caution.ts';

/** How the action reads, what it needs, makes and uses up, how long it takes and who may do it. */
export function actionHover(checked: Checked, action: Action | Procedure): string[] {
  const { statement, file } = action;
  const lines = (statement.body?.items ?? []).flatMap((item) => {
    if (action.type === 'procedure')
      return `- ${plainly(spokenOut(writtenAt(checked, file, item.id, item.head), action.slots))}`;
    switch (item.type) {
      case 'needs':
      case 'makes':
      case 'uses up':
      case 'takes':
      case 'by':
      case 'contraindicated':
      case 'caution':
        return `- ${plainly(spokenOut(headOf(checked, file, item), action.slots))}${sourceOf(checked, file, item)}`;
      default:
        return [];
    }
  });
  const source = action.type === 'action' ? cited(checked, file, action.ground.source) : undefined;
  return [
    `**${plainly(readingOf(action))}**`,
    plainly(statement.doc ?? ''),
    lines.join('\n'),
    source ? `Source: ${plainly(source)}` : '',
    caution(takeDosed(action.slots) || (action.type === 'action' && action.contraindications.length > 0)),
  ];
}

export function ruleHover(checked: Checked, rule: Rule): string[] {
  const lines = (rule.statement.body?.items ?? []).flatMap((item) => {
    switch (item.type) {
      case 'whenever':
      case 'expect':
      case 'between':
      case 'for each':
      case 'order':
      case 'count':
      case 'pause rule':
      case 'every':
        return `- ${code(writtenAt(checked, rule.file, item.id, item.head))}`;
      default:
        return [];
    }
  });
  const source = cited(checked, rule.file, rule.source);
  return [
    `**${plainly(rule.label)}** ${code(rule.name)}, ${rule.severity}`,
    plainly(rule.statement.doc ?? ''),
    rule.why === undefined ? '' : `Why: ${plainly(rule.why)}`,
    source === undefined ? '' : `Source: ${plainly(source)}`,
    lines.join('\n'),
    rule.replaces === undefined ? '' : `Stands in for ${code(rule.replaces)}.`,
    caution(isOfDoses(rule)),
  ];
}

export function sourceHover(name: string, source: Source | undefined): string[] {
  if (!source) return [`**${plainly(spoken(name))}**: no published source`];
  const strength = (source.statement.body?.items ?? []).flatMap((item) =>
    item.type === 'value' && item.name.text === 'strength' && item.values[0]?.type === 'path'
      ? item.values[0].names.map((part) => spoken(part.text))
      : [],
  );
  return [
    plainly(source.citation),
    plainly(source.statement.doc ?? ''),
    strength.length > 0 ? `Strength: ${plainly(strength.join(' '))}` : '',
  ];
}

export function findingHover(finding: Finding): string[] {
  return [
    `**${plainly(finding.label)}** ${code(finding.name)}`,
    plainly(finding.statement.doc ?? ''),
    [...finding.values].map(([value, label]) => `- ${code(value)} ${plainly(label)}`).join('\n'),
  ];
}

export function pauseHover(checked: Checked, pause: Pause): string[] {
  const takes = (pause.statement.body?.items ?? []).flatMap((item) =>
    item.type === 'takes' ? capital(headOf(checked, pause.file, item)) : [],
  );
  const source = cited(checked, pause.file, pause.source);
  return [
    `**${plainly(pause.label)}** ${code(pause.name)}`,
    plainly(pause.statement.doc ?? ''),
    pause.items.map((item) => `- ${plainly(item)}`).join('\n'),
    plainly([...takes, pause.by.length > 0 ? `by ${pause.by.map(spoken).join(', ')}` : ''].filter(Boolean).join(', ')),
    source === undefined ? '' : `Source: ${plainly(source)}`,
  ];
}

export function protocolHover(statement: ProtocolStatement): string[] {
  const items = statement.body?.items ?? [];
  const facts = items.flatMap((item) => {
    switch (item.type) {
      case 'version':
        return item.version ? `version ${item.version.text}` : [];
      case 'status':
        return item.status ? spoken(item.status.text) : [];
      case 'owner':
        return item.owner ? item.owner.value : [];
      default:
        return [];
    }
  });
  return [
    `**${plainly(statement.label?.value ?? spoken(statement.name?.text ?? 'protocol'))}**`,
    plainly(facts.join(', ')),
    plainly(statement.doc ?? ''),
    items
      .flatMap((item) =>
        item.type === 'visit' ? [`- ${plainly(item.label?.value ?? item.name?.text ?? 'visit')}`] : [],
      )
      .join('\n'),
  ];
}

/** A line without the source it names at its end. */
function headOf(checked: Checked, file: string, item: Statement): string {
  return writtenAt(checked, file, item.id, item.head).replace(/\s+source\s+\S+$/, '');
}

function sourceOf(checked: Checked, file: string, item: Statement): string {
  const source = 'source' in item ? cited(checked, file, item.source?.text) : undefined;
  return source === undefined ? '' : ` (${plainly(source)})`;
}

function cited(checked: Checked, file: string, source: string | undefined): string | undefined {
  return checked.modules().module(file)?.citation(source)?.citation;
}
