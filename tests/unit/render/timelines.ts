import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createWorkspace, timelineOf } from '@curette/server';
import { type Timeline, type TimelineRow, type TimelineVisit, timeline } from '@curette/shared';
import sax from 'sax';
import { TODAY } from '../../support/fixture.ts';

/** The timeline of the first protocol of a text; its shape is checked on the way. */
export function timelineIn(text: string): Timeline {
  return made((id) => (id === 'main.curette' ? text : undefined), 'main.curette');
}

const examples = join(import.meta.dirname, '../../../examples');

/** The timeline of a demo protocol, by its path in `examples`. */
export function exampleTimeline(path: string): Timeline {
  return made((id) => (existsSync(join(examples, id)) ? readFileSync(join(examples, id), 'utf8') : undefined), path);
}

export function visitOf(line: Timeline, nth = 0): TimelineVisit {
  const visit = line.course.filter((part) => part.type === 'visit')[nth];
  if (!visit) throw new Error(`there is no visit ${nth + 1}`);
  return visit;
}

export function rowOf(visit: TimelineVisit, label: string): TimelineRow {
  const row = visit.rows.find((one) => one.label === label);
  if (!row) throw new Error(`no row "${label}"; there is ${visit.rows.map((one) => one.label).join(', ')}`);
  return row;
}

function made(read: (id: string) => string | undefined, id: string): Timeline {
  const workspace = createWorkspace(
    (file) => {
      const text = read(file);
      return text === undefined ? { type: 'absent' } : { type: 'bytes', bytes: new TextEncoder().encode(text) };
    },
    () => TODAY,
  );
  const facts = workspace.facts(id);
  const [protocol] = facts?.protocols ?? [];
  if (!facts || !protocol) throw new Error(`no protocol in ${id}`);
  return timeline.parse(timelineOf(facts, protocol, workspace.facts));
}

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** directly in it */
  text: string;
  readonly inside: readonly string[];
}

/** The elements of an XML text, in the order they begin. @throws what is not well-formed */
export function elementsOf(xml: string): readonly Element[] {
  const elements: Element[] = [];
  const open: Element[] = [];
  const parser = sax.parser(true);
  parser.onerror = (error) => {
    throw error;
  };
  parser.onopentag = ({ name, attributes }) => {
    const element = { name, attributes, text: '', inside: open.map((one) => one.name) };
    elements.push(element);
    open.push(element);
  };
  parser.ontext = (text) => {
    const last = open.at(-1);
    if (last) last.text += text;
  };
  parser.onclosetag = () => {
    open.pop();
  };
  parser.write(xml).close();
  return elements;
}
