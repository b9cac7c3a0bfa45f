import type { Expr, ProtocolStatement } from '@curette/grammar';
import { contraindicationOpen } from '../../problems/contraindication_open.ts';
import { type Place, problemAt, type Report } from '../../problems/problem.ts';
import { descendsFrom } from '../kinds/subkind.ts';
import { type Action, type Contraindication, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { type Chunk, perChunk } from './chunks.ts';
import { type Flow, forEachFlow } from './flow.ts';
import type { Things } from './things.ts';

/** What is listed, and what is done, says whom it is not for: the protocol must exclude them or speak of them. */
export function checkContraindications(
  module: Module,
  protocol: ProtocolStatement,
  things: Things,
  chunks: readonly Chunk[],
  report: Report,
): void {
  const spoken = new Set<string>();
  for (const item of things.key)
    if (item.type === 'exclude' || item.type === 'caution') collectRelations(item.condition, spoken);
  const patient = patientName(things);
  const ask = (list: readonly Contraindication[], place: Place, subject: Subject) => {
    const told = new Set<string>();
    const strictestFirst = [...list].sort((one, other) => Number(other.strictly) - Number(one.strictly));
    for (const { condition, ground, strictly } of strictestFirst) {
      const asked = new Set<string>();
      collectRelations(condition, asked);
      const home = module.module(ground.place.file) ?? module;
      for (const relation of asked) {
        if (spoken.has(relation) || told.has(relation)) continue;
        told.add(relation);
        report(
          problemAt(contraindicationOpen, place, {
            ...subject,
            relation,
            strictly,
            because: ground.because,
            source: home.citation(ground.source),
            file: module.id,
            protocol: protocol.id,
            patient,
            ground: ground.place,
          }),
        );
      }
    }
  };
  for (const { statement, group, label, entry, kind } of things.byName.values())
    if (statement && group !== 'given')
      ask(entry?.contraindications ?? kind.contraindications, placeOf(module.id, statement, statement.name), {
        thing: label,
        is: entry?.label ?? kind.label,
        action: undefined,
      });
  for (const [action, place] of actionsUsed(chunks))
    ask(action.contraindications, place, { thing: action.label, is: action.label, action: action.label });
}

interface Subject {
  readonly thing: string;
  readonly is: string;
  readonly action: string | undefined;
}

/** Actions with contraindications that a protocol uses, each with the first step that does; in a procedure, where it is called. */
export function actionsUsed(chunks: readonly Chunk[]): ReadonlyMap<Action, Place> {
  const first = new Map<Action, Place>();
  for (const chunk of chunks)
    for (const [action, place] of usedIn(chunk)) if (!first.has(action)) first.set(action, place);
  return first;
}

const usedIn = perChunk(({ items }) => {
  const first = new Map<Action, Place>();
  forEachFlow(items, (flow) => {
    const action = flow.type === 'step' ? flow.step.action : undefined;
    if (action?.type === 'action' && action.contraindications.length > 0 && !first.has(action))
      first.set(action, verbOf(flow));
  });
  return first;
});

function verbOf({ call, file, statement }: Flow): Place {
  return call ?? placeOf(file, statement, statement.type === 'step' ? statement.verb : statement.head);
}

function patientName(things: Things): string {
  for (const thing of things.byName.values()) if (descendsFrom(thing.kind, 'patient')) return thing.name;
  return 'patient';
}

/** `has x` … as written, without the subject */
function collectRelations(expr: Expr | undefined, into: Set<string>): void {
  if (!expr) return;
  switch (expr.type) {
    case 'relation':
      if (expr.value) into.add(`${expr.relation} ${expr.value.text}`);
      break;
    case 'and':
    case 'or':
      collectRelations(expr.left, into);
      collectRelations(expr.right, into);
      break;
    default:
      break;
  }
}
