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
 * Cuts a list of events into stretches. Where it is cut hangs on the events, not on their position, so that a line more or less
 * moves no other cut; a stretch that is the same as one of `previous` is that one.
 */
export function chunksOf(items: readonly Flow[], previous: readonly Chunk[]): readonly Chunk[] {
  const known = new Map<Flow, Chunk>();
  for (const chunk of previous) {
    const [first] = chunk.items;
    if (first) known.set(first, chunk);
  }
  const chunks: Chunk[] = [];
  let from = 0;
  for (let at = 1; at <= items.length; at++) {
    const next = items[at];
    if (next && !startsChunk(next) && at - from < LONGEST) continue;
    const first = items[from] as Flow;
    const old = known.get(first);
    chunks.push(old && sameStretch(old.items, items, from, at) ? old : { items: items.slice(from, at) });
    from = at;
  }
  return chunks;
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

function sameStretch(old: readonly Flow[], items: readonly Flow[], from: number, to: number): boolean {
  if (old.length !== to - from) return false;
  for (let i = 0; i < old.length; i++) if (old[i] !== items[from + i]) return false;
  return true;
}
