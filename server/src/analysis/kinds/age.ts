import type { Expr, Name, PathNode, Statement } from '@curette/grammar';
import { longest, type Quantity } from '@curette/shared';
import { outlastsState } from '../../problems/outlasts_state.ts';
import { problemAt, type Report, type SourceNote } from '../../problems/problem.ts';
import { unknownProperty } from '../../problems/unknown_property.ts';
import { article } from '../../problems/words.ts';
import { wrongMeasure } from '../../problems/wrong_measure.ts';
import { zeroTime } from '../../problems/zero_time.ts';
import { type AgeLimit, type Kind, type Property, placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import { kindNamed } from '../names/resolve.ts';
import { readQuantity } from './quantity.ts';
import { secondsOf } from './seconds.ts';

/** Whose properties a path goes through, and the names of them. */
export interface PropertyPath {
  readonly kind: { readonly label: string; readonly properties: ReadonlyMap<string, Property> };
  readonly names: readonly Name[];
}

/**
 * How old a state has to be, or may become: `wetted for g.soak`, `wetted lasts at most 60 min`. What is no time, and what is a time of
 * nought, is reported.
 */
export function checkAge(
  module: Module,
  statement: Statement,
  age: Expr,
  what: 'for' | 'lasts',
  follow: (path: PathNode) => PropertyPath | undefined,
  report: Report,
): void {
  const noTime = (found: Quantity | undefined) =>
    report(problemAt(wrongMeasure, placeOf(module.id, statement, age), { what, wanted: 'time', found }));
  switch (age.type) {
    case 'quantity': {
      const quantity = readQuantity(module, statement, age, report);
      if (!quantity) break;
      if (!secondsOf(quantity)) noTime(quantity);
      else if (quantity.range.hi === 0)
        report(
          problemAt(zeroTime, placeOf(module.id, statement, age), {
            what: what === 'for' ? 'age' : 'limit',
            mends: [],
          }),
        );
      break;
    }
    case 'path': {
      const path = follow(age);
      if (path) checkProperty(module, statement, path, () => noTime(undefined), report);
      break;
    }
    case 'arithmetic': {
      const sum = age.op === '+' || age.op === '-';
      for (const part of [age.left, age.right])
        if (part && (sum || part.type !== 'quantity')) checkAge(module, statement, part, what, follow, report);
      break;
    }
    case 'call':
      for (const part of age.args) checkAge(module, statement, part, what, follow, report);
      break;
    default:
      noTime(undefined);
  }
}

/** A need that can never be met, whatever thing it is asked of: both its time and the state's own limit are written as numbers. */
export function checkOutlasting(
  module: Module,
  statement: Statement,
  kind: Kind,
  state: string,
  written: Expr,
  report: Report,
): void {
  const age = kind.ages.find((limit) => limit.state === state);
  if (written.type !== 'quantity' || age?.atMost.type !== 'quantity') return;
  const asked = module.quantity(written);
  const limit = module.module(age.ground.place.file)?.quantity(age.atMost);
  const least = asked && secondsOf(asked)?.lo;
  const most = limit && secondsOf(limit)?.hi;
  if (!asked || !limit || least === undefined || most === undefined || least <= most) return;
  report(
    problemAt(outlastsState, placeOf(module.id, statement, written), {
      ...outlasted(module, age, limit),
      sets: [],
      what: 'need',
      thing: article(kind.label),
      state,
      asked,
      mends: [],
    }),
  );
}

/** What is said of a state's limit where something asks for more. */
export function outlasted(module: Module, age: AgeLimit, limit: Quantity) {
  const { source, because, place } = age.ground;
  const note: SourceNote | undefined = module.citation(source) ?? module.module(place.file)?.citation(source);
  return { limit: longest(limit) ?? limit, then: age.then, because, source: note, declared: place };
}

/** The property that a path ends in is a time. */
function checkProperty(
  module: Module,
  statement: Statement,
  { kind: first, names }: PropertyPath,
  noTime: () => void,
  report: Report,
): void {
  let kind: PropertyPath['kind'] | undefined = first;
  for (const name of names) {
    const property = kind.properties.get(name.text);
    if (!property) {
      const place = placeOf(module.id, statement, name);
      const known = [...kind.properties.keys()];
      report(problemAt(unknownProperty, place, { property: name.text, kind: kind.label, known, place }));
      return;
    }
    const { type } = property;
    if (type?.form !== 'kind') {
      if (type && (type.form !== 'quantity' || type.dimension !== 'time')) noTime();
      return;
    }
    kind = kindNamed(module, type.kind.text);
    if (!kind) return;
  }
  noTime();
}
