import type { Reason } from './labelled-graph.ts';
import type { Part, TimeNetwork } from './network.ts';
import { isFixed, type Origin } from './origins.ts';

/**
 * What a cycle consists of, in the order in which it happens: by when each part is over, what begins later first, and limits last.
 *
 * The weights of the parts sum to that of the cycle, where a limit's `hi` counts as such and its `lo` less than nothing; a stretch's `lo`
 * as such (that it may be short) and its `hi` less than nothing (that it may be long); a join's delay as such `at once` and less than
 * nothing `not before`. A part may come more than once.
 *
 * @param times when moments come, by which to put the parts into an order
 */
export function partsOf(network: TimeNetwork, cycle: readonly Reason[], times: Float64Array): readonly Part[] {
  const parts: Part[] = [];
  // A way through a helper counts its stretch's least length on the way in and takes it back on the way out.
  const takenBack = new Map<number, number>();
  for (const reason of [...cycle].reverse()) {
    switch (reason.type) {
      case 'limit':
        parts.push(...stepsOf(reason.target, 'back'));
        parts.push({ type: 'limit', index: reason.index, side: reason.side });
        parts.push(...stepsOf(reason.source, 'forth'));
        break;
      case 'lower':
        break;
      case 'upper':
        parts.push({ type: 'link', index: reason.link, side: 'hi' }, { type: 'link', index: reason.link, side: 'lo' });
        break;
      case 'forth':
        if (reason.link !== undefined) parts.push({ type: 'link', index: reason.link, side: 'lo' });
        parts.push(...stepsOf(reason.origin, 'forth'));
        break;
      case 'back':
        takenBack.set(reason.link, (takenBack.get(reason.link) ?? 0) + 1);
        parts.push(...stepsOf(reason.origin, 'back'));
        break;
    }
  }
  const left = parts.filter((part) => {
    if (part.type !== 'link' || part.side !== 'lo') return true;
    const count = takenBack.get(part.index) ?? 0;
    takenBack.set(part.index, count - 1);
    return count <= 0;
  });
  return inOrder(network, withoutDetours(network, left), times);
}

/** Without what is gone through both ways and comes to nothing: a stretch of one length, or a join's delay. */
function withoutDetours(network: TimeNetwork, parts: readonly Part[]): readonly Part[] {
  const dropped = new Set<number>();
  const back = new Map<string, number[]>();
  const keyOf = (part: Part): string | undefined => {
    if (part.type === 'join') return `join ${part.index} ${part.after}`;
    const link = part.type === 'link' ? network.links[part.index] : undefined;
    return link !== undefined && isFixed(link) ? `link ${part.index}` : undefined;
  };
  for (const [place, part] of parts.entries()) {
    const key = keyOf(part);
    if (key !== undefined && (part.side === 'hi' || part.side === 'not before'))
      back.set(key, [...(back.get(key) ?? []), place]);
  }
  for (const [place, part] of parts.entries()) {
    const key = keyOf(part);
    if (key === undefined || part.side === 'hi' || part.side === 'not before') continue;
    const other = back.get(key)?.pop();
    if (other === undefined) continue;
    dropped.add(place).add(other);
  }
  return parts.filter((_, place) => !dropped.has(place));
}

/** The steps from a base to a moment, or back. */
function stepsOf(origin: Origin, direction: 'forth' | 'back'): readonly Part[] {
  const steps: Part[] = [];
  for (let at: Origin | undefined = origin; at?.step !== undefined; at = at.before) {
    const { step } = at;
    steps.push(
      step.type === 'link'
        ? { type: 'link', index: step.link, side: direction === 'forth' ? 'lo' : 'hi' }
        : {
            type: 'join',
            index: step.join,
            after: step.after,
            side: direction === 'forth' ? 'at once' : 'not before',
          },
    );
  }
  return direction === 'forth' ? steps : steps.reverse();
}

function inOrder(network: TimeNetwork, parts: readonly Part[], times: Float64Array): readonly Part[] {
  const placed = parts.map((part) => {
    const [a, b] = endsOf(network, part).map((moment) => times[moment] ?? 0) as [number, number];
    return { part, begin: Math.min(a, b), end: Math.max(a, b) };
  });
  const isLimit = (part: Part): number => (part.type === 'limit' ? 1 : 0);
  return placed
    .sort((a, b) => a.end - b.end || b.begin - a.begin || isLimit(a.part) - isLimit(b.part))
    .map(({ part }) => part);
}

function endsOf(network: TimeNetwork, part: Part): readonly [number, number] {
  switch (part.type) {
    case 'limit':
    case 'link': {
      const { from = 0, to = 0 } = (part.type === 'limit' ? network.limits : network.links)[part.index] ?? {};
      return [from, to];
    }
    case 'join': {
      const join = network.joins[part.index];
      return [join?.after[part.after]?.from ?? 0, join?.point ?? 0];
    }
  }
}
