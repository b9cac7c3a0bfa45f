import type { Span } from '@curette/grammar';
import { locate } from '../analysis/locate.ts';
import type { Action, Procedure, SlotModel } from '../analysis/model.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';

/** What stands in a stretch of a statement; empty when the statement is gone. */
export function writtenAt(checked: Checked, file: FileId, statement: number, span: Span): string {
  const source = checked.snapshot().file(file);
  const located = source && locate(source.tree, statement);
  if (!source || !located) return '';
  return source.text.slice(located.start + span.start, located.start + span.end).replace(/\s+/g, ' ');
}

/** The line a statement begins on, counted from 1. */
export function lineOf(checked: Checked, file: FileId, statement: number): number | undefined {
  const source = checked.snapshot().file(file);
  const located = source && locate(source.tree, statement);
  if (!source || !located) return undefined;
  const end = located.start + located.statement.head.start;
  let line = 1;
  for (let at = source.text.indexOf('\n'); at >= 0 && at < end; at = source.text.indexOf('\n', at + 1)) line += 1;
  return line;
}

/** A head without what it says about itself at its end. */
export function withoutGrounds(text: string): string {
  return text.replace(/\s(?:takes|by [\p{L}_]|because|source)(?=\s|[\p{L}"_]).*$/u, '').trim();
}

/** A line of an action, its slots by the names of what they take: `g wetted for g.soak` → `graft wetted for soak of graft`. */
export function spokenOut(text: string, slots: readonly SlotModel[]): string {
  const names = new Map(slots.map((slot) => [slot.name, spoken(slot.kindWord || slot.name)]));
  return text
    .split(/("(?:[^"\\]|\\.)*")/)
    .map((part) =>
      part.startsWith('"')
        ? part
        : part.replace(/[\p{L}_][\p{L}\d_]*(?:\.[\p{L}_][\p{L}\d_]*)*/gu, (path, start: number) => {
            if (isState(text, part.slice(0, start), names)) return spoken(path);
            const [root = '', ...rest] = path.split('.');
            const owner = names.get(root) ?? spoken(root);
            return [...rest.reverse().map(spoken), owner].join(' of ');
          }),
    )
    .join('');
}

/** Whether what comes next is a state of the thing named before it, be it called like a slot: not the amount of `uses up d v`. */
function isState(line: string, before: string, slots: ReadonlyMap<string, unknown>): boolean {
  const word = /([\p{L}_][\p{L}\d_]*)(?:\.[\p{L}_][\p{L}\d_]*)*\s+$/u.exec(before)?.[1];
  return word !== undefined && (word === 'is' || (slots.has(word) && !/^\s*uses\b/.test(line)));
}

export function spoken(name: string): string {
  return name.replaceAll('_', ' ');
}

/** How a step with the action reads: `pack (graft) into (site) with (condenser)`. */
export function readingOf(action: Action | Procedure): string {
  const parts = [spoken(action.verb)];
  for (const slot of action.slots) parts.push(slotReading(slot));
  return parts.join(' ');
}

/** How a slot reads, with its preposition: `into (site)`. */
export function slotReading(slot: SlotModel): string {
  const inside = `${slot.optional ? 'optional ' : ''}${slot.many ? 'one or more ' : ''}${spoken(slot.kindWord)}`;
  return slot.preposition ? `${slot.preposition} (${inside})` : `(${inside})`;
}
