import type { ActionStatement, Expr, PathNode, ProcedureStatement, Slot, Statement } from '@curette/grammar';
import { dimensionNamed } from '@curette/shared';
import { problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { unknownState } from '../../problems/unknown_state.ts';
import { checkAge, checkOutlasting, type PropertyPath } from '../kinds/age.ts';
import { readContraindication } from '../kinds/contraindication.ts';
import { notStated, readDuration } from '../kinds/duration.ts';
import { groundOf } from '../kinds/ground.ts';
import { kindOrReport } from '../kinds/kind.ts';
import { descendsFrom } from '../kinds/subkind.ts';
import {
  type Action,
  type Contraindication,
  type Duration,
  type Effect,
  type Ground,
  type Kind,
  type Need,
  type Procedure,
  placeOf,
  type SlotModel,
  type UseUp,
} from '../model.ts';
import type { Module } from '../names/module.ts';
import { visibleNames } from '../names/module.ts';
import { entryNamed, kindNamed } from '../names/resolve.ts';

/** Resolves an action: slots to kinds and measures, what it needs and makes to states its slots' kinds have. */
export function resolveAction(module: Module, statement: ActionStatement, verb: string, report: Report): Action {
  const file = module.id;
  const slots = statement.slots.map((slot) => resolveSlot(module, statement, slot, report));
  const needs: Need[] = [];
  const makes: Effect[] = [];
  const usesUp: UseUp[] = [];
  const contraindications: Contraindication[] = [];
  let takes: Duration = notStated;
  const by: string[] = [];
  let ground: Ground = groundOf(file, statement, {});

  for (const item of statement.body?.items ?? []) {
    switch (item.type) {
      case 'needs':
        for (const condition of item.conditions) {
          // A half-typed need names its thing and not yet its state; the line says so itself.
          if (condition.type === 'path' && item.flaws.length > 0) continue;
          checkNames(module, item, condition, slots, report);
          needs.push({ condition, ground: groundOf(file, item, item) });
        }
        break;
      case 'makes':
        for (const effect of item.effects) {
          if (!effect.state) continue;
          const kind = kindOfPath(module, item, effect.subject, slots, report);
          if (kind) checkState(module, item, kind, effect.state, report);
          makes.push({
            path: effect.subject.names.map((name) => name.text),
            state: effect.state.text,
            place: placeOf(file, item, { start: effect.subject.start, end: effect.state.end }),
          });
        }
        break;
      case 'uses up':
        if (!item.thing) break;
        kindOfPath(module, item, item.thing, slots, report);
        usesUp.push({
          path: item.thing.names.map((name) => name.text),
          bound: item.bound,
          amount: item.amount,
          place: placeOf(file, item, item.head),
        });
        break;
      case 'takes':
        takes = readDuration(module, item, item, report);
        break;
      case 'by':
        for (const role of item.roles) if (checkRole(module, item, role, report)) by.push(role.text);
        break;
      case 'contraindicated':
      case 'caution': {
        const contraindication = readContraindication(module, item, report);
        if (contraindication) contraindications.push(contraindication);
        break;
      }
      case 'source reference':
        ground = { ...ground, source: item.source?.text };
        break;
      default:
        break;
    }
  }
  return {
    type: 'action',
    file,
    statement,
    verb,
    label: statement.label?.value ?? sentenceCase(verb),
    slots,
    needs,
    makes,
    usesUp,
    contraindications,
    takes,
    by,
    ground,
  };
}

export function resolveProcedure(
  module: Module,
  statement: ProcedureStatement,
  verb: string,
  report: Report,
): Procedure {
  return {
    type: 'procedure',
    file: module.id,
    statement,
    verb,
    label: statement.label?.value ?? sentenceCase(verb),
    slots: statement.slots.map((slot) => resolveSlot(module, statement, slot, report)),
  };
}

/** A slot of an action, a procedure or a rule's pattern. */
export function resolveSlot(module: Module, statement: Statement, slot: Slot, report: Report): SlotModel {
  const word = slot.kind?.text ?? '';
  return {
    preposition: slot.preposition?.text,
    optional: slot.optional,
    many: slot.many,
    accepts: accepted(module, statement, slot, report),
    name: slot.name?.text ?? word,
    kindWord: word,
  };
}

/** Whether a name is a role of the library or the institution; reported when it is not. */
export function checkRole(
  module: Module,
  statement: Statement,
  role: { readonly text: string; readonly start: number; readonly end: number },
  report: Report,
): boolean {
  const entry = entryNamed(module, role.text);
  if (entry && descendsFrom(entry.kind, 'role')) return true;
  const place = placeOf(module.id, statement, role);
  const roles = [...visibleNames(module, 'entries')].filter((name) => {
    const other = entryNamed(module, name);
    return other !== undefined && descendsFrom(other.kind, 'role');
  });
  report(
    problemAt(unknownName, place, {
      name: role.text,
      wanted: 'role',
      candidates: roles,
      library: module.elsewhere(['entries'], role.text),
      place,
    }),
  );
  return false;
}

function accepted(module: Module, statement: Statement, slot: Slot, report: Report): SlotModel['accepts'] {
  if (!slot.kind) return { type: 'unknown' };
  const word = slot.kind.text;
  if (word === 'size') return { type: 'quantity', dimension: 'size' };
  if (word === 'text') return { type: 'text' };
  const dimension = dimensionNamed(word);
  if (dimension) return { type: 'quantity', dimension };
  const kind = kindOrReport(module, statement, slot.kind, report);
  return kind ? { type: 'kind', kind } : { type: 'unknown' };
}

function slotNamed(slots: readonly SlotModel[], name: string): SlotModel | undefined {
  return slots.find((slot) => slot.name === name);
}

/** The kind a path from a slot leads to, through properties that name kinds. */
function kindOfPath(
  module: Module,
  statement: Statement,
  path: PathNode,
  slots: readonly SlotModel[],
  report: Report,
): Kind | undefined {
  const [first, ...rest] = path.names;
  if (!first) return undefined;
  const slot = slotNamed(slots, first.text);
  if (!slot) {
    const place = placeOf(module.id, statement, first);
    report(
      problemAt(unknownName, place, {
        name: first.text,
        wanted: 'part of this action',
        candidates: slots.map((other) => other.name),
        library: undefined,
        place,
      }),
    );
    return undefined;
  }
  let kind = slot.accepts.type === 'kind' ? slot.accepts.kind : undefined;
  for (const name of rest) {
    const type = kind?.properties.get(name.text)?.type;
    kind = type?.form === 'kind' ? kindNamed(module, type.kind.text) : undefined;
  }
  return kind;
}

/** The properties that a path from a slot goes through; undefined when they are not known. */
function fromSlot(
  module: Module,
  statement: Statement,
  path: PathNode,
  slots: readonly SlotModel[],
  report: Report,
): PropertyPath | undefined {
  const [first, ...names] = path.names;
  const kind = first && kindOfPath(module, statement, { ...path, names: [first] }, slots, report);
  return kind && { kind, names };
}

function checkState(
  module: Module,
  statement: Statement,
  kind: Kind,
  state: { readonly text: string; readonly start: number; readonly end: number },
  report: Report,
): void {
  if (kind.tracks.some((track) => track.states.has(state.text))) return;
  const place = placeOf(module.id, statement, state);
  report(
    problemAt(unknownState, place, {
      kind: kind.label,
      state: state.text,
      states: kind.tracks.flatMap((track) => [...track.states]),
      place,
    }),
  );
}

/** The names in a condition must be slots, and the states states of their kinds. */
function checkNames(
  module: Module,
  statement: Statement,
  expr: Expr | undefined,
  slots: readonly SlotModel[],
  report: Report,
): void {
  if (!expr) return;
  switch (expr.type) {
    case 'state': {
      const kind = kindOfPath(module, statement, expr.subject, slots, report);
      if (kind) checkState(module, statement, kind, expr.state, report);
      if (!expr.for) break;
      checkAge(module, statement, expr.for, 'for', (path) => fromSlot(module, statement, path, slots, report), report);
      if (kind) checkOutlasting(module, statement, kind, expr.state.text, expr.for, report);
      break;
    }
    case 'is':
      if (expr.for)
        checkAge(
          module,
          statement,
          expr.for,
          'for',
          (path) => fromSlot(module, statement, path, slots, report),
          report,
        );
      break;
    case 'and':
    case 'or':
    case 'compare':
    case 'arithmetic':
      checkNames(module, statement, expr.left, slots, report);
      checkNames(module, statement, expr.right, slots, report);
      break;
    case 'not':
      checkNames(module, statement, expr.operand, slots, report);
      break;
    default:
      break;
  }
}

function sentenceCase(verb: string): string {
  const words = verb.replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
