import type { KindStatement, Name, PropertyType, Relation, Statement } from '@curette/grammar';
import { duplicateName } from '../../problems/duplicate_name.ts';
import { kindOfItself } from '../../problems/kind_of_itself.ts';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownKind } from '../../problems/unknown_kind.ts';
import { unknownState } from '../../problems/unknown_state.ts';
import { type AgeLimit, type Contraindication, type Duty, type Kind, type Property, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { lookUp, visibleNames } from '../names/module.ts';
import { kindNamed } from '../names/resolve.ts';
import { checkPause } from '../rules/pause.ts';
import { checkAge } from './age.ts';
import { readContraindication } from './contraindication.ts';
import { groundOf } from './ground.ts';
import { readQuantity } from './quantity.ts';
import { buildTracks } from './tracks.ts';

/** Resolves a declaration of a kind: its parent's properties, tracks, limits and duties come first, its own after. */
export function resolveKind(module: Module, statement: KindStatement, name: string, report: Report): Kind {
  const file = module.id;
  const parent = statement.parent ? parentOf(module, statement, statement.parent, report) : undefined;
  const items = statement.body?.items ?? [];

  const properties = new Map(parent?.properties);
  const own = new Map<string, Statement>();
  const ages: AgeLimit[] = [...(parent?.ages ?? [])];
  const duties: Duty[] = [...(parent?.duties ?? [])];
  const servesAs: Kind[] = [...(parent?.servesAs ?? [])];
  const contraindications: Contraindication[] = [...(parent?.contraindications ?? [])];
  const relations: Record<Relation, Set<string>> = {
    has: new Set(parent?.relations.has),
    takes: new Set(parent?.relations.takes),
    'allergic to': new Set(parent?.relations['allergic to']),
  };
  const tracks = buildTracks(parent?.tracks ?? [], items);

  const knownState = (state: Name, where: Statement): boolean => {
    const known = tracks.some((track) => track.states.has(state.text));
    if (!known)
      report(
        problemAt(unknownState, placeOf(file, where, state), {
          kind: statement.label?.value ?? name,
          state: state.text,
          states: tracks.flatMap((track) => [...track.states]),
          place: placeOf(file, where, state),
        }),
      );
    return known;
  };

  for (const item of items) {
    switch (item.type) {
      case 'property': {
        const first = own.get(item.name.text);
        if (first) {
          report(
            problemAt(duplicateName, placeOf(file, item, item.name), {
              name: item.name.text,
              first: placeOf(file, first, first.head),
            }),
          );
          break;
        }
        own.set(item.name.text, item);
        properties.set(item.name.text, {
          name: item.name.text,
          type: item.value && checkedType(module, item, item.value, report),
          within: item.within && readQuantity(module, item, item.within, report),
          ground: groundOf(file, item, item),
          owner: name,
          from: item.from?.text,
        } satisfies Property);
        break;
      }
      case 'lasts':
        knownState(item.state, item);
        if (item.atMost)
          ages.push({
            state: item.state.text,
            atMost: item.atMost,
            then: item.then?.text,
            ground: groundOf(file, item, item),
          });
        break;
      case 'must end':
        for (const state of item.states) knownState(state, item);
        if (item.pause) checkPause(module, item, item.pause, report);
        if (item.by && item.states.length > 0)
          duties.push({
            states: item.states.map((state) => state.text),
            by: item.by,
            pause: item.pause?.text,
            ground: groundOf(file, item, item),
          });
        break;
      case 'serves as': {
        const as = item.kind && kindOrReport(module, item, item.kind, report);
        if (as) servesAs.push(as);
        break;
      }
      case 'relation':
        for (const value of item.values) relations[item.relation].add(value.text);
        break;
      case 'contraindicated':
      case 'caution': {
        const contraindication = readContraindication(module, item, report);
        if (contraindication) contraindications.push(contraindication);
        break;
      }
      default:
        break;
    }
  }
  const label = statement.label?.value ?? name;
  for (const item of items)
    if (item.type === 'lasts' && item.atMost)
      checkAge(module, item, item.atMost, 'lasts', ({ names }) => ({ kind: { label, properties }, names }), report);
  return {
    file,
    statement,
    name,
    label: statement.label?.value ?? name.replaceAll('_', ' '),
    parent,
    properties,
    tracks,
    ages,
    duties,
    servesAs,
    relations,
    contraindications,
  };
}

/** The kind a name means; an unknown one is reported where it is written. */
export function kindOrReport(module: Module, statement: Statement, name: Name, report: Report): Kind | undefined {
  const kind = kindNamed(module, name.text);
  if (!kind) reportUnknownKind(module, statement, name, report);
  return kind;
}

function reportUnknownKind(module: Module, statement: Statement, name: Name, report: Report): void {
  // A kind that exists but is its own ancestor is told once, at its declaration.
  if (lookUp(module, 'kinds', name.text)) return;
  const place = placeOf(module.id, statement, name);
  report(
    problemAt(unknownKind, place, {
      name: name.text,
      candidates: visibleNames(module, 'kinds'),
      library: module.elsewhere(['kinds'], name.text),
      place,
    }),
  );
}

function parentOf(module: Module, statement: KindStatement, parent: Name, report: Report): Kind | undefined {
  if (!leadsBack(module, statement)) {
    const kind = kindNamed(module, parent.text);
    if (!kind) reportUnknownKind(module, statement, parent, report);
    return kind;
  }
  report(
    problemAt(kindOfItself, placeOf(module.id, statement, parent), {
      name: statement.name?.text ?? '',
      parent: parent.text,
    }),
  );
  return undefined;
}

/** Whether a kind is its own ancestor: told of each kind of the ring alike, whichever is asked for first. */
function leadsBack(module: Module, start: KindStatement): boolean {
  const seen = new Set<KindStatement>();
  let here: Module | undefined = module;
  let statement: KindStatement = start;
  while (here && statement.parent && !seen.has(statement)) {
    seen.add(statement);
    const found = lookUp(here, 'kinds', statement.parent.text);
    if (!found) return false;
    if (found.statement === start) return true;
    here = here.module(found.scope.id);
    statement = found.statement;
  }
  return false;
}

function checkedType(
  module: Module,
  statement: Statement,
  type: PropertyType,
  report: Report,
): PropertyType | undefined {
  if (type.form === 'kind') return kindOrReport(module, statement, type.kind, report) ? type : undefined;
  return type;
}
