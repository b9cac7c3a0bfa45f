import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checklistOf, createWorkspace } from '@curette/server';
import { type Checklist, type ChecklistItem, type ChecklistVisit, checklist } from '@curette/shared';
import { TODAY } from '../../support/fixture.ts';

/** The checklist of the first protocol of `main.curette`, or of the one that is named; its shape is checked on the way. */
export function sheetOf(files: string | Readonly<Record<string, string>>, protocol?: string): Checklist {
  const texts = typeof files === 'string' ? { 'main.curette': files } : files;
  return made((id) => texts[id], 'main.curette', protocol);
}

const examples = join(import.meta.dirname, '../../../examples');

/** The checklist of a demo protocol, by its path in `examples`. */
export function exampleSheet(path: string): Checklist {
  const read = (id: string) => {
    const file = join(examples, id);
    return existsSync(file) ? readFileSync(file, 'utf8') : undefined;
  };
  return made(read, path, undefined);
}

/** Every event of a sheet, those inside others included, in the order in which they are read. */
export function everyItem(items: readonly ChecklistItem[]): ChecklistItem[] {
  return items.flatMap((item) => [item, ...insideOf(item).flatMap((inner) => everyItem(inner))]);
}

function insideOf(item: ChecklistItem): ChecklistItem[][] {
  if (item.type === 'decide') return item.options.map(({ steps }) => steps);
  if (item.type === 'together') return item.lanes.map(({ steps }) => steps);
  return 'steps' in item ? [item.steps] : [];
}

/** The events of a visit, by the visit's name. */
export function visitOf(sheet: Checklist, name: string): ChecklistVisit {
  const visit = sheet.course.find((part) => part.type === 'visit' && part.name === name);
  if (visit?.type !== 'visit') throw new Error(`no visit ${name}`);
  return visit;
}

function made(read: (id: string) => string | undefined, id: string, name: string | undefined): Checklist {
  const workspace = createWorkspace(
    (file) => {
      const text = read(file);
      return text === undefined ? { type: 'absent' } : { type: 'bytes', bytes: new TextEncoder().encode(text) };
    },
    () => TODAY,
  );
  const facts = workspace.facts(id);
  const protocol = facts?.protocols.find(({ statement }) => name === undefined || statement.name?.text === name);
  if (!facts || !protocol) throw new Error(`no protocol in ${id}`);
  return checklist.parse(checklistOf(facts, protocol, workspace.facts));
}
