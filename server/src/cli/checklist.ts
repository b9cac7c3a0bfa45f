import { checklistOf } from '../render/checklist.ts';
import { checklistHtml } from '../render/checklist-html.ts';
import { checklistMarkdown } from '../render/checklist-markdown.ts';
import { unfitWords } from '../render/sheet-words.ts';
import { visible } from '../render/text.ts';
import { openProtocol } from './declared-protocol.ts';
import { print, writeWhole } from './output.ts';

export interface ChecklistOptions {
  readonly protocol?: string;
  readonly case?: string;
  readonly format: 'md' | 'html';
  readonly out?: string;
}

/** Writes the checklist of a protocol, or of a case of one. One that is not fit for use says so on every page, and here. @returns the exit status */
export function checklist(path: string, options: ChecklistOptions): number {
  const { workspace, facts, protocol, ofCase } = openProtocol(path, options.protocol, options.case);
  const list = checklistOf(facts, protocol, workspace.facts, ofCase);
  const text = options.format === 'html' ? checklistHtml(list) : checklistMarkdown(list);
  if (options.out === undefined) print(text);
  else writeWhole(options.out, text);
  if (!list.fit) process.stderr.write(`${visible(list.name)} is not fit for use: ${unfitWords(list)}\n`);
  return 0;
}
