import type { Argument, Name, PathNode, Span, StepPart, StepStatement } from '@curette/grammar';
import { commonDimension, fitTo, type Quantity, type Size } from '@curette/shared';
import { extraDetail } from '../../problems/extra_detail.ts';
import { missingSlot } from '../../problems/missing_slot.ts';
import { notListed } from '../../problems/not_listed.ts';
import { type Problem, problemAt, type Report } from '../../problems/problem.ts';
import { roleMayNot } from '../../problems/role_may_not.ts';
import { roleNotInTeam } from '../../problems/role_not_in_team.ts';
import { undecidedNeed } from '../../problems/undecided.ts';
import { unknownAction } from '../../problems/unknown_action.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { unknownProperty } from '../../problems/unknown_property.ts';
import { wrongKind } from '../../problems/wrong_kind.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { checkSource } from '../kinds/declarations.ts';
import { notStated, readDuration } from '../kinds/duration.ts';
import { readQuantity, readSize } from '../kinds/quantity.ts';
import { descendsFrom, fitsKind, kindDistance } from '../kinds/subkind.ts';
import { type Action, type Duration, type Procedure, placeOf, type SlotModel } from '../model.ts';
import { visibleNames } from '../names/module.ts';
import { actionsNamed, entryNamed } from '../names/resolve.ts';
import { type Followed, followPath, type NameScope } from './name-scope.ts';
import type { Thing } from './things.ts';
import { checkTimeTaken } from './time-taken.ts';

/** What stands in a slot of a step. */
export type Filling =
  | { readonly type: 'things'; readonly things: readonly { readonly thing: Thing; readonly span: Span }[] }
  | { readonly type: 'quantity'; readonly quantity: Quantity; readonly span: Span }
  | { readonly type: 'size'; readonly sides: Size; readonly span: Span }
  | { readonly type: 'text'; readonly text: string; readonly span: Span };

export interface ResolvedStep {
  readonly action: Action | Procedure | undefined;
  /** by slot name */
  readonly fillings: ReadonlyMap<string, Filling>;
  readonly duration: Duration;
  readonly by: readonly string[];
  /** every thing named, whether or not the action has a place for it */
  readonly named: readonly Thing[];
  readonly problems: readonly Problem[];
}

/** Finds the action a step means among those of its verb and puts the step's things into its slots. */
export function resolveStep(scope: NameScope, step: StepStatement): ResolvedStep {
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const { module } = scope;
  const candidates = actionsNamed(module, step.verb.text);
  const details = step.parts.flatMap((part) =>
    part.arguments.flatMap((argument) => readDetails(scope, step, part, argument, report)),
  );
  if (candidates.length === 0) {
    const place = placeOf(module.id, step, step.verb);
    report(
      problemAt(unknownAction, place, {
        verb: step.verb.text,
        candidates: visibleNames(module, 'verbs'),
        library: module.elsewhere(['verbs'], step.verb.text),
        place,
      }),
    );
  }
  const [first, ...others] = candidates.map((action) => matchAction(action, step, details));
  let best = first;
  for (const other of others) if (best && other.penalty < best.penalty) best = other;

  if (best) reportMisfits(scope, step, best, report);
  const duration = stepDuration(scope, step, best?.action, report);
  checkRoles(scope, step, best?.action, report);
  if (step.source) checkSource(module, step.id, step.source, report);
  return {
    action: best?.action,
    fillings: best ? fillingsOf(best) : new Map(),
    duration,
    by: step.by.map((role) => role.text),
    named: details.flatMap((detail) => detail.thing ?? []),
    problems,
  };
}

/** One thing or measure of a step, read once, whatever action it then belongs to. */
interface Detail {
  readonly part: StepPart;
  readonly thing: Thing | undefined;
  /** a name stood there, known or not */
  readonly named: boolean;
  readonly thingSpan: Span | undefined;
  readonly quantity: Quantity | undefined;
  readonly size: Size | undefined;
  readonly measured: boolean;
  readonly measureSpan: Span | undefined;
  readonly text: { readonly value: string; readonly span: Span } | undefined;
}

interface Fit {
  readonly action: Action | Procedure;
  readonly filled: Map<SlotModel, Detail[]>;
  readonly missing: SlotModel[];
  readonly extra: { readonly detail: Detail; readonly what: 'thing' | 'measure' | 'text' }[];
  readonly misfits: { readonly slot: SlotModel; readonly detail: Detail }[];
  readonly penalty: number;
}

/** What one argument says: a name that a procedure was given several things for stands for each of them. */
function readDetails(
  scope: NameScope,
  step: StepStatement,
  part: StepPart,
  argument: Argument,
  report: Report,
): readonly Detail[] {
  const detail = readDetail(scope, step, part, argument, report);
  const [name, ...path] = argument.thing?.names ?? [];
  if (!name || path.length > 0) return [detail];
  const { part: same, named, thingSpan } = detail;
  const others = scope.several(name.text).slice(1);
  return [detail, ...others.map((thing): Detail => ({ ...nothing, part: same, named, thingSpan, thing }))];
}

const nothing = {
  quantity: undefined,
  size: undefined,
  measured: false,
  measureSpan: undefined,
  text: undefined,
} as const;

function readDetail(scope: NameScope, step: StepStatement, part: StepPart, argument: Argument, report: Report): Detail {
  const { module } = scope;
  let thing: Thing | undefined;
  if (argument.thing) {
    const followed = followPath(scope, argument.thing);
    if (followed?.ok) thing = followed.thing;
    else if (followed) reportLost(scope, step, followed, report);
    if (thing) checkListed(scope, step, argument.thing.names[0], thing, report);
  }
  const amount = argument.amount;
  return {
    part,
    thing,
    named: argument.thing !== undefined,
    thingSpan: argument.thing,
    quantity: amount?.type === 'quantity' ? readQuantity(module, step, amount, report) : undefined,
    size: amount?.type === 'size' ? readSize(module, step, amount, report) : undefined,
    measured: amount !== undefined,
    measureSpan: amount,
    text: argument.text && { value: argument.text.value, span: argument.text },
  };
}

/** A path that leads to no thing: told at the name where it is lost. */
function reportLost(
  scope: NameScope,
  statement: Parameters<typeof placeOf>[1],
  lost: Extract<Followed, { ok: false }>,
  report: Report,
): void {
  const { module } = scope;
  const { name, of } = lost;
  const place = placeOf(module.id, statement, name);
  if (lost.reason === 'not stated') {
    const property = name.text.replaceAll('_', ' ');
    const missing = `the ${property} of ${lost.of.label}`;
    report(problemAt(undecidedNeed, place, { what: `which ${property} is meant`, missing, rule: undefined }));
  } else if (of)
    report(
      problemAt(unknownProperty, place, {
        property: name.text,
        kind: of.kind.label,
        known: [...of.kind.properties.keys()],
        place,
      }),
    );
  else
    report(
      problemAt(unknownName, place, {
        name: name.text,
        wanted: 'thing of this protocol',
        candidates: [...scope.names(), ...placeNames(scope)],
        library: module.elsewhere(['entries', 'kinds'], name.text),
        place,
      }),
    );
}

/** Materials and instruments are listed, since tray and order are made from the lists; places need no list. */
function checkListed(
  scope: NameScope,
  step: StepStatement,
  name: Name | undefined,
  thing: Thing,
  report: Report,
): void {
  if (thing.statement || !name || scope.inside === 'procedure') return;
  const group = descendsFrom(thing.kind, 'material')
    ? 'materials'
    : descendsFrom(thing.kind, 'instrument')
      ? 'instruments'
      : undefined;
  if (!group) return;
  report(
    problemAt(notListed, placeOf(scope.module.id, step, name), {
      name: name.text,
      label: thing.label,
      group,
      file: scope.module.id,
      things: scope.things,
    }),
  );
}

/** The thing a path outside a step names; reported when there is none. */
export function thingOrReport(
  scope: NameScope,
  statement: Parameters<typeof placeOf>[1],
  path: PathNode | undefined,
  report: Report,
): Thing | undefined {
  const followed = path && followPath(scope, path);
  if (!followed) return undefined;
  if (followed.ok) return followed.thing;
  reportLost(scope, statement, followed, report);
  return undefined;
}

function placeNames(scope: NameScope): string[] {
  return [...visibleNames(scope.module, 'entries')].filter((name) => {
    const entry = entryNamed(scope.module, name);
    return entry !== undefined && descendsFrom(entry.kind, 'place');
  });
}

/** How far a step is from what an action asks for. The one that is least far is the one meant. */
function matchAction(action: Action | Procedure, step: StepStatement, details: readonly Detail[]): Fit {
  const filled = new Map<SlotModel, Detail[]>();
  const extra: Fit['extra'] = [];
  const misfits: Fit['misfits'] = [];
  const knownParts = new Set(action.slots.map((slot) => slot.preposition));

  for (const detail of details) {
    const slots = action.slots.filter((slot) => slot.preposition === detail.part.preposition?.text);
    if (detail.named) {
      const taking = slots.filter((slot) => slot.accepts.type === 'kind' || slot.accepts.type === 'unknown');
      const free = taking.find((slot) => !filled.has(slot)) ?? taking.find((slot) => slot.many);
      if (!free) extra.push({ detail, what: 'thing' });
      else {
        push(filled, free, detail);
        if (detail.thing && free.accepts.type === 'kind' && !fitsKind(detail.thing.kind, free.accepts.kind))
          misfits.push({ slot: free, detail });
      }
    }
    if (detail.measured) {
      const free = slots.find((slot) => slot.accepts.type === 'quantity' && !filled.has(slot));
      if (!free) extra.push({ detail, what: 'measure' });
      else {
        push(filled, free, detail);
        if (!measureFits(free, detail)) misfits.push({ slot: free, detail });
      }
    }
    if (detail.text) {
      const free = slots.find((slot) => slot.accepts.type === 'text' && !filled.has(slot));
      if (!free) extra.push({ detail, what: 'text' });
      else push(filled, free, detail);
    }
  }
  // A slot that is half typed where it is declared takes nothing yet.
  const missing = action.slots.filter((slot) => !slot.optional && slot.kindWord !== '' && !filled.has(slot));
  const unknownParts = step.parts.filter((part) => part.preposition && !knownParts.has(part.preposition.text)).length;
  return {
    action,
    filled,
    missing,
    extra,
    misfits,
    // A thing of another kind in the first slot tells two actions of one verb apart better than a slot left out.
    penalty:
      misfits.reduce((sum, { slot }) => sum + (slot === action.slots[0] ? 5 : 3), 0) +
      missing.length * 2 +
      extra.length * 2 +
      unknownParts * 2 +
      // Among actions that fit alike, the one that asks for the nearest kinds is meant: skin before any soft tissue.
      distanceOf(filled) / 1000,
  };
}

function distanceOf(filled: ReadonlyMap<SlotModel, readonly Detail[]>): number {
  let sum = 0;
  for (const [slot, details] of filled)
    for (const { thing } of details)
      if (thing && slot.accepts.type === 'kind') sum += kindDistance(thing.kind, slot.accepts.kind);
  return sum;
}

function measureFits(slot: SlotModel, detail: Detail): boolean {
  if (slot.accepts.type !== 'quantity') return false;
  if (slot.accepts.dimension === 'size') return detail.size !== undefined || detail.quantity === undefined;
  if (detail.size) return false;
  return (
    detail.quantity === undefined ||
    commonDimension(detail.quantity.dimension, slot.accepts.dimension) !== undefined ||
    isPackageCount(detail.quantity)
  );
}

/** `2 cartridges` where a volume is asked for: the thing's own property of that name turns it into one. */
function isPackageCount(quantity: Quantity): boolean {
  return quantity.dimension.key.startsWith('count:');
}

function push(filled: Map<SlotModel, Detail[]>, slot: SlotModel, detail: Detail): void {
  const list = filled.get(slot);
  if (list) list.push(detail);
  else filled.set(slot, [detail]);
}

function fillingsOf(best: Fit): Map<string, Filling> {
  const fillings = new Map<string, Filling>();
  for (const [slot, details] of best.filled) {
    const [first] = details;
    if (slot.accepts.type === 'kind' || slot.accepts.type === 'unknown') {
      const things = details.flatMap((d) => (d.thing && d.thingSpan ? [{ thing: d.thing, span: d.thingSpan }] : []));
      if (things.length > 0) fillings.set(slot.name, { type: 'things', things });
    } else if (first?.text && slot.accepts.type === 'text')
      fillings.set(slot.name, { type: 'text', text: first.text.value, span: first.text.span });
    else if (first?.size && first.measureSpan)
      fillings.set(slot.name, { type: 'size', sides: first.size, span: first.measureSpan });
    else if (first?.quantity && first.measureSpan && slot.accepts.type === 'quantity') {
      const wanted = slot.accepts.dimension;
      const quantity = wanted === 'size' ? first.quantity : (fitTo(first.quantity, wanted) ?? first.quantity);
      fillings.set(slot.name, { type: 'quantity', quantity, span: first.measureSpan });
    }
  }
  return fillings;
}

function reportMisfits(scope: NameScope, step: StepStatement, best: Fit, report: Report): void {
  const file = scope.module.id;
  for (const { slot, detail } of best.misfits) {
    if (slot.accepts.type === 'kind' && detail.thing && detail.thingSpan)
      report(
        problemAt(wrongKind, placeOf(file, step, detail.thingSpan), {
          thing: detail.thing.label,
          is: detail.thing.entry ? `${detail.thing.entry.label} (${detail.thing.kind.label})` : detail.thing.kind.label,
          wanted: slot.accepts.kind.label,
          asked: slot.preposition
            ? `"${step.verb.text.replaceAll('_', ' ')} … ${slot.preposition}"`
            : `"${step.verb.text.replaceAll('_', ' ')}"`,
        }),
      );
    else if (slot.accepts.type === 'quantity' && detail.measureSpan)
      report(
        problemAt(wrongMeasure, placeOf(file, step, detail.measureSpan), {
          what: slot.name,
          wanted: slot.accepts.dimension === 'size' ? 'size' : slot.accepts.dimension.name,
          found: detail.quantity,
        }),
      );
  }
  for (const { detail, what } of best.extra) {
    const span = what === 'thing' ? detail.thingSpan : what === 'measure' ? detail.measureSpan : detail.text?.span;
    report(
      problemAt(extraDetail, placeOf(file, step, span ?? step.head), {
        verb: step.verb.text,
        preposition: detail.part.preposition?.text,
        what,
        action: best.action,
      }),
    );
  }
  for (const slot of best.missing) {
    // A half-typed "… on" already has its own flaw at the place where the thing belongs.
    if (step.parts.some((part) => part.arguments.length === 0 && part.preposition?.text === slot.preposition)) continue;
    report(
      problemAt(missingSlot, placeOf(file, step, step.verb), {
        verb: step.verb.text,
        slot,
        file,
        statement: step.id,
        end: step.parts.reduce((end, part) => Math.max(end, part.end), step.verb.end),
        candidates: [...scope.names()].filter((name) => {
          const thing = scope.thing(name);
          return thing !== undefined && slot.accepts.type === 'kind' && fitsKind(thing.kind, slot.accepts.kind);
        }),
      }),
    );
  }
}

function stepDuration(
  scope: NameScope,
  step: StepStatement,
  action: Action | Procedure | undefined,
  report: Report,
): Duration {
  const { takes } = step;
  if (!takes?.duration) return action?.type === 'action' ? action.takes : notStated;
  const duration = readDuration(scope.module, step, takes, report);
  if (action?.type === 'action') checkTimeTaken(scope.module, step, takes, duration, action, report);
  return duration;
}

function checkRoles(
  scope: NameScope,
  step: StepStatement,
  action: Action | Procedure | undefined,
  report: Report,
): void {
  checkTeam(scope, step, step.by, report);
  if (action?.type !== 'action' || action.by.length === 0) return;
  for (const role of step.by) {
    if (action.by.includes(role.text)) continue;
    report(
      problemAt(roleMayNot, placeOf(scope.module.id, step, role), {
        role: role.text,
        verb: step.verb.text,
        allowed: action.by,
        place: placeOf(scope.module.id, step, role),
        source: scope.module.citation(action.ground.source),
      }),
    );
  }
}

/** Roles named at the end of a line are of the team. */
export function checkTeam(
  scope: NameScope,
  statement: Parameters<typeof placeOf>[1],
  roles: readonly Name[],
  report: Report,
): void {
  if (scope.inside === 'procedure') return;
  for (const role of roles) {
    if (scope.things.team.has(role.text)) continue;
    const place = placeOf(scope.module.id, statement, role);
    report(
      problemAt(roleNotInTeam, place, { role: role.text, team: [...scope.things.team], things: scope.things, place }),
    );
  }
}
