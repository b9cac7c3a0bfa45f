import type { Statement } from '@curette/grammar';
import type { Track } from '../model.ts';

/**
 * Tracks from the `states` lines of a kind and those of its parent. States joined by moves belong to one track; a chain
 * that names no state known so far begins a new one. `any -> x` and `x lasts …, then y` are moves as well.
 */
export function buildTracks(inherited: readonly Track[], items: readonly Statement[]): readonly Track[] {
  const draft: Draft[] = inherited.map((track) => ({
    initial: track.initial,
    states: new Set(track.states),
    moves: new Map([...track.moves].map(([from, to]) => [from, new Set(to)])),
    fromAny: new Set<string>(),
  }));
  const trackOf = (state: string) => draft.find((track) => track.states.has(state));

  const join = (into: Draft, other: Draft) => {
    if (into === other) return;
    for (const state of other.states) into.states.add(state);
    for (const [from, to] of other.moves) for (const state of to) addMove(into, from, state);
    for (const state of other.fromAny) into.fromAny.add(state);
    draft.splice(draft.indexOf(other), 1);
  };

  let latest: Draft | undefined;
  const link = (from: string, to: string) => {
    if (from === 'any') {
      const track = trackOf(to) ?? latest ?? draft[0];
      if (!track) return;
      track.states.add(to);
      track.fromAny.add(to);
      return;
    }
    const a = trackOf(from);
    const b = trackOf(to);
    const track = a ?? b ?? newTrack(from);
    if (!a && !b) draft.push(track);
    if (a && b) join(a, b);
    track.states.add(from).add(to);
    addMove(track, from, to);
    latest = track;
  };

  for (const item of items) {
    if (item.type === 'states')
      for (const chain of item.chains) {
        const [only] = chain;
        if (chain.length === 1 && only && !trackOf(only.text)) {
          const track = newTrack(only.text);
          draft.push(track);
          latest = track;
        }
        for (let i = 1; i < chain.length; i++)
          link((chain[i - 1] as { text: string }).text, (chain[i] as { text: string }).text);
      }
    if (item.type === 'lasts' && item.then) link(item.state.text, item.then.text);
  }
  return draft.map((track) => {
    for (const to of track.fromAny) for (const from of track.states) if (from !== to) addMove(track, from, to);
    return { name: track.initial, initial: track.initial, states: track.states, moves: track.moves };
  });
}

interface Draft {
  readonly initial: string;
  readonly states: Set<string>;
  readonly moves: Map<string, Set<string>>;
  readonly fromAny: Set<string>;
}

function newTrack(initial: string): Draft {
  return { initial, states: new Set([initial]), moves: new Map(), fromAny: new Set() };
}

function addMove(track: Draft, from: string, to: string): void {
  const known = track.moves.get(from);
  if (known) known.add(to);
  else track.moves.set(from, new Set([to]));
}
