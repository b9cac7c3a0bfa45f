import { lastStarting, type Placed, type Statement } from '@curette/grammar';
import type { Track } from '../analysis/model.ts';
import type { Flow } from '../analysis/protocol/flow.ts';
import { type Following, initialOf } from '../analysis/protocol/following.ts';
import type { Possibilities, States } from '../analysis/protocol/possibility.ts';
import type { ProtocolFacts, VisitFacts } from '../analysis/protocol/protocol.ts';
import { followItems } from '../analysis/protocol/states.ts';
import type { Thing } from '../analysis/protocol/things.ts';
import { trackIndex } from '../analysis/protocol/track.ts';

/** How things stand at a place in a protocol. */
export interface Standing {
  readonly of: (thing: Thing, track: Track) => Possibilities;
}

/** At the beginning of the event that the innermost statement is; undefined outside a visit and where no run gets to. */
export function standingBefore(protocol: ProtocolFacts, path: readonly Placed[]): Standing | undefined {
  const target = path.at(-1)?.statement;
  const states = target && statesBefore(protocol, path, target.id);
  return states && standing(protocol, states);
}

/** At the end of the event. */
export function standingAfter(protocol: ProtocolFacts, path: readonly Placed[]): Standing | undefined {
  const target = path.at(-1)?.statement;
  const before = target && statesBefore(protocol, path, target.id);
  const flow = target && protocol.flow(target.id);
  const after = before && flow && followItems(quiet(protocol), [flow], before);
  return after && standing(protocol, after);
}

/**
 * Behind so many of the lines of a block.
 * @param path leads to the block's owner
 */
export function standingInside(protocol: ProtocolFacts, path: readonly Placed[], behind: number): Standing | undefined {
  const { statement: owner, start = 0 } = path.at(-1) ?? {};
  if (!owner?.body) return undefined;
  const { items, offsets } = owner.body;
  const inBlock = (statement: Statement, at: number) => [...path, { statement, start: start + (offsets[at] ?? 0) }];
  // From the line before, whose own states are soon found: a long block is not gone through from its beginning.
  for (let at = behind - 1; at >= 0; at--) {
    const item = items[at];
    const flow = item && protocol.flow(item.id);
    if (!flow) continue;
    const before = statesBefore(protocol, inBlock(item, at), item.id);
    const states = before && followItems(quiet(protocol), [flow], before);
    return states && standing(protocol, states);
  }
  const position = items.findIndex((item) => protocol.flow(item.id) !== undefined);
  const first = items[position];
  const states = first
    ? statesBefore(protocol, inBlock(first, position), first.id)
    : owner.type === 'visit'
      ? visitOf(protocol, path)?.followed.entry
      : statesBefore(protocol, path, ownEvent(owner, path));
  return states && standing(protocol, states);
}

/** An option or a lane is no event of its own: the decision is. */
function ownEvent(owner: Statement, path: readonly Placed[]): number {
  const inside = owner.type === 'option' || owner.type === 'otherwise' || owner.type === 'lane';
  return (inside ? path.at(-2)?.statement.id : undefined) ?? owner.id;
}

function statesBefore(protocol: ProtocolFacts, path: readonly Placed[], target: number): States | undefined {
  const visit = visitOf(protocol, path);
  const outermost = path[2]?.statement.id;
  if (!visit || outermost === undefined) return undefined;
  const top = positionOf(visit, path, outermost);
  const flow = protocol.flow(target);
  if (top < 0 || !flow) return undefined;
  // From the last place before whose states are still known.
  let from = 0;
  let states: States = visit.followed.entry;
  for (const [position, kept] of visit.followed.checkpoints)
    if (position <= top && position >= from) {
      from = position;
      states = kept;
    }
  let seen: States | undefined;
  const watch = (other: Flow, here: States) => {
    if (other === flow) seen = [...here];
  };
  followItems({ ...quiet(protocol), watch }, visit.items.slice(from, top + 1), [...states]);
  return seen;
}

/** Near its place among the visit's lines: a long visit is not gone through for it. */
function positionOf({ items }: VisitFacts, path: readonly Placed[], outermost: number): number {
  const [, visit, line] = path;
  const body = visit?.statement.body;
  const near = body && line ? lastStarting(body.offsets, line.start - visit.start) : -1;
  for (let at = Math.min(near, items.length - 1); at >= Math.max(0, near - 50); at--)
    if (items[at]?.statement.id === outermost) return at;
  return items.findIndex((flow) => flow.statement.id === outermost);
}

function visitOf(protocol: ProtocolFacts, path: readonly Placed[]): VisitFacts | undefined {
  const visit = path[1]?.statement.id;
  return protocol.visits.find((other) => other.statement.id === visit);
}

function quiet(protocol: ProtocolFacts): Following {
  return { ...protocol.context.following, find: () => undefined, watch: undefined };
}

function standing(protocol: ProtocolFacts, states: States): Standing {
  const { following } = protocol.context;
  return {
    of: (thing, track) => {
      const index = trackIndex(thing, track, following.monitors.length);
      return states[index] ?? initialOf(following, index);
    },
  };
}
