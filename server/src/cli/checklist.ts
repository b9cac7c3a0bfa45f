import { nearest } from '@curette/shared';
import { checklistOf } from '../render/checklist.ts';
import { checklistHtml } from '../render/checklist-html.ts';
import { checklistMarkdown } from '../render/checklist-markdown.ts';
import { unfitWords } from '../render/sheet-words.ts';
import { visible } from '../render/text.ts';
import { openInput } from './inputs.ts';
import { print, UsageError, writeWhole } from './output.ts';

export interface ChecklistOptions {
  readonly protocol?: string;
  readonly format: 'md' | 'html';
  readonly out?: string;
}

/** Writes a protocol's checklist. One that is not fit for use says so on every page, and here. @returns the exit status */
export function checklist(path: string, options: ChecklistOptions): number {
  const { workspace, id } = openInput(path);
  const facts = workspace.facts(id);
  if (!facts || facts.file.trouble !== undefined) {
    const [problem] = facts?.problems ?? [];
    throw new UsageError(problem ? visible(problem.message) : `${path} could not be read.`);
  }
  const names = facts.protocols.map(({ statement }) => statement.name?.text ?? '');
  const [first] = names;
  if (first === undefined) throw new UsageError(`${path} declares no protocol.`);
  const wanted = options.protocol ?? first;
  if (options.protocol === undefined && names.length > 1)
    throw new UsageError(`${path} declares ${names.length} protocols; name one with --protocol: ${names.join(', ')}.`);
  const protocol = facts.protocols[names.indexOf(wanted)];
  if (!protocol) {
    const near = nearest(wanted, names);
    const hint = near ? ` Was "${near}" meant?` : ` It declares ${names.join(', ')}.`;
    throw new UsageError(visible(`${path} declares no protocol "${wanted}".${hint}`));
  }
  const list = checklistOf(facts, protocol, workspace.facts);
  const text = options.format === 'html' ? checklistHtml(list) : checklistMarkdown(list);
  if (options.out === undefined) print(text);
  else writeWhole(options.out, text);
  if (!list.fit) process.stderr.write(`${visible(list.name)} is not fit for use: ${unfitWords(list)}\n`);
  return 0;
}
