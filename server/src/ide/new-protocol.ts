import { parse, type StatementOf, words } from '@curette/grammar';
import { type NewProtocolParams, type NewProtocolResult, type OperationChoices, skeletonFiles } from '@curette/shared';
import { createAnalysis, type FileFacts } from '../analysis/analysis.ts';
import { offsetsOf } from '../analysis/locate.ts';
import { visibleNames } from '../analysis/names/module.ts';
import { entryNamed } from '../analysis/names/resolve.ts';
import type { Snapshot } from '../analysis/snapshot.ts';
import type { Edit } from '../problems/problem.ts';
import { replacementsOf } from './apply-edit.ts';

/**
 * New protocols are made from small sound ones of the library, one for each kind of operation. What is chosen is an edit of that text,
 * and the checker says of each edit whether what comes out is sound: only that is offered, and only that is written.
 */
export interface Drafter {
  readonly operations: () => readonly Operation[];
  /** yields between what it tries; undefined when there is no such operation */
  readonly choices: (operation: string) => Generator<void, OperationChoices | undefined>;
  /** the same; what would not be sound is left as it was, and told */
  readonly draft: (asked: NewProtocolParams) => Generator<void, NewProtocolResult | undefined>;
}

export interface Operation {
  readonly name: string;
  readonly title: string;
  readonly about: string;
}

const reservedNames: ReadonlySet<string> = new Set(words.reserved);
/** The file that a new protocol is judged as. */
const ID = 'new-protocol.curette';
/** What choosing leaves over or brings in, and is mended as the problem itself says. */
const MENDED: ReadonlySet<string> = new Set(['never_used', 'unused_use', 'contraindication_open']);

/** @param base where the library is found; nothing else is asked of it */
export function createDrafter(base: Snapshot): Drafter {
  const analysis = createAnalysis();
  const judge = (text: string): Judged => {
    const file = { id: ID, text, tree: parse(text), trouble: undefined };
    const library = (id: string) => (id.startsWith('library:') ? base.file(id) : undefined);
    const snapshot: Snapshot = { ...base, file: (id) => (id === ID ? file : library(id)) };
    return { text, snapshot, facts: analysis.facts(snapshot, ID) };
  };
  const textOf = (operation: string) => skeletonFiles.find(({ name }) => name === operation)?.text;

  return {
    operations: () =>
      skeletonFiles.map(({ name, text }) => {
        const protocol = protocolIn(judge(text));
        return { name, title: protocol?.label?.value ?? name, about: protocol?.doc?.replace(/\s+/g, ' ').trim() ?? '' };
      }),
    *choices(operation) {
      const text = textOf(operation);
      if (text === undefined) return undefined;
      const start = judge(text);
      const visits: OperationChoices['visits'] = [];
      for (const { name, label } of visitsIn(start)) {
        if (name === undefined) continue;
        visits.push({
          name: name.text,
          title: label?.value ?? name.text,
          optional: settled(judge, withoutVisit(start, name.text)) !== undefined,
        });
        yield;
      }
      const materials: OperationChoices['materials'] = [];
      for (const { name, kind } of materialsIn(start)) {
        const module = start.facts?.module;
        const entry = kind && module && entryNamed(module, kind.text);
        if (!entry || !module) continue;
        const others: OperationChoices['materials'][number]['others'] = [];
        for (const other of visibleNames(module, 'entries')) {
          const one = entryNamed(module, other);
          if (!one || other === entry.name || one.kind.name !== entry.kind.name) continue;
          if (settled(judge, withMaterial(start, name.text, other)) !== undefined)
            others.push({ entry: other, title: one.label });
          yield;
        }
        if (others.length > 0)
          materials.push({ name: name.text, entry: entry.name, title: entry.label, kind: entry.kind.label, others });
      }
      return { visits, materials };
    },
    *draft({ operation, title, visits, materials }) {
      const text = textOf(operation);
      if (text === undefined) return undefined;
      let now = judge(text);
      const kept: string[] = [];
      const attempt = (changed: string | undefined, otherwise: string) => {
        const sound = settled(judge, changed);
        if (sound) now = sound;
        else kept.push(otherwise);
      };
      for (const { name, label } of visitsIn(now)) {
        if (name === undefined || visits.includes(name.text)) continue;
        attempt(
          withoutVisit(now, name.text),
          `The visit "${label?.value ?? name.text}" was kept: without it the protocol is not sound.`,
        );
        yield;
      }
      for (const [name, entry] of Object.entries(materials)) {
        if (!materialsIn(now).some((thing) => thing.name.text === name)) continue;
        attempt(
          withMaterial(now, name, entry),
          `"${name}" was left as it is: with ${entry.replaceAll('_', ' ')} the protocol is not sound.`,
        );
        yield;
      }
      const named = withTitle(now, title);
      const protocol = protocolIn(judge(named));
      const at = protocol?.label && offsetsIn(judge(named), protocol.id, protocol.label);
      return { text: named, titleAt: at ? { start: at.start + 1, end: at.end - 1 } : { start: 0, end: 0 }, kept };
    },
  };
}

/** A name that a protocol of this title can have. */
export function nameFor(title: string): string {
  const word = title
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{Nd}]+/gu, '_')
    .replace(/^_+|_+$/g, '');
  return /^\p{L}/u.test(word) && !reservedNames.has(word) ? word : `protocol_${word}`.replace(/_$/, '');
}

/** A text with what the checker found in it. */
interface Judged {
  readonly text: string;
  readonly snapshot: Snapshot;
  readonly facts: FileFacts | undefined;
}

/** The text with what was left over taken out and what is asked for put in; undefined when it is not sound then. */
function settled(judge: (text: string) => Judged, text: string | undefined): Judged | undefined {
  if (text === undefined) return undefined;
  let now = judge(text);
  // Each round mends one line; more than these no protocol here has.
  for (let rounds = 0; rounds < 60; rounds++) {
    const problems = now.facts?.problems ?? [];
    const next = problems.find(({ code, mends }) => MENDED.has(code) && mends.length > 0);
    if (!next) return problems.every(({ severity }) => severity === 'advice') ? now : undefined;
    const changed = edited(now, next.mends[0]?.edits ?? []);
    if (changed === undefined || changed === now.text) return undefined;
    now = judge(changed);
  }
  return undefined;
}

function edited({ text, snapshot }: Judged, edits: readonly Edit[]): string | undefined {
  const changes = replacementsOf({ snapshot: () => snapshot }, edits);
  return changes
    ?.toSorted((a, b) => b.start - a.start)
    .reduce((now, { start, end, text: by }) => now.slice(0, start) + by + now.slice(end), text);
}

/** Without a visit, and without the wait before it, or behind it where it is the first. */
function withoutVisit(judged: Judged, name: string): string | undefined {
  const items = protocolIn(judged)?.body?.items ?? [];
  const at = items.findIndex((item) => item.type === 'visit' && item.name?.text === name);
  const visits = items.filter(({ type }) => type === 'visit').length;
  const visit = items[at];
  if (!visit || visits < 2) return undefined;
  const wait = [items[at - 1], items[at + 1]].find((item) => item?.type === 'wait');
  const gone = wait ? [visit, wait] : [visit];
  const left = edited(
    judged,
    gone.map(({ id }) => ({ type: 'remove', file: ID, statement: id })),
  );
  // Blank lines that stood around what went.
  return left?.replace(/\n{3,}/g, '\n\n').replace(/\n\n(\s*\}\s*)$/, '\n$1');
}

function withMaterial(judged: Judged, name: string, entry: string): string | undefined {
  const thing = materialsIn(judged).find((one) => one.name.text === name);
  if (!thing?.kind) return undefined;
  return edited(judged, [{ type: 'replace', place: { file: ID, statement: thing.id, span: thing.kind }, text: entry }]);
}

function withTitle(judged: Judged, title: string): string {
  const protocol = protocolIn(judged);
  if (!protocol?.name || !protocol.label) return judged.text;
  const plain = title.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replace(/\s+/g, ' ').trim();
  const place = (span: { readonly start: number; readonly end: number }) => ({
    file: ID,
    statement: protocol.id,
    span,
  });
  return (
    edited(judged, [
      { type: 'replace', place: place(protocol.name), text: nameFor(title) },
      { type: 'replace', place: place(protocol.label), text: `"${plain}"` },
    ]) ?? judged.text
  );
}

function protocolIn({ facts }: Judged): StatementOf<'protocol'> | undefined {
  return facts?.protocols[0]?.statement;
}

function visitsIn(judged: Judged): readonly StatementOf<'visit'>[] {
  return (protocolIn(judged)?.body?.items ?? []).filter((item) => item.type === 'visit');
}

function materialsIn(judged: Judged): readonly StatementOf<'thing'>[] {
  const blocks = (protocolIn(judged)?.body?.items ?? []).filter((item) => item.type === 'materials');
  return blocks.flatMap(({ body }) => body?.items ?? []).filter((item) => item.type === 'thing');
}

function offsetsIn(judged: Judged, statement: number, span: { readonly start: number; readonly end: number }) {
  const tree = judged.snapshot.file(ID)?.tree;
  return tree && offsetsOf(tree, { file: ID, statement, span: { start: span.start, end: span.end } });
}
