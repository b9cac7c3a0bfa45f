import type { Module } from '../names/module.ts';
import type { Environment } from '../rules/evaluate.ts';
import { givenStandIn } from './stand-in.ts';
import type { Filling } from './step.ts';
import type { Things } from './things.ts';

/** What the names in a rule's conditions mean: those of its patterns, then the protocol's things and places. */
export function ruleEnvironment(
  module: Module,
  things: Things,
  file: string,
  bound: ReadonlyMap<string, Filling>,
): Environment {
  return {
    module: module.module(file) ?? module,
    filling: (name) => bound.get(name),
    thing: (name) => things.byName.get(name) ?? givenStandIn(things, name) ?? things.unlisted(name),
    state: undefined,
    // Of patients whom the protocol excludes, nothing is asked.
    relation: (relation) => (things.excluded.has(relation) ? false : undefined),
  };
}
