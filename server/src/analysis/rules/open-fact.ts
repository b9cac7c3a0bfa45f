import type { Expr, PathNode } from '@curette/grammar';
import { dimensionNamed, isPoint, makeRange, type Quantity, unitsOf } from '@curette/shared';
import type { Thing } from '../protocol/things.ts';
import { type Environment, evaluate, takesTogether, withEach } from './evaluate.ts';

/** A given fact of the protocol that a condition hangs on, and what it may be. */
export interface OpenFact {
  readonly thing: Thing;
  readonly property: string;
  /** false: nothing is stated of it */
  readonly stated: boolean;
  /** what is stated or, where nothing is, what its kind takes for no slip */
  readonly possible: Quantity;
}

/** The environment in which a given fact has one value. */
export function withFact(env: Environment, { thing, property }: OpenFact, value: Quantity): Environment {
  return {
    ...env,
    fact: (other, name) => (other === thing && name === property ? value : env.fact?.(other, name)),
  };
}

/** Every given fact that an expression reads and that is a range or not stated, once each. */
export function openFacts(expr: Expr, env: Environment): readonly OpenFact[] {
  const facts: OpenFact[] = [];
  const add = (fact: OpenFact | undefined): void => {
    if (fact && !facts.some((other) => sameFact(other, fact))) facts.push(fact);
  };
  const visit = (part: Expr | undefined, around: Environment): void => {
    switch (part?.type) {
      case 'and':
      case 'or':
      case 'compare':
      case 'arithmetic':
        visit(part.left, around);
        visit(part.right, around);
        break;
      case 'not':
        visit(part.operand, around);
        break;
      case 'path':
        add(factAt(part, around));
        break;
      case 'call':
        if (part.name.text === 'total') {
          const thing = evaluate(part.args[0], around);
          const on = thing.type === 'thing' ? around.totals?.hangsOn(thing.thing) : undefined;
          add(on && openFact(on.thing, on.property));
        } else for (const each of eachWay(part, around)) for (const argument of part.args) visit(argument, each);
        break;
      default:
        break;
    }
  };
  visit(expr, env);
  return facts;
}

/** The open fact that a path reads as a whole. */
function factAt(path: PathNode, env: Environment): OpenFact | undefined {
  const read = readsLast(path, env);
  return read && openFact(read.thing, read.property);
}

/** The thing that a path leads to and the property of it that it ends with. */
export function readsLast(
  path: PathNode,
  env: Environment,
): { readonly thing: Thing; readonly property: string } | undefined {
  const last = path.names.at(-1);
  if (!last || path.names.length < 2) return undefined;
  const owner = evaluate({ ...path, names: path.names.slice(0, -1) }, env);
  if (owner.type === 'thing') return { thing: owner.thing, property: last.text };
  return undefined;
}

function openFact(thing: Thing, property: string): OpenFact | undefined {
  const declared = thing.kind.properties.get(property);
  if (declared?.type?.form !== 'quantity' || declared.type.range || !isGiven(thing)) return undefined;
  const value = thing.values.get(property)?.values[0];
  if (value) {
    const open = value.type === 'quantity' && !isPoint(value.quantity.range);
    return open ? { thing, property, stated: true, possible: value.quantity } : undefined;
  }
  const dimension = dimensionNamed(declared.type.dimension);
  const unit = declared.within?.unit ?? (dimension && unitsOf(dimension)[0]);
  if (!unit || thing.gaps.has(property)) return undefined;
  const possible = declared.within ?? {
    dimension: unit.dimension,
    range: makeRange(0, Number.POSITIVE_INFINITY, true, false),
    unit,
  };
  return { thing, property, stated: false, possible };
}

/** Given by the protocol, or spoken of by a rule (`patient`) and left open by the protocol. */
function isGiven(thing: Thing): boolean {
  return thing.group === 'given' || (thing.group === 'place' && thing.entry === undefined);
}

function sameFact(one: OpenFact, other: OpenFact): boolean {
  return one.thing === other.thing && one.property === other.property;
}

/** The environments in which a call's values are asked for: one for each of several things that it takes together. */
export function eachWay(call: Extract<Expr, { type: 'call' }>, env: Environment): readonly Environment[] {
  const together = takesTogether(call) ? env.totals?.together : undefined;
  return together ? together.things.map((thing) => withEach(env, together.name, thing)) : [env];
}
