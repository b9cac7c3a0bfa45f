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
} from '@curette/grammar';
import { COMMON_PRACTICE } from '../analysis/kinds/declarations.ts';
import { type Kind, placeOf } from '../analysis/model.ts';
import {
  actionsNamed,
  entryNamed,
  findingNamed,
  kindNamed,
  pauseNamed,
  sourceNamed,
} from '../analysis/names/resolve.ts';
import { once } from '../analysis/once.ts';
import type { Bearer, Meaning } from './meaning.ts';
import {
  bearerAt,
  bearerOfProperty,
  findingMeaning,
  propertyMeaning,
  stateMeaning,
  unitMeaning,
} from './name-meanings.ts';
import { type Surroundings, slotsOf } from './surroundings.ts';

/** Takes a word, and what it stands for when that is asked. */
export type Note = (span: Span | undefined, meaning: () => Meaning | undefined) => void;

/** Notes words of one sort each. */
export interface Reader {
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

/** A reader that knows what names mean where the innermost statement stands. */
export function readerFor(around: Surroundings, note: Note): Reader {
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
          if (isFinding(around, expr)) note(expr.subject, () => findingMeaning(around, isFinding(around, expr)));
          else read.expr(expr.subject);
          note(expr.name, () => {
            const { name, subject } = expr;
            const finding = isFinding(around, expr);
            if (finding) return foundMeaning(around, finding, name);
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
      read.expr(pattern.where);
      for (const other of pattern.others) read.pattern(other);
      if (pattern.sort === 'pause') read.pause(pattern.verb);
      else if (pattern.sort === 'finding') {
        note(pattern.verb, () => findingMeaning(around, pattern.verb));
        for (const value of pattern.values) note(value, () => foundMeaning(around, pattern.verb, value));
      } else if (pattern.sort === 'verify') {
        const owner = pattern.slots[0]?.kind;
        note(pattern.verb, () => {
          const kind = owner && kindNamed(module, owner.text);
          return kind && pattern.verb && propertyMeaning(kind, pattern.verb.text, around);
        });
      } else if (pattern.sort === 'step')
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

/** The name of the finding that a condition asks about; undefined where it stands for a thing. */
function isFinding(
  { module }: Surroundings,
  { subject, name: value, for: age }: Extract<Expr, { type: 'is' }>,
): Name | undefined {
  const [name, ...more] = subject.type === 'path' && !age ? subject.names : [];
  if (!name || more.length > 0 || !value) return undefined;
  return findingNamed(module, name.text)?.values.has(value.text) ? name : undefined;
}

function foundMeaning(around: Surroundings, name: Name | undefined, value: Name | undefined): Meaning | undefined {
  const finding = name && findingNamed(around.module, name.text);
  return finding && value && finding.values.has(value.text)
    ? { type: 'finding value', finding, value: value.text }
    : undefined;
}
