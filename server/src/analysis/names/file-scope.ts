import type {
  ActionStatement,
  ApplyStatement,
  EntryStatement,
  FiguresStatement,
  FindingStatement,
  KindStatement,
  Name,
  PauseStatement,
  ProcedureStatement,
  PropertyStatement,
  RuleStatement,
  SourceStatement,
  Statement,
  UnitStatement,
  UseStatement,
} from '@curette/grammar';
import type { FileId } from '../../problems/problem.ts';
import type { SourceFile } from '../snapshot.ts';

/** What a file declares, by name: what other files can see of it. Nothing in it depends on the body of a protocol or a case. */
export interface FileScope {
  readonly id: FileId;
  readonly uses: readonly UseStatement[];
  readonly kinds: ReadonlyMap<string, KindStatement>;
  readonly entries: ReadonlyMap<string, EntryStatement>;
  /** several actions and procedures may share a verb */
  readonly verbs: ReadonlyMap<string, readonly (ActionStatement | ProcedureStatement)[]>;
  readonly rules: ReadonlyMap<string, RuleStatement>;
  readonly sources: ReadonlyMap<string, SourceStatement>;
  readonly findings: ReadonlyMap<string, FindingStatement>;
  readonly pauses: ReadonlyMap<string, PauseStatement>;
  readonly units: ReadonlyMap<string, UnitStatement>;
  readonly protocols: ReadonlySet<string>;
  /** sets of figures */
  readonly figures: ReadonlyMap<string, FiguresStatement>;
  /** groups of such sets, by the first property that takes its value from one */
  readonly groups: ReadonlyMap<string, PropertyStatement>;
  /** which sets of figures count, here and wherever this file is used */
  readonly applied: readonly ApplyStatement[];
  readonly cases: ReadonlySet<string>;
  /** declared a second time under a name already taken */
  readonly repeated: readonly { readonly name: Name; readonly statement: number; readonly first: number }[];
  /** the statements this was made from; equal keys, equal scopes */
  readonly key: readonly unknown[];
}

/**
 * The scope of a file. Gives `previous` back when nothing another file could see has changed, so that what was worked out from it
 * stays valid.
 */
export function fileScope(file: SourceFile, previous: FileScope | undefined): FileScope {
  const items = file.tree.body.items;
  const key = scopeKey(items);
  if (previous && sameKey(previous.key, key)) return previous;

  const uses: UseStatement[] = [];
  const kinds = new Map<string, KindStatement>();
  const entries = new Map<string, EntryStatement>();
  const verbs = new Map<string, (ActionStatement | ProcedureStatement)[]>();
  const rules = new Map<string, RuleStatement>();
  const sources = new Map<string, SourceStatement>();
  const findings = new Map<string, FindingStatement>();
  const pauses = new Map<string, PauseStatement>();
  const units = new Map<string, UnitStatement>();
  const protocols = new Set<string>();
  const figures = new Map<string, FiguresStatement>();
  const groups = new Map<string, PropertyStatement>();
  const applied: ApplyStatement[] = [];
  const cases = new Set<string>();
  const repeated: { name: Name; statement: number; first: number }[] = [];

  const seen = new Map<string, number>();
  /** Kinds and entries share one set of names; every other sort has its own. */
  const claim = (sort: string, name: Name, statement: Statement): boolean => {
    const slot = `${sort} ${name.text}`;
    const first = seen.get(slot);
    if (first === undefined) {
      seen.set(slot, statement.id);
      return true;
    }
    repeated.push({ name, statement: statement.id, first });
    return false;
  };

  for (const item of items) {
    switch (item.type) {
      case 'use':
        uses.push(item);
        break;
      case 'kind':
        if (item.name && claim('thing', item.name, item)) kinds.set(item.name.text, item);
        for (const inner of item.body?.items ?? [])
          if (inner.type === 'property' && inner.from && !groups.has(inner.from.text))
            groups.set(inner.from.text, inner);
        break;
      case 'entry':
        if (item.name && claim('thing', item.name, item)) entries.set(item.name.text, item);
        break;
      case 'action':
      case 'procedure': {
        if (!item.verb) break;
        const list = verbs.get(item.verb.text);
        if (list) list.push(item);
        else verbs.set(item.verb.text, [item]);
        break;
      }
      case 'rule':
        if (item.name && claim('rule', item.name, item)) rules.set(item.name.text, item);
        break;
      case 'source':
        if (item.name && claim('source', item.name, item)) sources.set(item.name.text, item);
        break;
      case 'finding':
        if (item.name && claim('finding', item.name, item)) findings.set(item.name.text, item);
        break;
      case 'pause':
        if (item.name && claim('pause', item.name, item)) pauses.set(item.name.text, item);
        break;
      case 'figures':
        if (item.name && claim('figures', item.name, item)) figures.set(item.name.text, item);
        break;
      case 'apply':
        if (item.name && claim('apply', item.name, item)) applied.push(item);
        break;
      case 'unit':
        for (const name of item.names) if (claim('unit', name, item)) units.set(name.text, item);
        break;
      case 'protocol':
        if (item.name && claim('protocol', item.name, item)) protocols.add(item.name.text);
        break;
      case 'case':
        if (item.name && claim('case', item.name, item)) cases.add(item.name.text);
        break;
      default:
        break;
    }
  }
  return {
    id: file.id,
    uses,
    kinds,
    entries,
    verbs,
    rules,
    sources,
    findings,
    pauses,
    units,
    protocols,
    figures,
    groups,
    applied,
    cases,
    repeated,
    key,
  };
}

function scopeKey(items: readonly Statement[]): unknown[] {
  const key: unknown[] = [];
  for (const item of items) {
    if (item.type === 'protocol' || item.type === 'case') key.push(item.id, item.name?.text, item.name?.start);
    else key.push(item);
  }
  return key;
}

function sameKey(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
