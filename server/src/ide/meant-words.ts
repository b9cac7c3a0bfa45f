import type { Expr, Span, Statement, StatementOf, StepStatement } from '@curette/grammar';
import { actionsNamed, entryNamed, findingNamed, kindNamed } from '../analysis/names/resolve.ts';
import { resolveUse } from '../analysis/use-path.ts';
import type { Meaning } from './meaning.ts';
import {
  bearerAt,
  figuresMeaning,
  findingMeaning,
  groupMeaning,
  kindAround,
  propertyMeaning,
  protocolMeaning,
  ruleMeaning,
  unitMeaning,
  valueOfCase,
} from './name-meanings.ts';
import { type Reader, readerFor } from './reader.ts';
import { patternsOf, type Surroundings, slotOfEach, stepAt } from './surroundings.ts';

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
    case 'figures':
      note(statement.name, () => figuresMeaning(around, statement.name));
      note(statement.group, () => groupMeaning(around, statement.group));
      break;
    case 'figure':
      read.kindOrEntry(statement.name);
      break;
    case 'apply':
      note(statement.name, () => figuresMeaning(around, statement.name));
      read.grounds(statement);
      break;
    case 'property':
      note(statement.name, () => propertyMeaning(ownKind(), statement.name.text));
      if (statement.value?.form === 'kind') read.kind(statement.value.kind);
      read.amount(statement.within);
      note(statement.from, () => groupMeaning(around, statement.from));
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
      for (const value of statement.values) readValue(around, statement, value, read);
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
      read.slot(slotOfEach(statement), statement);
      read.expr(statement.where);
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
    case 'start':
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

/** A value of a closed set is no name of a thing; in a case it may be what was found. */
function readValue(around: Surroundings, { name }: StatementOf<'value'>, value: Expr, read: Reader): void {
  const [word, ...rest] = value.type === 'path' ? value.names : [];
  if (!word || rest.length > 0) {
    read.expr(value);
    return;
  }
  const owner = () =>
    around.path.at(-2)?.statement.type === 'case'
      ? valueOfCase(around, name.text)
      : propertyMeaning(kindAround(around), name.text, around);
  read.note(word, () => {
    const meaning = owner();
    if (meaning?.type === 'finding')
      return meaning.finding.values.has(word.text)
        ? { type: 'finding value', finding: meaning.finding, value: word.text }
        : undefined;
    const form = meaning?.type === 'property' ? meaning.property.type?.form : undefined;
    return form === undefined || form === 'kind' ? around.named(word.text)?.meaning : undefined;
  });
}

function readStep(around: Surroundings, step: StepStatement, read: Reader): void {
  const { module, scope } = around;
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
      if (first && rest.length === 0 && scope)
        read.note(first, () => {
          for (const filling of resolved()?.fillings.values() ?? [])
            if (filling.type === 'things')
              for (const one of filling.things)
                if (one.span.start === thing.start)
                  return { type: 'thing', thing: one.thing, file: module.id, facts: () => around.protocol };
          return around.named(first.text)?.meaning;
        });
      else read.path(thing);
    }
  read.clauses(step);
}
