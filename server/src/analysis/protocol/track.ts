import type { Track } from '../model.ts';
import type { Thing } from './things.ts';

/** Number of a thing's track among all that are followed; rules' own tracks come first. */
export function trackIndex(thing: Thing, track: Track, monitors: number): number {
  return monitors + thing.firstTrack + thing.kind.tracks.indexOf(track);
}

/** The track of a thing that has a state. */
export function trackWith(thing: Thing, state: string): Track | undefined {
  return thing.kind.tracks.find((track) => track.states.has(state));
}
