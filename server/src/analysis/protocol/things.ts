import type { Expr, ProtocolStatement, Statement, ThingStatement } from '@curette/grammar';
import type { Quantity } from '@curette/shared';
import { duplicateName } from '../../problems/duplicate_name.ts';
import { notJudged } from '../../problems/not_judged.ts';
import { type Problem, problemAt, type Report } from '../../problems/problem.ts';
import { unknownName } from '../../problems/unknown_name.ts';
import { unknownProperty } from '../../problems/unknown_property.ts';
import { unknownState } from '../../problems/unknown_state.ts';
import { valueOutsideSet } from '../../problems/value_outside_set.ts';
import { wrongKind } from '../../problems/wrong_kind.ts';
import { checkRole } from '../actions/action.ts';
import { figuresOf } from '../kinds/applied.ts';
import { checkSource } from '../kinds/declarations.ts';
import { readQuantity, readSize } from '../kinds/quantity.ts';
import { descendsFrom } from '../kinds/subkind.ts';
import { readValues } from '../kinds/value.ts';
import {
  type Entry,
  type FigureGap,
  type Kind,
  type PropertyValue,
  placeOf,
  type Track,
  type Value,
} from '../model.ts';
import { type Module, visibleNames } from '../names/module.ts';
import { entryNamed, kindNamed } from '../names/resolve.ts';
import { excludedBy } from '../rules/circumstances.ts';
import type { Filled } from './filled.ts';
import { checkListedAmount } from './listed-amount.ts';

export type ThingGroup = 'given' | 'materials' | 'instruments' | 'place';

/** A thing a protocol works with: listed by it, or a place that needs no listing. */
export interface Thing {
  readonly name: string;
  readonly label: string;
  readonly kind: Kind;
  readonly entry: Entry | undefined;
  readonly group: ThingGroup;
  /** where it is listed; undefined for a place named in a step only */
  readonly statement: ThingStatement | undefined;
  /** what is written with it where it is listed */
  readonly own: ReadonlyMap<string, PropertyValue>;
  /** what a case says of it, what is written with it, then what its entry says, then what the sets of figures that count say */
  readonly values: ReadonlyMap<string, PropertyValue>;
  /** properties that a set of figures would have to state, and does not */
  readonly gaps: ReadonlyMap<string, FigureGap>;
  readonly amount: Value | undefined;
  /** what applies to it in a case (`has diabetes`); undefined where a protocol speaks of whoever it may be */
  readonly conditions: ReadonlySet<string> | undefined;
  /** dense number of its first track; its kind's tracks follow one another */
  readonly firstTrack: number;
}

/** The head of a protocol: everything its steps may name. Does not depend on the steps. */
export interface Things {
  readonly byName: ReadonlyMap<string, Thing>;
  readonly team: ReadonlySet<string>;
  /** what no patient of the protocol has, takes or is allergic to (`has diabetes`): it excludes those who do */
  readonly excluded: ReadonlySet<string>;
  readonly problems: readonly Problem[];
  /** a place, or any entry, that a step names without its being listed */
  readonly unlisted: (name: string) => Thing | undefined;
  /** every track followed so far by its number, those of unlisted places included */
  readonly tracks: readonly { readonly thing: Thing; readonly track: Track }[];
  /** the statements this was made from */
  readonly key: readonly Statement[];
}

const HEAD: ReadonlySet<Statement['type']> = new Set([
  'given',
  'materials',
  'instruments',
  'team',
  'exclude',
  'caution',
]);

/** The statements that `readThings` depends on. */
export function thingsKey(protocol: ProtocolStatement): Statement[] {
  return (protocol.body?.items ?? []).filter((item) => HEAD.has(item.type));
}

/**
 * Reads given facts, materials, instruments and team of a protocol.
 * @param filled what a case says of them
 */
export function readThings(module: Module, protocol: ProtocolStatement, filled?: Filled): Things {
  const problems: Problem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const byName = new Map<string, Thing>();
  const team = new Set<string>();
  const tracks: { thing: Thing; track: Track }[] = [];
  const follow = (thing: Thing) => {
    for (const track of thing.kind.tracks) tracks.push({ thing, track });
  };
  const key = thingsKey(protocol);

  const kinds = new Map<string, Kind>();
  const listed: { statement: ThingStatement; group: ThingGroup; kind: Kind; entry: Entry | undefined }[] = [];
  for (const block of key) {
    if (block.type === 'team')
      for (const item of block.body?.items ?? [])
        if (item.type === 'team member' && checkRole(module, item, item.name, report)) team.add(item.name.text);
    if (block.type !== 'given' && block.type !== 'materials' && block.type !== 'instruments') continue;
    for (const item of block.body?.items ?? []) {
      if (item.type !== 'thing') continue;
      const first = listed.find((other) => other.statement.name.text === item.name.text);
      if (first) {
        report(
          problemAt(duplicateName, placeOf(module.id, item, item.name), {
            name: item.name.text,
            first: placeOf(module.id, first.statement, first.statement.name),
          }),
        );
        continue;
      }
      const is = kindOfThing(module, item, block.type, report);
      if (!is) continue;
      kinds.set(item.name.text, is.kind);
      listed.push({ statement: item, group: block.type, ...is });
    }
  }
  for (const { statement, group, kind, entry } of listed) {
    const own = readValues(module, statement.body?.items ?? [], kind, (name) => kinds.get(name), report);
    for (const line of statement.body?.items ?? [])
      if (line.type === 'contraindicated' || line.type === 'caution')
        report(
          problemAt(notJudged, placeOf(module.id, line, line.head), {
            what: 'whom a listed thing is not for: that stands in a kind, an entry or an action, or as "exclude when" or "caution when" of the protocol',
          }),
        );
    if (statement.source) checkSource(module, statement.id, statement.source, report);
    const figures = figuresOf(module, kind, entry);
    const thing: Thing = {
      name: statement.name.text,
      // Listed by its own name, it is called what the catalogue calls it; otherwise what the protocol calls it.
      label: statement.kind ? statement.name.text.replaceAll('_', ' ') : (entry?.label ?? kind.label),
      kind,
      entry,
      group,
      statement,
      own,
      gaps: figures.gaps,
      values: new Map([
        ...figures.values,
        ...(entry?.values ?? []),
        ...own,
        ...(filled?.values.get(statement.name.text) ?? []),
      ]),
      amount: amountOf(module, statement, report),
      conditions: group === 'given' && filled ? (filled.conditions.get(statement.name.text) ?? NONE) : undefined,
      firstTrack: tracks.length,
    };
    checkListedAmount(module, statement, thing, report);
    follow(thing);
    byName.set(thing.name, thing);
  }

  const excluded = new Set(key.flatMap((item) => (item.type === 'exclude' ? excludedBy(item.condition) : [])));
  const things: Things = { byName, team, excluded, problems, key, tracks, unlisted: placesOf(module, tracks, follow) };
  for (const item of key)
    if (item.type === 'exclude' || item.type === 'caution') {
      if (item.source) checkSource(module, item.id, item.source, report);
      checkRelationNames(module, things, item, report);
    }
  return things;
}

const NONE: ReadonlySet<string> = new Set();
const NOTHING: ReadonlyMap<string, PropertyValue> = new Map();

/** No thing listed at all; places may still be named. */
export function placesOnly(module: Module): Things {
  const tracks: { thing: Thing; track: Track }[] = [];
  const follow = (thing: Thing) => {
    for (const track of thing.kind.tracks) tracks.push({ thing, track });
  };
  return {
    byName: new Map(),
    team: new Set(),
    excluded: NONE,
    problems: [],
    key: [],
    tracks,
    unlisted: placesOf(module, tracks, follow),
  };
}

function placesOf(
  module: Module,
  tracks: readonly unknown[],
  follow: (thing: Thing) => void,
): (name: string) => Thing | undefined {
  const places = new Map<string, Thing | undefined>();
  return (name) => {
    if (places.has(name)) return places.get(name);
    const entry = entryNamed(module, name);
    const kind = entry?.kind ?? kindNamed(module, name);
    const figures = kind && figuresOf(module, kind, entry);
    const thing: Thing | undefined = kind && {
      name,
      label: entry?.label ?? kind.label,
      kind,
      entry,
      group: 'place',
      statement: undefined,
      own: NOTHING,
      values: new Map([...(figures?.values ?? []), ...(entry?.values ?? [])]),
      gaps: figures?.gaps ?? new Map(),
      amount: undefined,
      conditions: undefined,
      firstTrack: tracks.length,
    };
    if (thing) follow(thing);
    places.set(name, thing);
    return thing;
  };
}

function kindOfThing(
  module: Module,
  item: ThingStatement,
  group: 'given' | 'materials' | 'instruments',
  report: Report,
): { kind: Kind; entry: Entry | undefined } | undefined {
  const name = item.kind ?? item.name;
  const entry = entryNamed(module, name.text);
  const kind = entry?.kind ?? kindNamed(module, name.text);
  const place = placeOf(module.id, item, name);
  if (!kind) {
    report(
      problemAt(unknownName, place, {
        name: name.text,
        wanted: group === 'given' ? 'kind of thing' : group === 'materials' ? 'material' : 'instrument',
        candidates: namesUnder(module, group),
        library: module.elsewhere(['entries', 'kinds'], name.text),
        place,
      }),
    );
    return undefined;
  }
  const root = ROOTS[group];
  if (root && !descendsFrom(kind, root))
    report(
      problemAt(wrongKind, place, {
        thing: name.text,
        is: kind.label,
        wanted: root,
        asked: `the list of ${group}`,
      }),
    );
  return { kind, entry };
}

const ROOTS = { given: undefined, materials: 'material', instruments: 'instrument' } as const;

function namesUnder(module: Module, group: 'given' | 'materials' | 'instruments'): string[] {
  const root = ROOTS[group];
  return [...visibleNames(module, 'entries'), ...visibleNames(module, 'kinds')].filter((name) => {
    if (!root) return true;
    const kind = entryNamed(module, name)?.kind ?? kindNamed(module, name);
    return kind !== undefined && descendsFrom(kind, root);
  });
}

function amountOf(module: Module, item: ThingStatement, report: Report): Value | undefined {
  if (!item.amount) return undefined;
  if (item.amount.type === 'size') {
    const sides = readSize(module, item, item.amount, report);
    return sides && { type: 'size', sides };
  }
  const quantity: Quantity | undefined = readQuantity(module, item, item.amount, report);
  return quantity && { type: 'quantity', quantity };
}

/** Whom or what an exclusion or a caution speaks of is given, and what it asks can be asked of that. */
function checkRelationNames(
  module: Module,
  things: Things,
  item: Extract<Statement, { type: 'exclude' | 'caution' }>,
  report: Report,
): void {
  /** The thing a path begins with, its first property known; undefined, and told, when there is none. */
  const subjectOf = (expr: Expr | undefined): Thing | undefined => {
    const [subject, property] = expr?.type === 'path' ? expr.names : [];
    if (!subject) return undefined;
    const thing = things.byName.get(subject.text);
    if (!thing) {
      const place = placeOf(module.id, item, subject);
      report(
        problemAt(unknownName, place, {
          name: subject.text,
          wanted: 'given thing',
          candidates: [...things.byName.keys()],
          library: undefined,
          place,
        }),
      );
      return undefined;
    }
    if (property && property.text !== 'amount' && !thing.kind.properties.has(property.text)) {
      const place = placeOf(module.id, item, property);
      const known = [...thing.kind.properties.keys()];
      report(problemAt(unknownProperty, place, { property: property.text, kind: thing.kind.label, known, place }));
    }
    return property ? undefined : thing;
  };
  const visit = (expr: Expr | undefined): void => {
    switch (expr?.type) {
      case 'and':
      case 'or':
      case 'compare':
      case 'arithmetic':
        visit(expr.left);
        visit(expr.right);
        break;
      case 'not':
        visit(expr.operand);
        break;
      case 'path':
        subjectOf(expr);
        break;
      case 'state':
      case 'is': {
        const thing = subjectOf(expr.subject);
        const name = expr.type === 'is' ? expr.name : expr.state;
        if (!thing || !name || kindNamed(module, name.text)) break;
        const states = thing.kind.tracks.flatMap((track) => [...track.states]);
        if (states.includes(name.text)) break;
        const place = placeOf(module.id, item, name);
        report(problemAt(unknownState, place, { kind: thing.kind.label, state: name.text, states, place }));
        break;
      }
      case 'relation': {
        const thing = subjectOf(expr.subject);
        const known = thing?.kind.relations[expr.relation];
        if (!thing || !known || !expr.value || known.has(expr.value.text)) break;
        const place = placeOf(module.id, item, expr.value);
        report(
          problemAt(valueOutsideSet, place, {
            property: expr.relation,
            of: thing.kind.label,
            value: expr.value.text,
            allowed: [...known],
            place,
          }),
        );
        break;
      }
      default:
        break;
    }
  };
  visit(item.condition);
}
