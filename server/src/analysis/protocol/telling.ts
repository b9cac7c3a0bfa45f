import type { Statement, WaitStatement } from '@curette/grammar';
import type { ClockFinding, ClockReading, RuleClockFinding, RuleReading } from './clock-readings.ts';
import type { Assumption, Flow, FlowId } from './flow.ts';
import type { Writing } from './mends.ts';

/** What wording a finding takes: the protocol it is about, its events, and what the clocks of the visit it was made in read. */
export interface Telling extends Writing {
  readonly visit: Statement;
  readonly items: readonly Flow[];
  /** a line as it is written, without the block below it */
  readonly written: (flow: Flow) => string;
  readonly clock: (finding: ClockFinding) => ClockReading;
  readonly ruleClock: (finding: RuleClockFinding) => RuleReading;
  /** the wait from the visit of one event to that of the other, if they follow one another with one wait between */
  readonly waitBetween: (since: FlowId | undefined, until: FlowId) => WaitStatement | undefined;
  /** an event of this protocol by its id, whatever visit it is in */
  readonly flow: (id: FlowId) => Flow | undefined;
  /** the one option (its statement) that a finding's values lead to */
  readonly branch: (when: readonly Assumption[]) => number | undefined;
}
