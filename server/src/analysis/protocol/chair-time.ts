import { type Simulation, simulate, type ThreePoint } from '../time/three-point.ts';
import { durationOf, stops } from './durations.ts';
import { type Assumption, type Branch, type Flow, type FlowId, forEachFlow } from './flow.ts';
import type { ProtocolFacts, VisitFacts } from './protocol.ts';
import { type Beginnings, beginningsOf } from './windows.ts';

/** How long a visit takes when it is played many times. Seconds. */
export interface ChairTime extends Simulation {
  /** events whose length differs from run to run, and how many of them do not say what they usually take: those are drawn evenly */
  readonly drawn: number;
  readonly withoutUsual: number;
  /** decisions, whose options were taken equally often */
  readonly decisions: number;
}

const SEED = 20_260_301;
const SAMPLES = 10_000;
/** Durations drawn at most; a visit of thousands of steps is played less often for it. */
const MOST_DRAWS = 2_000_000;
const FEWEST_SAMPLES = 400;

/**
 * Plays a visit with lengths as its events state them (beta-PERT where they say what is usual, evenly where not; time/three-point.ts).
 * Lanes go on to the longest; of a decision each option is as likely, but for those that end the visit, which are left out, and what
 * an earlier decision on the same finding rules out; a repetition is done once to as often as it may be, each as likely. Checks turn
 * out well, complications do not happen, and a wait whose length the team chooses is as short as it may be.
 *
 * @returns undefined where an event says nothing of how long it may take at most
 */
export function chairTimeOf(facts: ProtocolFacts, visit: VisitFacts): ChairTime | undefined {
  const known = times.get(visit);
  if (known) return known.time;
  const time = played(facts, visit);
  times.set(visit, { time });
  return time;
}

const times = new WeakMap<VisitFacts, { readonly time: ChairTime | undefined }>();

function played(facts: ProtocolFacts, visit: VisitFacts): ChairTime | undefined {
  const count = counted(visit.items);
  if (!count.stated) return undefined;
  const samples = Math.max(FEWEST_SAMPLES, Math.min(SAMPLES, Math.floor(MOST_DRAWS / Math.max(1, count.draws))));
  const began = beginningsOf(facts, visit);
  const awaited = awaitedIn(visit.items, began);
  const going = new Map<Flow, readonly Branch[]>();
  const simulation = simulate(samples, SEED, (draw) => {
    const run: Run = { draw, began, awaited, going, over: new Map(), found: new Map() };
    return playList(run, visit.items, 0);
  });
  const { drawn, withoutUsual, decisions } = count;
  return { ...simulation, drawn, withoutUsual, decisions };
}

interface Run {
  readonly draw: (length: ThreePoint) => number;
  readonly began: Beginnings;
  /** events at whose end a state begins that some wait is for */
  readonly awaited: ReadonlySet<FlowId>;
  /** by decision, the options that the visit goes on from; found once for all runs */
  readonly going: Map<Flow, readonly Branch[]>;
  /** when each of the awaited events was over that was done */
  readonly over: Map<FlowId, number>;
  /** what was found, by the finding */
  readonly found: Map<string, ReadonlySet<string>>;
}

function playList(run: Run, items: readonly Flow[], start: number): number {
  let now = start;
  for (const flow of items) {
    now = playOne(run, flow, now);
    if (run.awaited.has(flow.id)) run.over.set(flow.id, now);
  }
  return now;
}

function playOne(run: Run, flow: Flow, start: number): number {
  switch (flow.type) {
    case 'step':
    case 'pause':
    case 'plain':
    case 'stop':
    case 'verify':
      return start + run.draw(flow.duration);
    case 'complication':
      return start;
    case 'wait': {
      const { until } = flow;
      // How long a state lasts before it passes by itself, nobody decides.
      if (!until) return start + (flow.passing ? run.draw(flow.duration) : flow.duration.lo);
      const began = run.began(flow).map((since) => (since === undefined ? undefined : run.over.get(since)));
      const last = Math.max(...began.map((seconds) => seconds ?? Number.NEGATIVE_INFINITY));
      return Math.max(start, last + until.seconds);
    }
    case 'call':
      return isTimedAsWhole(flow) ? start + run.draw(flow.duration) : playList(run, flow.items, start);
    case 'decide': {
      const looked = start + run.draw(flow.duration);
      const known = run.going.get(flow);
      const going = known ?? goingOn(flow.branches);
      if (!known) run.going.set(flow, going);
      const branch = choose(run, going);
      return branch ? playList(run, branch.items, looked) : looked;
    }
    case 'together':
      return Math.max(start, ...flow.lanes.map((lane) => playList(run, lane.items, start)));
    case 'repeat': {
      const rounds = 1 + Math.floor(run.draw({ lo: 0, hi: flow.atMost ?? 1 }));
      let now = start;
      for (let round = 0; round < rounds; round++) now = playList(run, flow.items, now);
      return now;
    }
    default:
      return flow satisfies never;
  }
}

function awaitedIn(items: readonly Flow[], began: Beginnings): ReadonlySet<FlowId> {
  const awaited = new Set<FlowId>();
  forEachFlow(items, (flow) => {
    if (flow.type === 'wait' && flow.until)
      for (const since of began(flow)) if (since !== undefined) awaited.add(since);
  });
  return awaited;
}

/** An option as likely as any other that what was found before allows. */
function choose(run: Run, branches: readonly Branch[]): Branch | undefined {
  const allowed = branches.filter((branch) => [branch.assumption, ...branch.also].every((one) => agrees(run, one)));
  const among = allowed.length > 0 ? allowed : branches;
  const branch = among.length > 1 ? among[Math.floor(run.draw({ lo: 0, hi: among.length }))] : among[0];
  for (const one of branch ? [branch.assumption, ...branch.also] : []) {
    const known = run.found.get(one.key);
    run.found.set(one.key, known ? new Set([...known].filter((value) => one.values.has(value))) : one.values);
  }
  return branch;
}

function agrees(run: Run, { key, values }: Assumption): boolean {
  const known = run.found.get(key);
  return !known || [...known].some((value) => values.has(value));
}

function goingOn(branches: readonly Branch[]): readonly Branch[] {
  return branches.filter((branch) => !stops(branch.items));
}

function isTimedAsWhole(flow: Extract<Flow, { type: 'call' }>): boolean {
  return flow.duration.hi > 0;
}

interface Count {
  readonly drawn: number;
  readonly withoutUsual: number;
  readonly decisions: number;
  /** draws in the longest run */
  readonly draws: number;
  readonly stated: boolean;
}

const none: Count = { drawn: 0, withoutUsual: 0, decisions: 0, draws: 0, stated: true };

/** What there is to draw, in what a run may come to. */
function counted(items: readonly Flow[]): Count {
  return items.reduce((count, flow) => both(count, countOf(flow)), none);
}

function countOf(flow: Flow): Count {
  switch (flow.type) {
    case 'step':
    case 'pause':
    case 'plain':
    case 'stop':
    case 'verify':
      return drawnOnce(flow);
    case 'complication':
      return none;
    case 'wait':
      return flow.passing ? drawnOnce(flow) : none;
    case 'call':
      return isTimedAsWhole(flow) ? drawnOnce(flow) : counted(flow.items);
    case 'decide':
      return goingOn(flow.branches).reduce((count, branch) => both(count, counted(branch.items)), {
        ...drawnOnce(flow),
        decisions: 1,
        draws: 2,
      });
    case 'together':
      return flow.lanes.reduce((count, lane) => both(count, counted(lane.items)), none);
    case 'repeat': {
      const round = counted(flow.items);
      const stated = round.stated && (flow.atMost !== undefined || durationOf(flow).hi === 0);
      return { ...round, draws: 1 + round.draws * (flow.atMost ?? 1), stated };
    }
    default:
      return flow satisfies never;
  }
}

function drawnOnce({ duration: { lo, hi, usual } }: Flow): Count {
  const drawn = lo < hi ? 1 : 0;
  return { ...none, drawn, withoutUsual: usual === undefined ? drawn : 0, draws: 1, stated: Number.isFinite(hi) };
}

function both(a: Count, b: Count): Count {
  return {
    drawn: a.drawn + b.drawn,
    withoutUsual: a.withoutUsual + b.withoutUsual,
    decisions: a.decisions + b.decisions,
    draws: a.draws + b.draws,
    stated: a.stated && b.stated,
  };
}
