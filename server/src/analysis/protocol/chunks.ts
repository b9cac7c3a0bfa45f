import type { Flow } from './flow.ts';

/**
 * A stretch of a visit's events. What is worked out from a stretch alone (sums, lists, look-ups) is kept with it, so that after a
 * change in one line only the stretch around it is gone through again.
 */
export interface Chunk {
  readonly items: readonly Flow[];
}

/** Stretches are about this long. */
const ABOUT = 32;
const LONGEST = 4 * ABOUT;

/**
 * Cuts a list of events into stretches. Those of `previous` that still stand at its beginning or its end are taken over; what lies
 * between is cut where the events say, not at fixed positions, so that a line more or less moves no other cut.
 */
export function chunksOf(items: readonly Flow[], previous: readonly Chunk[]): readonly Chunk[] {
  let front = 0;
  let from = 0;
  for (const chunk of previous) {
    if (!standsAt(chunk, items, from)) break;
    from += chunk.items.length;
    front++;
  }
  let back = previous.length;
  let to = items.length;
  while (back > front) {
    const chunk = previous[back - 1] as Chunk;
    const start = to - chunk.items.length;
    if (start < from || !standsAt(chunk, items, start)) break;
    to = start;
    back--;
  }
  const middle: Chunk[] = [];
  for (let at = from + 1; at <= to; at++) {
    if (at < to && !startsChunk(items[at] as Flow) && at - from < LONGEST) continue;
    middle.push({ items: items.slice(from, at) });
    from = at;
  }
  return [...previous.slice(0, front), ...middle, ...previous.slice(back)];
}

/** Keeps what `work` makes of a stretch for as long as the stretch is there. */
export function perChunk<T>(work: (chunk: Chunk) => T): (chunk: Chunk) => T {
  const kept = new WeakMap<Chunk, { readonly value: T }>();
  return (chunk) => {
    const known = kept.get(chunk);
    if (known) return known.value;
    const value = work(chunk);
    kept.set(chunk, { value });
    return value;
  };
}

function startsChunk(flow: Flow): boolean {
  return typeof flow.id === 'number' && flow.id % ABOUT === 0;
}

function standsAt(chunk: Chunk, items: readonly Flow[], at: number): boolean {
  const stretch = chunk.items;
  if (at + stretch.length > items.length) return false;
  for (let i = 0; i < stretch.length; i++) if (stretch[i] !== items[at + i]) return false;
  return true;
}
