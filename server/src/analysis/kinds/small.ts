import type { FindingStatement, PauseStatement, SourceStatement } from '@curette/grammar';
import type { FileId, Report } from '../../problems/problem.ts';
import { checkRole } from '../actions/action.ts';
import type { Duration, Finding, Pause, Source } from '../model.ts';
import type { Module } from '../names/module.ts';
import { notStated, readDuration } from './duration.ts';

export function resolveFinding(file: FileId, statement: FindingStatement, name: string): Finding {
  const values = new Map<string, string>();
  for (const item of statement.body?.items ?? [])
    if (item.type === 'finding value')
      values.set(item.name.text, item.label?.value ?? item.name.text.replaceAll('_', ' '));
  return { file, statement, name, label: statement.label?.value ?? name.replaceAll('_', ' '), values };
}

export function resolvePause(module: Module, statement: PauseStatement, name: string, report: Report): Pause {
  const items: string[] = [];
  const by: string[] = [];
  let takes: Duration = notStated;
  let source: string | undefined;
  for (const item of statement.body?.items ?? []) {
    switch (item.type) {
      case 'item':
        if (item.text) items.push(item.text.value);
        break;
      case 'takes':
        takes = readDuration(module, item, item, report);
        break;
      case 'by':
        for (const role of item.roles) if (checkRole(module, item, role, report)) by.push(role.text);
        break;
      case 'source reference':
        source = item.source?.text;
        break;
      default:
        break;
    }
  }
  return {
    file: module.id,
    statement,
    name,
    label: statement.label?.value ?? name.replaceAll('_', ' '),
    items,
    takes,
    by,
    source,
  };
}

/** One line of citation from what a source states: title, by, year, identifier. */
export function resolveSource(file: FileId, statement: SourceStatement, name: string): Source {
  const stated = new Map<string, string>();
  for (const item of statement.body?.items ?? []) {
    if (item.type !== 'value') continue;
    const [value] = item.values;
    if (!value) continue;
    if (value.type === 'text') stated.set(item.name.text, value.value);
    else if (value.type === 'quantity' && value.low) stated.set(item.name.text, String(value.low.value));
    else if (value.type === 'path') stated.set(item.name.text, value.names.map((part) => part.text).join('.'));
  }
  const title = statement.label?.value ?? stated.get('title') ?? name.replaceAll('_', ' ');
  const parts = [stated.get('by'), title, stated.get('year'), stated.get('identifier')];
  return { file, statement, name, citation: parts.filter((part) => part !== undefined).join(', ') };
}
