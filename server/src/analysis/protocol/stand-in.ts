import { descendsFrom } from '../kinds/subkind.ts';
import type { Thing, Things } from './things.ts';

/** What a rule calls by its kind (`patient.mass`) is the one given thing of that kind, whatever the protocol calls it. */
export function givenStandIn({ byName }: Things, kind: string): Thing | undefined {
  const fitting = [...byName.values()].filter(
    (thing) => thing.group === 'given' && thing.entry === undefined && descendsFrom(thing.kind, kind),
  );
  return fitting.length === 1 ? fitting[0] : undefined;
}

/** Whoever the protocol is about; a placeholder of whom nothing is stated, where it gives nobody. */
export function patientIn(things: Things): Thing | undefined {
  return things.byName.get('patient') ?? givenStandIn(things, 'patient') ?? things.unlisted('patient');
}
