import {
  type ActionStatement,
  type CaseStatement,
  type Container,
  type ForEachStatement,
  type Pattern,
  type Placed,
  type ProcedureStatement,
  type ProtocolStatement,
  pathAt,
  type RuleStatement,
  type Slot,
  type Statement,
  type StepStatement,
} from '@curette/grammar';
import type { FileFacts } from '../analysis/analysis.ts';
import { type Declared, placeOf, type SlotModel } from '../analysis/model.ts';
import type { Module } from '../analysis/names/module.ts';
import { actionsNamed, entryNamed, kindNamed } from '../analysis/names/resolve.ts';
import type { Flow } from '../analysis/protocol/flow.ts';
import { type NameScope, protocolScope } from '../analysis/protocol/name-scope.ts';
import { slotScope } from '../analysis/protocol/procedure.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';
import { type ResolvedStep, resolveStep } from '../analysis/protocol/step.ts';
import { readThings } from '../analysis/protocol/things.ts';
import type { SourceFile } from '../analysis/snapshot.ts';
import type { FileId } from '../problems/problem.ts';
import type { Checked } from './checked.ts';
import type { Bearer, Meaning } from './meaning.ts';

/** What stands around a place in a file, and what names mean there. */
export interface Surroundings {
  readonly checked: Checked;
  readonly file: SourceFile;
  readonly module: Module;
  /** the statements around the place, outermost first, the innermost one last */
  readonly path: readonly Placed[];
  /** the protocol around it */
  readonly protocol: ProtocolFacts | undefined;
  /** what names mean in that protocol */
  readonly scope: NameScope | undefined;
  /** how the checker has read a step of it, where it has */
  readonly flow: (statement: number) => Flow | undefined;
  /** what a name stands for here: a thing of the protocol, a slot, an entry, a kind */
  readonly named: (name: string) => Bearer | undefined;
}

/** Undefined when there is no such file, or when it is not text. */
export function surroundingsAt(checked: Checked, id: FileId, offset: number): Surroundings | undefined {
  const facts = checked.facts(id);
  if (!facts?.module) return undefined;
  return surroundingsOf(checked, facts, facts.module, pathAt(facts.file.tree, offset));
}

export function surroundingsOf(
  checked: Checked,
  facts: FileFacts,
  module: Module,
  path: readonly Placed[],
): Surroundings {
  const top = path[0]?.statement;
  const protocol =
    top?.type === 'protocol' ? facts.protocols.find((other) => other.statement.id === top.id) : undefined;
  const checkedNames = (home: Module, statement: ProtocolStatement): ProtocolNames | undefined => {
    const found = checked.facts(home.id)?.protocols.find((other) => other.statement.id === statement.id);
    return found && { file: home.id, scope: found.context.lowering.scope, facts: () => found };
  };
  const names = protocol && { file: module.id, scope: protocol.context.lowering.scope, facts: () => protocol };
  return {
    checked,
    file: facts.file,
    module,
    path,
    protocol,
    scope: names?.scope,
    flow: (statement) => protocol?.flow(statement),
    named: namesIn(checked, module, top, names, checkedNames),
  };
}

/**
 * The same for a file that need not be checked for it: names are found from the heads of its protocols alone. For one look at
 * each of very many files.
 */
export function surroundingsUnchecked(
  checked: Checked,
  file: SourceFile,
  module: Module,
  path: readonly Placed[],
): Surroundings {
  const top = path[0]?.statement;
  const facts = (home: Module, statement: ProtocolStatement) =>
    checked.facts(home.id)?.protocols.find((other) => other.statement.id === statement.id);
  const headNames = (home: Module, statement: ProtocolStatement): ProtocolNames => ({
    file: home.id,
    scope: headScope(home, statement),
    facts: () => facts(home, statement),
  });
  const names = top?.type === 'protocol' ? headNames(module, top) : undefined;
  return {
    checked,
    file,
    module,
    path,
    get protocol() {
      return top?.type === 'protocol' ? facts(module, top) : undefined;
    },
    scope: names?.scope,
    flow: () => undefined,
    named: namesIn(checked, module, top, names, headNames),
  };
}

const headScopes = new WeakMap<Module, WeakMap<ProtocolStatement, NameScope>>();

function headScope(module: Module, statement: ProtocolStatement): NameScope {
  let scopes = headScopes.get(module);
  if (!scopes) {
    scopes = new WeakMap();
    headScopes.set(module, scopes);
  }
  let scope = scopes.get(statement);
  if (!scope) {
    scope = protocolScope(module, readThings(module, statement));
    scopes.set(statement, scope);
  }
  return scope;
}

/** What the names of a protocol's things stand for, and the protocol's facts for whoever asks for more. */
interface ProtocolNames {
  readonly file: FileId;
  readonly scope: NameScope;
  readonly facts: () => ProtocolFacts | undefined;
}

/** The block that a statement stands in. */
export function containerOf(path: readonly Placed[]): Container {
  return path.at(-2)?.statement.body?.container ?? 'file';
}

function namesIn(
  checked: Checked,
  module: Module,
  top: Statement | undefined,
  names: ProtocolNames | undefined,
  namesOf: (home: Module, statement: ProtocolStatement) => ProtocolNames | undefined,
): (name: string) => Bearer | undefined {
  const declared = (name: string) => declaredIn(module, name);
  const thingOf = ({ file, scope, facts }: ProtocolNames, name: string): Bearer | undefined => {
    const thing = scope.thing(name);
    return thing && { meaning: { type: 'thing', thing, file, facts }, kind: thing.kind, thing };
  };
  if (!top) return declared;
  switch (top.type) {
    case 'protocol':
      return (name) => (names && thingOf(names, name)) ?? declared(name);
    case 'case': {
      const home = homeOf(checked, module, top);
      const given = home && namesOf(home.module, home.statement);
      return (name) => (given && thingOf(given, name)) ?? declared(name) ?? (home && declaredIn(home.module, name));
    }
    // A limit on a state may be a property of the kind itself.
    case 'kind': {
      const kind = top.name && kindNamed(module, top.name.text);
      return (name) => {
        const property = kind?.properties.get(name);
        if (!kind || !property) return declared(name);
        const meaning: Meaning = { type: 'property', property, value: undefined, of: kind.label, kind };
        return { meaning, kind: undefined, thing: undefined };
      };
    }
    case 'action':
    case 'procedure':
    case 'rule': {
      const slots = slotsOf(module, top);
      return (name) => {
        const slot = slots.find((other) => other.model.name === name);
        if (!slot) return declared(name);
        const { accepts } = slot.model;
        return {
          meaning: {
            type: 'slot',
            slot: slot.model,
            place: placeOf(module.id, slot.statement, slot.node.name ?? slot.node),
          },
          kind: accepts.type === 'kind' ? accepts.kind : undefined,
          thing: undefined,
        };
      };
    }
    default:
      return declared;
  }
}

function declaredIn(module: Module, name: string): Bearer | undefined {
  const entry = entryNamed(module, name);
  if (entry) return { meaning: { type: 'entry', entry }, kind: entry.kind, thing: undefined };
  const kind = kindNamed(module, name);
  return kind && { meaning: { type: 'kind', kind }, kind, thing: undefined };
}

/** The protocol that a case is of, and the file whose names the case understands with it. */
export function homeOf(
  checked: Checked,
  module: Module,
  { of }: CaseStatement,
): { readonly module: Module; readonly statement: ProtocolStatement } | undefined {
  const declared = of && protocolNamed(checked, module, of.text);
  const home = declared && checked.modules().module(declared.file);
  return home && { module: home, statement: declared.statement };
}

/** The slots that an action's lines, a procedure's steps or a rule's conditions may speak of. */
export function slotsOf(
  module: Module,
  statement: ActionStatement | ProcedureStatement | RuleStatement,
): readonly { readonly model: SlotModel; readonly node: Slot; readonly statement: Statement }[] {
  if (statement.type === 'rule')
    return (statement.body?.items ?? []).flatMap((item) =>
      (item.type === 'for each' ? [slotOfEach(item)] : patternsOf(item).flatMap((pattern) => pattern.slots)).map(
        (node) => ({ model: slotModel(module, node), node, statement: item }),
      ),
    );
  const { verb } = statement;
  const action = verb && actionsNamed(module, verb.text).find((other) => other.statement === statement);
  return statement.slots.map((node, i) => ({ model: action?.slots[i] ?? slotModel(module, node), node, statement }));
}

/** What `for each drug d` gives a name to, as a slot: always the same for one statement. */
export function slotOfEach(item: ForEachStatement): Slot {
  const known = eachSlots.get(item);
  if (known) return known;
  const { kind, name, head } = item;
  const slot: Slot = {
    start: kind?.start ?? head.start,
    end: name?.end ?? kind?.end ?? head.end,
    preposition: undefined,
    optional: false,
    many: false,
    kind,
    name,
  };
  eachSlots.set(item, slot);
  return slot;
}

const eachSlots = new WeakMap<ForEachStatement, Slot>();

/** The steps that a rule's line looks for. */
export function patternsOf(item: Statement): readonly Pattern[] {
  switch (item.type) {
    case 'whenever':
    case 'count':
    case 'pause rule':
      return item.pattern ? [item.pattern] : [];
    case 'between':
    case 'order':
      return [item.first, item.second].filter((pattern) => pattern !== undefined);
    default:
      return [];
  }
}

function slotModel(module: Module, node: Slot): SlotModel {
  const kind = node.kind && kindNamed(module, node.kind.text);
  const kindWord = node.kind?.text ?? '';
  return {
    preposition: node.preposition?.text,
    optional: node.optional,
    many: node.many,
    accepts: kind ? { type: 'kind', kind } : { type: 'unknown' },
    name: node.name?.text ?? kindWord,
    kindWord,
  };
}

/** How the checker reads a step where it stands. */
export function stepAt(around: Surroundings, step: StepStatement): ResolvedStep | undefined {
  const flow = around.flow(step.id);
  if (flow && (flow.type === 'step' || flow.type === 'call')) return flow.step;
  const scope = scopeAt(around);
  return scope && resolveStep(scope, step);
}

/** What names mean to a step; undefined where no step can stand. */
export function scopeAt(around: Surroundings): NameScope | undefined {
  if (around.scope) return around.scope;
  const top = around.path[0]?.statement;
  if (top?.type !== 'procedure') return undefined;
  return slotScope(
    around.module,
    slotsOf(around.module, top).map(({ model }) => model),
  );
}

/** A protocol that this file can name. */
export function protocolNamed(checked: Checked, module: Module, name: string): Declared<ProtocolStatement> | undefined {
  for (const scope of module.visible) {
    if (!scope.protocols.has(name)) continue;
    const items = checked.snapshot().file(scope.id)?.tree.body.items ?? [];
    for (const item of items)
      if (item.type === 'protocol' && item.name?.text === name) return { file: scope.id, statement: item };
  }
  return undefined;
}
