import { once } from '../once.ts';
import { SAME_TIME } from './network.ts';

/** The thirteen relations of Allen (Commun ACM 1983;26:832-843), how one interval lies to another; the list turned about has the inverses. */
export const RELATIONS = [
  'before',
  'meets',
  'overlaps',
  'starts',
  'during',
  'finishes',
  'equals',
  'finished by',
  'contains',
  'started by',
  'overlapped by',
  'met by',
  'after',
] as const;

/** Of two intervals of positive length exactly one holds. */
export type Relation = (typeof RELATIONS)[number];

/** Seconds. When an interval of positive length begins and when it ends, each within a range; `hi` may be Infinity. */
export interface Ends {
  readonly start: { readonly lo: number; readonly hi: number };
  readonly end: { readonly lo: number; readonly hi: number };
}

/** If the first lies to the second as `relation` says, how the second lies to the first. */
export function inverse(relation: Relation): Relation {
  return RELATIONS[RELATIONS.length - 1 - RELATIONS.indexOf(relation)] ?? relation;
}

/** If a first lies to a second as `one` says, and the second to a third as `two`: how the first may lie to the third. */
export function compose(one: Relation, two: Relation): ReadonlySet<Relation> {
  return compositions()[one][two];
}

/**
 * How `a` may lie to `b`. Their ends are taken to come independently within their ranges: what is not in the answer is impossible; where
 * ends depend on each other, what is in it may be so too. Empty when one of the two cannot be of positive length.
 */
export function possibleRelations(a: Ends, b: Ends): ReadonlySet<Relation> {
  const ranges = { s: a.start, e: a.end, S: b.start, E: b.end };
  return new Set(
    RELATIONS.filter((relation) => canComeInOrder(ORDER[relation].map((group) => group.map((end) => ranges[end])))),
  );
}

/** Whether there is a time that lies inside both: in each case, in some, in none. With "always" and "never" one may rely on it. */
export function overlap(a: Ends, b: Ends): 'always' | 'can' | 'never' {
  const possible = [...possibleRelations(a, b)];
  const apart = possible.filter((relation) => APART.has(relation));
  if (apart.length === possible.length) return 'never';
  return apart.length === 0 ? 'always' : 'can';
}

const APART: ReadonlySet<Relation> = new Set(['before', 'meets', 'met by', 'after']);

/** Of the first interval the start `s` and the end `e`, of the second `S` and `E`. */
type End = 's' | 'e' | 'S' | 'E';

/** The ends in the order of time; those of one group come at the same time. */
const ORDER: Readonly<Record<Relation, readonly (readonly End[])[]>> = {
  before: [['s'], ['e'], ['S'], ['E']],
  meets: [['s'], ['e', 'S'], ['E']],
  overlaps: [['s'], ['S'], ['e'], ['E']],
  starts: [['s', 'S'], ['e'], ['E']],
  during: [['S'], ['s'], ['e'], ['E']],
  finishes: [['S'], ['s'], ['e', 'E']],
  equals: [
    ['s', 'S'],
    ['e', 'E'],
  ],
  'finished by': [['s'], ['S'], ['e', 'E']],
  contains: [['s'], ['S'], ['E'], ['e']],
  'started by': [['s', 'S'], ['E'], ['e']],
  'overlapped by': [['S'], ['s'], ['E'], ['e']],
  'met by': [['S'], ['s', 'E'], ['e']],
  after: [['S'], ['E'], ['s'], ['e']],
};

/** Whether each group can be at one time, and later than the one before it. Each takes the earliest time that is left to it. */
function canComeInOrder(groups: readonly (readonly { readonly lo: number; readonly hi: number }[])[]): boolean {
  let before = Number.NEGATIVE_INFINITY;
  for (const group of groups) {
    const lo = Math.max(...group.map((range) => range.lo));
    const hi = Math.min(...group.map((range) => range.hi));
    if (lo > hi + SAME_TIME || before >= hi - SAME_TIME) return false;
    before = Math.max(before, lo);
  }
  return true;
}

/** Three intervals have six ends: all ways in which they can lie occur among the numbers 0 to 5. */
const compositions = once(() => {
  const each = <Value>(value: () => Value): Record<Relation, Value> =>
    Object.fromEntries(RELATIONS.map((relation) => [relation, value()])) as Record<Relation, Value>;
  const found = each(() => each(() => new Set<Relation>()));
  const at = (time: number): { readonly lo: number; readonly hi: number } => ({ lo: time, hi: time });
  const intervals: Ends[] = [];
  for (let start = 0; start < 6; start++)
    for (let end = start + 1; end < 6; end++) intervals.push({ start: at(start), end: at(end) });
  const between = intervals.map((a) => intervals.map((b) => [...possibleRelations(a, b)]));
  for (const ab of between)
    for (const [b, oneOf] of ab.entries())
      for (const [c, twoOf] of (between[b] ?? []).entries())
        for (const one of oneOf) for (const two of twoOf) for (const three of ab[c] ?? []) found[one][two].add(three);
  return found;
});
