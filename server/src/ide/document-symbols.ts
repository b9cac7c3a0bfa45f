import type { Clauses, Statement } from '@curette/grammar';
import type { FileId } from '../problems/problem.ts';
import { spoken, withoutGrounds } from './as-written.ts';
import type { Checked } from './checked.ts';

export type SymbolSort =
  | 'kind'
  | 'entry'
  | 'action'
  | 'rule'
  | 'source'
  | 'finding'
  | 'value'
  | 'unit'
  | 'protocol'
  | 'case'
  | 'visit'
  | 'list'
  | 'thing'
  | 'pause'
  | 'decision'
  | 'option'
  | 'step'
  | 'wait'
  | 'contingency';

/** A line of the outline, with what stands inside of it. */
export interface DocumentSymbol {
  readonly name: string;
  readonly detail: string | undefined;
  readonly sort: SymbolSort;
  readonly start: number;
  readonly end: number;
  /** the words to go to */
  readonly head: { readonly start: number; readonly end: number };
  readonly children: readonly DocumentSymbol[];
}

/** The outline of a file: it reads like the protocol. */
export function documentSymbols(checked: Checked, id: FileId): readonly DocumentSymbol[] {
  const file = checked.snapshot().file(id);
  if (!file) return [];
  const outline = (items: readonly Statement[], offsets: readonly number[], base: number): DocumentSymbol[] =>
    items.flatMap((statement, i) => {
      const start = base + (offsets[i] ?? 0);
      const head = { start: start + statement.head.start, end: start + statement.head.end };
      const title = titleOf(statement, file.text.slice(head.start, head.end));
      const children = statement.body ? outline(statement.body.items, statement.body.offsets, start) : [];
      if (!title) return children;
      return [{ ...title, start, end: start + statement.length, head, children }];
    });
  return outline(file.tree.body.items, file.tree.body.offsets, 0);
}

type Title = Pick<DocumentSymbol, 'name' | 'detail' | 'sort'>;

/** Undefined for lines that are no part of the outline. */
function titleOf(statement: Statement, head: string): Title | undefined {
  const named = (sort: SymbolSort, fallback: string): Title => {
    const name = 'name' in statement ? statement.name?.text : undefined;
    const label = 'label' in statement ? statement.label?.value : undefined;
    return { name: name ?? label ?? fallback, detail: name === undefined ? undefined : label, sort };
  };
  switch (statement.type) {
    case 'kind':
      return named('kind', 'kind');
    case 'entry':
      return named('entry', spoken(statement.group.text));
    case 'action':
    case 'procedure':
      return { name: statement.verb?.text ?? statement.type, detail: statement.label?.value, sort: 'action' };
    case 'rule':
      return named('rule', 'rule');
    case 'source':
      return named('source', 'source');
    case 'figures':
      return named('list', 'figures');
    case 'figure':
      return named('value', 'figures');
    case 'apply':
      return { name: `apply ${statement.name?.text ?? ''}`.trim(), detail: undefined, sort: 'list' };
    case 'finding':
      return named('finding', 'finding');
    case 'finding value':
      return named('value', 'value');
    case 'unit':
      return { name: statement.names[0]?.text ?? 'unit', detail: undefined, sort: 'unit' };
    case 'pause':
      return named('pause', 'pause');
    case 'protocol':
      return named('protocol', 'protocol');
    case 'case':
      return named('case', 'case');
    case 'visit':
      return { name: statement.label?.value ?? statement.name?.text ?? 'visit', detail: 'visit', sort: 'visit' };
    case 'given':
    case 'materials':
    case 'instruments':
    case 'team':
      return { name: statement.type, detail: undefined, sort: 'list' };
    case 'thing':
      return {
        name: statement.name.text,
        detail: statement.kind && spoken(statement.kind.text),
        sort: 'thing',
      };
    case 'team member':
      return { name: spoken(statement.name.text), detail: undefined, sort: 'thing' };
    case 'pause step':
      return {
        name: `pause: ${spoken(statement.name?.text ?? '')}`.trim(),
        detail: detailOf(statement, head),
        sort: 'pause',
      };
    case 'decide':
      return {
        name: `decide: ${statement.findings.map((finding) => spoken(finding.text)).join(', ')}`,
        detail: statement.label?.value,
        sort: 'decision',
      };
    case 'option':
      return {
        name: `if ${
          statement.values.map((values) => values.map((value) => spoken(value.text)).join(' or ')).join(', ') ||
          'option'
        }`,
        detail: statement.label?.value,
        sort: 'option',
      };
    case 'otherwise':
      return { name: 'otherwise', detail: undefined, sort: 'option' };
    case 'together':
      return { name: 'together', detail: undefined, sort: 'decision' };
    case 'lane':
      return {
        name: statement.label?.value ?? spoken(statement.name?.text ?? 'lane'),
        detail: statement.by.map((role) => spoken(role.text)).join(', ') || undefined,
        sort: 'option',
      };
    case 'repeat':
      return { name: asItReads(withoutGrounds(head)), detail: undefined, sort: 'decision' };
    case 'complication':
      return { name: statement.label?.value ?? 'complication', detail: 'complication', sort: 'contingency' };
    case 'step':
      return { name: asItReads(withoutGrounds(head)), detail: detailOf(statement, head), sort: 'step' };
    case 'wait':
      return { name: asItReads(withoutGrounds(head)), detail: undefined, sort: 'wait' };
    case 'verify': {
      const { what, of, within } = statement;
      const measured =
        what && !('value' in what) ? head.slice(0, (within ?? of ?? what).end - statement.head.start) : undefined;
      const looked = what && 'value' in what ? `verify: ${what.value}` : 'verify';
      const otherwise = statement.otherwiseText && `otherwise: ${statement.otherwiseText.value}`;
      return {
        name: `${measured === undefined ? shortened(looked) : asItReads(measured)}${statement.body ? ', otherwise' : ''}`,
        detail: [otherwise, detailOf(statement, head)].filter((part) => part !== undefined).join(' · ') || undefined,
        sort: 'step',
      };
    }
    case 'instruct':
      return {
        name: shortened(`instruct: ${statement.text?.value ?? ''}`.trim()),
        detail: statement.atHome ? 'at home' : detailOf(statement, head),
        sort: 'step',
      };
    case 'record': {
      const { what, text, of } = statement;
      const about = of
        ? ` of ${of.names
            .map((name) => spoken(name.text))
            .reverse()
            .join(' of ')}`
        : '';
      return {
        name: shortened(`record ${spoken(what?.text ?? '')}${about}`.trim()),
        detail: [text?.value, detailOf(statement, head)].filter((part) => part !== undefined).join(' · ') || undefined,
        sort: 'step',
      };
    }
    case 'stop':
      return { name: shortened(`stop: ${statement.text?.value ?? ''}`.trim()), detail: undefined, sort: 'step' };
    default:
      return undefined;
  }
}

/** Who does it and how long it takes, where the line says so. */
function detailOf({ by, takes, head: { start } }: Statement & Clauses, head: string): string | undefined {
  const roles = by.map((role) => spoken(role.text)).join(', ');
  const time = takes?.duration && head.slice(takes.duration.start - start, takes.duration.end - start);
  return [time, roles].filter((part) => part !== undefined && part !== '').join(' · ') || undefined;
}

/** A line in plain words: what is in quotes stays as it is. */
function asItReads(line: string): string {
  return shortened(line.replace(/"(?:[^"\\]|\\.)*"|_/g, (part) => (part === '_' ? ' ' : part)));
}

function shortened(head: string): string {
  const line = head.replace(/\s+/g, ' ');
  return line.length > 80 ? `${line.slice(0, 79)}…` : line;
}
