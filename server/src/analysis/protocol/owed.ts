import type { Duty } from '../model.ts';
import { type Ending, type Following, initialOf } from './following.ts';
import { ANY_STATE, type States } from './possibility.ts';
import type { Thing, Things } from './things.ts';
import { trackIndex, trackWith } from './track.ts';

/** What must be done by the end of a visit (and, at the last one or at a stop, of the protocol) is done. */
export function endOf(following: Following, states: States, ending: Ending): void {
  const whole = ending.type !== 'visit';
  checkDuties(
    following,
    states,
    ending,
    (duty) => (ending.type !== 'protocol' && duty.by === 'end of visit') || (whole && duty.by === 'end of protocol'),
  );
  for (const monitor of following.monitors) {
    if (!monitor.end) continue;
    // A path that stops early owes what it has begun, but nothing to a rule about what a whole visit contains.
    if (ending.type === 'stop' ? !monitor.owed : (monitor.scope === 'protocol') !== (ending.type === 'protocol'))
      continue;
    const { end } = monitor;
    const possibilities = states[monitor.index] ?? initialOf(following, monitor.index);
    const bad = possibilities.filter((one) => !end(one.state));
    if (bad.length > 0)
      following.find({ type: 'monitor end', end: ending, monitor, bad, all: bad.length === possibilities.length });
  }
}

export function checkDuties(following: Following, states: States, ending: Ending, due: (duty: Duty) => boolean): void {
  for (const thing of dutiful(following.things))
    for (const duty of thing.kind.duties) {
      if (!due(duty)) continue;
      const [first] = duty.states;
      const track = first === undefined ? undefined : trackWith(thing, first);
      if (!track) continue;
      const index = trackIndex(thing, track, following.monitors.length);
      // A place that is only named owes nothing until something is done to it.
      if (!thing.statement && states[index] === undefined) continue;
      const possibilities = states[index] ?? initialOf(following, index);
      const bad = possibilities.filter(
        (one) => !one.told && one.state !== ANY_STATE && !duty.states.includes(one.state),
      );
      if (bad.length === 0) continue;
      following.find({ type: 'left', end: ending, thing, duty, bad, all: bad.length === possibilities.length });
      // Told once: what is left at a pause is not told again at the end, nor at the end of the next visit.
      states[index] = possibilities.map((one) => (bad.includes(one) ? { ...one, told: true } : one));
    }
}

/** Things with a duty; the same list for as long as no further place is named. */
function dutiful(things: Things): readonly Thing[] {
  const kept = dutifulThings.get(things);
  if (kept && kept.of === things.tracks.length) return kept.list;
  const list = [...new Set(things.tracks.map(({ thing }) => thing))].filter((thing) => thing.kind.duties.length > 0);
  dutifulThings.set(things, { of: things.tracks.length, list });
  return list;
}

const dutifulThings = new WeakMap<Things, { readonly of: number; readonly list: readonly Thing[] }>();
