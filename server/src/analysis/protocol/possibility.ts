import type { Assumption, FlowId } from './flow.ts';

/**
 * One way a track can stand at a moment: the state, the event that brought it there, and what must have happened for it to be so.
 * A track's possibilities together cover every run that reaches the moment.
 */
export interface Possibility {
  readonly state: string;
  /** undefined: since the beginning */
  readonly since: FlowId | undefined;
  readonly when: readonly Assumption[];
  /** it was told that a duty is not met in this state; not to be told again */
  readonly told?: true;
}

/** The state of a thing to which something unknown was done: it may be in any. */
export const ANY_STATE = '*';

/** Whether a thing that stands like this is, or may be, in a state. */
export function isIn(one: Possibility, state: string): boolean {
  return one.state === state || one.state === ANY_STATE;
}

export type Possibilities = readonly Possibility[];

/** All tracks at a moment, by number; a hole is a track still in its initial state. A moment no run reaches has none. */
export type States = (Possibilities | undefined)[];

/** More ways than this for one track are drawn together, and what distinguishes them is forgotten: never fewer, only vaguer. */
export const MOST_POSSIBILITIES = 48;

export function samePossibilities(a: Possibilities | undefined, b: Possibilities | undefined): boolean {
  if (a === b) return true;
  if (!a || !b || a.length !== b.length) return false;
  return a.every((one, i) => {
    const other = b[i];
    return (
      other !== undefined &&
      one.state === other.state &&
      one.since === other.since &&
      one.told === other.told &&
      sameWhen(one.when, other.when)
    );
  });
}

export function sameStates(a: States, b: States): boolean {
  const length = Math.max(a.length, b.length);
  for (let i = 0; i < length; i++) if (!samePossibilities(a[i], b[i])) return false;
  return true;
}

/** Keeps what can be so when the assumption holds; what contradicts it is left out. */
export function assuming(possibilities: Possibilities, assumption: Assumption): Possibilities {
  if (possibilities.every((one) => one.when.every((other) => other.key !== assumption.key))) return possibilities;
  return possibilities.filter((one) =>
    one.when.every((other) => other.key !== assumption.key || overlaps(other.values, assumption.values)),
  );
}

/** One incoming path of a merge. */
export interface Incoming {
  readonly states: States;
  /** what has to be so for it to be taken */
  readonly assumptions: readonly Assumption[];
}

/**
 * States after several paths meet. A track no path touched stays as it was; otherwise each path's ways are kept with the path's
 * assumption, and ways that differ in that assumption only become one.
 */
export function mergeStates(
  before: States,
  incoming: readonly Incoming[],
  initial: (index: number) => Possibilities,
): States {
  const [only] = incoming;
  if (incoming.length === 1 && only?.assumptions.length === 0) return only.states;
  const length = Math.max(before.length, ...incoming.map((path) => path.states.length));
  const merged: States = [];
  for (let index = 0; index < length; index++) {
    const was = before[index];
    if (incoming.every((path) => path.states[index] === was)) {
      merged[index] = was;
      continue;
    }
    const all: Possibility[] = [];
    for (const { states, assumptions } of incoming)
      for (const one of states[index] ?? initial(index)) all.push(assumptions.reduce(withAssumption, one));
    merged[index] = compact(all);
  }
  return merged;
}

/** Draws together ways that are the same but for one assumption; an assumption that then leaves nothing out is dropped. */
export function compact(all: readonly Possibility[]): Possibilities {
  if (all.length > 4 * MOST_POSSIBILITIES) return forgetful(all);
  let list = [...all];
  for (let changed = true; changed; ) {
    changed = false;
    outer: for (let i = 0; i < list.length; i++)
      for (let j = i + 1; j < list.length; j++) {
        const joined = join(list[i] as Possibility, list[j] as Possibility);
        if (!joined) continue;
        list = [...list.slice(0, i), joined, ...list.slice(i + 1, j), ...list.slice(j + 1)];
        changed = true;
        break outer;
      }
  }
  return list.length <= MOST_POSSIBILITIES ? list : forgetful(list);
}

function forgetful(list: readonly Possibility[]): Possibilities {
  const vaguer = new Map<string, Possibility>();
  for (const one of list) vaguer.set(`${one.state}\n${String(one.since)}`, { ...one, when: [] });
  return [...vaguer.values()];
}

/** "when the buccal wall is lost"; empty when it is so on every path. */
export function whenWords(when: readonly Assumption[]): string {
  // What was found in an earlier visit comes first, as it did.
  const earlier = (assumption: Assumption) => (assumption.key.includes('@') ? 0 : 1);
  return [...when]
    .sort((a, b) => earlier(a) - earlier(b))
    .map((assumption) => assumption.say(assumption.values))
    .join(' and ');
}

function join(a: Possibility, b: Possibility): Possibility | undefined {
  if (a.state !== b.state || a.since !== b.since || a.told !== b.told) return undefined;
  if (a.when.length === 0) return a;
  if (b.when.length === 0) return b;
  if (sameWhen(a.when, b.when)) return a;
  if (a.when.length !== b.when.length) return undefined;
  let differing: number | undefined;
  for (let i = 0; i < a.when.length; i++) {
    const one = a.when[i] as Assumption;
    const other = b.when[i] as Assumption;
    if (one.key !== other.key) return undefined;
    if (sameValues(one.values, other.values)) continue;
    if (differing !== undefined) return undefined;
    differing = i;
  }
  if (differing === undefined) return a;
  const one = a.when[differing] as Assumption;
  const other = b.when[differing] as Assumption;
  const values = new Set([...one.values, ...other.values]);
  const rest = a.when.filter((_, i) => i !== differing);
  if (values.size >= one.of) return { ...a, when: rest };
  return { ...a, when: a.when.map((assumption, i) => (i === differing ? { ...one, values } : assumption)) };
}

function withAssumption(one: Possibility, assumption: Assumption): Possibility {
  const known = one.when.find((other) => other.key === assumption.key);
  if (!known) {
    if (assumption.values.size >= assumption.of) return one;
    return { ...one, when: [...one.when, assumption].sort((a, b) => (a.key < b.key ? -1 : 1)) };
  }
  const values = new Set([...known.values].filter((value) => assumption.values.has(value)));
  if (values.size === known.values.size) return one;
  return { ...one, when: one.when.map((other) => (other === known ? { ...assumption, values } : other)) };
}

/** What stands together on one path: a way for each of several tracks, and what must have happened for all of them. */
export interface Path {
  readonly ways: ReadonlyMap<number, Possibility>;
  readonly when: readonly Assumption[];
}

/** More paths than this are not told apart. */
const MOST_PATHS = 256;

/** The paths on which several tracks stand one way each; what no run can have found together is left out. Undefined: too many. */
export function pathsThrough(tracks: ReadonlyMap<number, Possibilities>): readonly Path[] | undefined {
  let paths: readonly Path[] = [{ ways: new Map(), when: [] }];
  for (const [index, possibilities] of tracks) {
    paths = paths.flatMap(({ ways, when }) =>
      possibilities.flatMap((one) => {
        const both = together(when, one.when);
        return both ? [{ ways: new Map(ways).set(index, one), when: both }] : [];
      }),
    );
    if (paths.length > MOST_PATHS) return undefined;
  }
  return paths;
}

/** What has to be so for both; undefined where no run has both. */
export function together(a: readonly Assumption[], b: readonly Assumption[]): readonly Assumption[] | undefined {
  let one: Possibility = { state: '', since: undefined, when: a };
  for (const assumption of b) {
    if (assuming([one], assumption).length === 0) return undefined;
    one = withAssumption(one, assumption);
  }
  return one.when;
}

function sameWhen(a: readonly Assumption[], b: readonly Assumption[]): boolean {
  return (
    a === b ||
    (a.length === b.length &&
      a.every((one, i) => one.key === b[i]?.key && sameValues(one.values, (b[i] as Assumption).values)))
  );
}

function sameValues(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a === b || (a.size === b.size && [...a].every((value) => b.has(value)));
}

function overlaps(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  for (const value of a) if (b.has(value)) return true;
  return false;
}
