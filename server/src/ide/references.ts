import type {
  Clauses,
  Expr,
  Grounds,
  Name,
  PathNode,
  Pattern,
  QuantityNode,
  SizeNode,
  Slot,
  Span,
  Statement,
  StepStatement,
} from '@curette/grammar';
import { parseUnit } from '@curette/shared';
import { COMMON_PRACTICE } from '../analysis/kinds/declarations.ts';
import { type Kind, placeOf } from '../analysis/model.ts';
import { lookUp } from '../analysis/names/module.ts';
import {
  actionsNamed,
  entryNamed,
  findingNamed,
  kindNamed,
  pauseNamed,
  sourceNamed,
} from '../analysis/names/resolve.ts';
import { resolveUse } from '../analysis/use-path.ts';
import type { Bearer, Meaning } from './meaning.ts';
import { patternsOf, protocolNamed, type Surroundings, slotsOf, stepAt } from './surroundings.ts';

/** A word of a statement, counted from the statement's start, and what it stands for when that is asked. */
export interface Reference extends Span {
  readonly meaning: () => Meaning | undefined;
}

/** All words of the innermost statement's head that stand for something declared. */
export function referencesIn(around: Surroundings): readonly Reference[] {
  const statement = around.path.at(-1)?.statement;
  if (!statement) return [];
  const found: Reference[] = [];
  const reader = readerFor(around, (span, meaning) => {
    if (span) found.push({ start: span.start, end: span.end, meaning });
  });
  readStatement(around, statement, reader);
  return found;
}

type Note = (span: Span | undefined, meaning: () => Meaning | undefined) => void;

/** Notes words of one sort each. */
interface Reader {
  readonly note: Note;
  readonly kind: (name: Name | undefined) => void;
  readonly kindOrEntry: (name: Name | undefined) => void;
  readonly role: (name: Name | undefined) => void;
  readonly source: (name: Name | undefined) => void;
  readonly pause: (name: Name | undefined) => void;
  readonly state: (name: Name | undefined, kind: () => Kind | undefined) => void;
  readonly amount: (node: QuantityNode | SizeNode | undefined) => void;
  readonly path: (node: PathNode | undefined) => void;
  readonly expr: (expr: Expr | undefined) => void;
  readonly grounds: (grounds: Partial<Grounds>) => void;
  readonly clauses: (clauses: Clauses) => void;
  readonly pattern: (pattern: Pattern) => void;
  readonly slot: (slot: Slot, statement: Statement) => void;
}

function readStatement(around: Surroundings, statement: Statement, read: Reader): void {
  const { module, path } = around;
  const { note } = read;
  const ownKind = () => kindAround(around);
  switch (statement.type) {
    case 'use':
      note(statement.path, () => {
        const target = statement.path && resolveUse(module.id, statement.path.text);
        return target?.ok && around.checked.snapshot().file(target.id) ? { type: 'file', id: target.id } : undefined;
      });
      break;
    case 'unit':
      for (const name of statement.names) note(name, () => unitMeaning(around, name.text));
      read.amount(statement.value);
      break;
    case 'kind':
      read.kind(statement.name);
      read.kind(statement.parent);
      break;
    case 'entry':
      read.kind(statement.group);
      note(statement.name, () => {
        const entry = statement.name && entryNamed(module, statement.name.text);
        return entry && { type: 'entry', entry };
      });
      read.kind(statement.kind);
      break;
    case 'action':
    case 'procedure':
      note(statement.verb, () => {
        const { verb } = statement;
        const actions = verb ? actionsNamed(module, verb.text) : [];
        const chosen = actions.find((action) => action.statement === statement);
        return verb && { type: 'actions', verb: verb.text, actions, chosen };
      });
      for (const slot of statement.slots) read.slot(slot, statement);
      break;
    case 'rule':
      note(statement.name, () => ruleMeaning(around, statement.name));
      break;
    case 'source':
      read.source(statement.name);
      break;
    case 'finding':
      note(statement.name, () => findingMeaning(around, statement.name));
      break;
    case 'pause':
      read.pause(statement.name);
      break;
    case 'protocol':
      note(statement.name, () => ({ type: 'protocol', declared: { file: module.id, statement } }));
      break;
    case 'case':
      note(statement.of, () => protocolMeaning(around, statement.of));
      break;
    case 'property':
      note(statement.name, () => propertyMeaning(ownKind(), statement.name.text));
      if (statement.value?.form === 'kind') read.kind(statement.value.kind);
      read.amount(statement.within);
      read.grounds(statement);
      break;
    case 'states':
      for (const name of statement.chains.flat()) read.state(name, ownKind);
      break;
    case 'lasts':
      read.state(statement.state, ownKind);
      read.expr(statement.atMost);
      read.state(statement.then, ownKind);
      read.grounds(statement);
      break;
    case 'must end':
      for (const name of statement.states) read.state(name, ownKind);
      read.pause(statement.pause);
      read.grounds(statement);
      break;
    case 'serves as':
      read.kind(statement.kind);
      break;
    case 'relation':
      for (const name of statement.values)
        note(name, () => {
          const kind = ownKind();
          return kind?.relations[statement.relation].has(name.text)
            ? { type: 'relation value', value: name.text, relation: statement.relation, kind }
            : undefined;
        });
      break;
    case 'contraindicated':
      read.expr(statement.condition);
      read.grounds(statement);
      break;
    case 'value': {
      note(statement.name, () => {
        if (path.at(-2)?.statement.type === 'case') return valueOfCase(around, statement.name.text);
        return propertyMeaning(ownKind(), statement.name.text, around);
      });
      for (const value of statement.values) read.expr(value);
      read.grounds(statement);
      break;
    }
    case 'needs':
      for (const condition of statement.conditions) read.expr(condition);
      read.grounds(statement);
      break;
    case 'makes':
      for (const { subject, state } of statement.effects) {
        read.path(subject);
        read.state(state, () => bearerAt(around, subject)?.kind);
      }
      break;
    case 'uses up':
      read.path(statement.thing);
      read.expr(statement.amount);
      break;
    case 'takes':
      read.amount(statement.duration);
      read.amount(statement.usually);
      read.grounds(statement);
      break;
    case 'by':
      for (const role of statement.roles) read.role(role);
      break;
    case 'whenever':
    case 'between':
    case 'order':
    case 'count':
    case 'pause rule':
      for (const pattern of patternsOf(statement)) read.pattern(pattern);
      if (statement.type === 'whenever') read.expr(statement.where);
      if (statement.type === 'between') read.amount(statement.bound);
      if (statement.type === 'pause rule') read.pause(statement.pause);
      break;
    case 'expect':
      read.expr(statement.condition);
      break;
    case 'for each':
      read.kind(statement.kind);
      break;
    case 'every':
      read.kind(statement.kind);
      for (const name of statement.properties)
        note(name, () => propertyMeaning(statement.kind && kindNamed(module, statement.kind.text), name.text));
      break;
    case 'source reference':
      read.source(statement.source);
      break;
    case 'replaces':
      note(statement.rule, () => ruleMeaning(around, statement.rule));
      break;
    case 'finding value':
      note(statement.name, () => {
        const owner = path.at(-2)?.statement;
        const finding = owner?.type === 'finding' && owner.name ? findingNamed(module, owner.name.text) : undefined;
        return finding && { type: 'finding value', finding, value: statement.name.text };
      });
      break;
    case 'team member':
      read.role(statement.name);
      break;
    case 'review':
      read.amount(statement.every);
      break;
    case 'follows':
      note(statement.protocol, () => protocolMeaning(around, statement.protocol));
      break;
    case 'exclude':
    case 'caution':
      read.expr(statement.condition);
      read.grounds(statement);
      break;
    case 'thing':
      note(statement.name, () => around.named(statement.name.text)?.meaning);
      read.kindOrEntry(statement.kind);
      read.amount(statement.amount);
      read.grounds(statement);
      break;
    case 'step':
      readStep(around, statement, read);
      break;
    case 'pause step':
      read.pause(statement.name);
      read.clauses(statement);
      break;
    case 'wait':
      read.amount(statement.duration);
      read.expr(statement.until);
      read.grounds(statement);
      break;
    case 'verify': {
      const { what, of } = statement;
      if (what && !('value' in what))
        note(what, () => {
          const bearer = of && bearerAt(around, of);
          return propertyMeaning(bearer?.kind, what.text, around, bearer);
        });
      read.path(of);
      read.amount(statement.within);
      read.clauses(statement);
      break;
    }
    case 'decide':
      for (const name of statement.findings) note(name, () => findingMeaning(around, name));
      read.clauses(statement);
      break;
    case 'option': {
      const owner = path.at(-2)?.statement;
      statement.values.forEach((values, i) => {
        const name = owner?.type === 'decide' ? owner.findings[i] : undefined;
        for (const value of values)
          note(value, () => {
            const finding = name && findingNamed(module, name.text);
            return finding?.values.has(value.text) ? { type: 'finding value', finding, value: value.text } : undefined;
          });
      });
      break;
    }
    case 'record':
      read.path(statement.of);
      read.clauses(statement);
      break;
    case 'instruct':
      read.clauses(statement);
      break;
    case 'lane':
      for (const role of statement.by) read.role(role);
      break;
    case 'repeat':
      read.expr(statement.until);
      break;
    case 'severity':
    case 'why':
    case 'item':
    case 'version':
    case 'status':
    case 'owner':
    case 'reviewed':
    case 'approved':
    case 'given':
    case 'materials':
    case 'instruments':
    case 'team':
    case 'visit':
    case 'otherwise':
    case 'together':
    case 'complication':
    case 'note':
    case 'stop':
    case 'unreadable':
      break;
    default:
      statement satisfies never;
  }
}

function readStep(around: Surroundings, step: StepStatement, read: Reader): void {
  const { module, protocol } = around;
  const resolved = () => stepAt(around, step);
  read.note(step.verb, () => {
    const actions = actionsNamed(module, step.verb.text);
    return actions.length === 0
      ? undefined
      : { type: 'actions', verb: step.verb.text, actions, chosen: resolved()?.action };
  });
  for (const part of step.parts)
    for (const { thing, amount } of part.arguments) {
      read.amount(amount);
      if (!thing) continue;
      const [first, ...rest] = thing.names;
      // A place that no list names is known from the step alone.
      if (first && rest.length === 0 && protocol)
        read.note(first, () => {
          for (const filling of resolved()?.fillings.values() ?? [])
            if (filling.type === 'things')
              for (const one of filling.things)
                if (one.span.start === thing.start) return { type: 'thing', thing: one.thing, facts: protocol };
          return around.named(first.text)?.meaning;
        });
      else read.path(thing);
    }
  read.clauses(step);
}

function readerFor(around: Surroundings, note: Note): Reader {
  const { module } = around;
  const read: Reader = {
    note,
    kind: (name) =>
      note(name, () => {
        const kind = name && kindNamed(module, name.text);
        return kind && { type: 'kind', kind };
      }),
    kindOrEntry: (name) =>
      note(name, () => {
        const entry = name && entryNamed(module, name.text);
        if (entry) return { type: 'entry', entry };
        const kind = name && kindNamed(module, name.text);
        return kind && { type: 'kind', kind };
      }),
    role: (name) => read.kindOrEntry(name),
    source: (name) =>
      note(name, () => {
        if (!name) return undefined;
        const source = sourceNamed(module, name.text);
        return source || name.text === COMMON_PRACTICE ? { type: 'source', name: name.text, source } : undefined;
      }),
    pause: (name) =>
      note(name, () => {
        const pause = name && pauseNamed(module, name.text);
        return pause && { type: 'pause', pause };
      }),
    state: (name, kind) => {
      if (name?.text !== 'any') note(name, () => name && stateMeaning(kind(), name.text));
    },
    amount: (node) => {
      const sides = node === undefined ? [] : node.type === 'size' ? node.sides : [node];
      for (const side of sides)
        for (const end of [side.low, side.high]) {
          const unit = end?.unit;
          if (unit) note(unit, () => unitMeaning(around, unit.text));
        }
    },
    path: (node) => {
      let bearer: (() => Bearer | undefined) | undefined;
      for (const name of node?.names ?? []) {
        const before = bearer;
        const here = once(() => (before ? bearerOfProperty(around, before(), name.text) : around.named(name.text)));
        note(name, () => here()?.meaning);
        bearer = here;
      }
    },
    expr: (expr) => {
      if (!expr) return;
      switch (expr.type) {
        case 'path':
          read.path(expr);
          break;
        case 'quantity':
        case 'size':
          read.amount(expr);
          break;
        case 'text':
        case 'yes or no':
          break;
        case 'and':
        case 'or':
        case 'compare':
        case 'arithmetic':
          read.expr(expr.left);
          read.expr(expr.right);
          break;
        case 'not':
          read.expr(expr.operand);
          break;
        case 'is':
          read.expr(expr.subject);
          note(expr.name, () => {
            const { name, subject } = expr;
            const bearer = subject.type === 'path' ? bearerAt(around, subject) : undefined;
            return name && (stateMeaning(bearer?.kind, name.text) ?? around.named(name.text)?.meaning);
          });
          read.expr(expr.for);
          break;
        case 'state':
          read.path(expr.subject);
          read.state(expr.state, () => bearerAt(around, expr.subject)?.kind);
          read.expr(expr.for);
          break;
        case 'relation':
          read.expr(expr.subject);
          note(expr.value, () => {
            const kind = expr.subject.type === 'path' ? bearerAt(around, expr.subject)?.kind : undefined;
            return expr.value && kind?.relations[expr.relation].has(expr.value.text)
              ? { type: 'relation value', value: expr.value.text, relation: expr.relation, kind }
              : undefined;
          });
          break;
        case 'call':
          for (const argument of expr.args) read.expr(argument);
          break;
        default:
          expr satisfies never;
      }
    },
    grounds: ({ source }) => read.source(source),
    clauses: (clauses) => {
      read.amount(clauses.takes?.duration);
      read.amount(clauses.takes?.usually);
      for (const role of clauses.by) read.role(role);
      read.grounds(clauses);
    },
    pattern: (pattern) => {
      if (pattern.pause) read.pause(pattern.verb);
      else
        note(pattern.verb, () => {
          const actions = pattern.verb ? actionsNamed(module, pattern.verb.text) : [];
          return pattern.verb && actions.length > 0
            ? { type: 'actions', verb: pattern.verb.text, actions, chosen: undefined }
            : undefined;
        });
      for (const slot of pattern.slots) read.slot(slot, around.path.at(-1)?.statement as Statement);
    },
    slot: (slot, statement) => {
      read.kind(slot.kind);
      note(slot.name, () => {
        const top = around.path[0]?.statement;
        if (top?.type !== 'action' && top?.type !== 'procedure' && top?.type !== 'rule') return undefined;
        const own = slotsOf(module, top).find((other) => other.node === slot);
        return own && { type: 'slot', slot: own.model, place: placeOf(module.id, statement, slot.name ?? slot) };
      });
    },
  };
  return read;
}

/** What a path leads to. */
export function bearerAt(around: Surroundings, path: PathNode): Bearer | undefined {
  const [first, ...rest] = path.names;
  let bearer = first && around.named(first.text);
  for (const name of rest) bearer = bearerOfProperty(around, bearer, name.text);
  return bearer;
}

function bearerOfProperty(around: Surroundings, owner: Bearer | undefined, name: string): Bearer | undefined {
  const meaning = propertyMeaning(owner?.kind, name, around, owner);
  if (meaning?.type !== 'property') return undefined;
  const { property, value } = meaning;
  const [first] = value?.values ?? [];
  const thing = first?.type === 'name' ? around.protocol?.context.things.byName.get(first.name) : undefined;
  const kind =
    thing?.kind ?? (property.type?.form === 'kind' ? kindNamed(around.module, property.type.kind.text) : undefined);
  return { meaning, kind, thing };
}

function propertyMeaning(
  kind: Kind | undefined,
  name: string,
  around?: Surroundings,
  owner?: Bearer,
): Meaning | undefined {
  const property = kind?.properties.get(name);
  if (!kind || !property) return undefined;
  const holder = owner ?? (around && ownerOf(around));
  const value = holder?.thing?.values.get(name) ?? entryOf(holder)?.values.get(name);
  return { type: 'property', property, value, of: holder?.thing?.label ?? entryOf(holder)?.label ?? kind.label, kind };
}

function entryOf(bearer: Bearer | undefined) {
  return bearer?.meaning.type === 'entry' ? bearer.meaning.entry : undefined;
}

/** The thing or entry whose block the innermost statement stands in. */
function ownerOf(around: Surroundings): Bearer | undefined {
  const owner = around.path.at(-2)?.statement;
  if (owner?.type === 'thing' || owner?.type === 'entry' || owner?.type === 'value')
    return owner.name && around.named(owner.name.text);
  return undefined;
}

/** The kind whose properties or states the innermost statement speaks of. */
function kindAround(around: Surroundings): Kind | undefined {
  const owner = around.path.at(-2)?.statement;
  if (owner?.type === 'kind') return owner.name && kindNamed(around.module, owner.name.text);
  return ownerOf(around)?.kind;
}

function valueOfCase(around: Surroundings, name: string): Meaning | undefined {
  const thing = around.named(name);
  if (thing?.meaning.type === 'thing') return thing.meaning;
  const finding = findingNamed(around.module, name);
  return finding ? { type: 'finding', finding } : thing?.meaning;
}

function stateMeaning(kind: Kind | undefined, state: string): Meaning | undefined {
  const track = kind?.tracks.find((other) => other.states.has(state));
  return kind && track && { type: 'state', state, track, kind };
}

function findingMeaning(around: Surroundings, name: Name | undefined): Meaning | undefined {
  const finding = name && findingNamed(around.module, name.text);
  return finding && { type: 'finding', finding };
}

function ruleMeaning(around: Surroundings, name: Name | undefined): Meaning | undefined {
  if (!name) return undefined;
  for (const scope of around.module.closure) {
    const rule = around.module.module(scope.id)?.declarations.rule(name.text);
    if (rule) return { type: 'rule', rule };
  }
  return undefined;
}

function protocolMeaning(around: Surroundings, name: Name | undefined): Meaning | undefined {
  const declared = name && protocolNamed(around.checked, around.module, name.text);
  return declared && { type: 'protocol', declared };
}

function unitMeaning(around: Surroundings, spelling: string): Meaning | undefined {
  const parsed = parseUnit(spelling, around.module.units());
  if (!parsed.ok) return undefined;
  const found = lookUp(around.module, 'units', spelling);
  const name = found?.statement.names.find((other) => other.text === spelling);
  const declared = found && placeOf(found.scope.id, found.statement, name ?? found.statement.head);
  return { type: 'unit', spelling, unit: parsed.unit, declared };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
