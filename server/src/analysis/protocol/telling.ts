import type { Statement } from '@curette/grammar';
import type { Course } from './course.ts';
import type { Flow, FlowId } from './flow.ts';
import type { Writing } from './mends.ts';

/** What wording a finding takes: the protocol it is about, its events, and a clock for the visit it was made in. */
export interface Telling extends Writing {
  readonly visit: Statement;
  readonly course: () => Course;
  /** an event of this protocol by its id, whatever visit it is in */
  readonly flow: (id: FlowId) => Flow | undefined;
  /** the one option (its statement) that a finding's values lead to */
  readonly branch: (key: string, values: ReadonlySet<string>) => number | undefined;
}
