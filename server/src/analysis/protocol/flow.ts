import type { PauseStepStatement, Statement } from '@curette/grammar';
import type { FileId, Place, Problem } from '../../problems/problem.ts';
import type { Duration, Finding, Pause, Procedure } from '../model.ts';
import type { StepPlan } from './plan.ts';
import type { ResolvedStep } from './step.ts';
import type { Thing } from './things.ts';

/**
 * A visit lowered to its flow of events: what happens in which order, what may happen instead, and what side by side. Every pass that
 * asks for order, state or time walks this and nothing else. A flow is a series-parallel graph: a list is work in order, and the
 * branches of a decision, the lanes of parallel work and the body of a repetition are lists again.
 */
export type Flow =
  | StepFlow
  | CallFlow
  | PauseFlow
  | WaitFlow
  | VerifyFlow
  | DecideFlow
  | TogetherFlow
  | RepeatFlow
  | ComplicationFlow
  | PlainFlow
  | StopFlow;

/** The statement's id; inside a procedure, the calls that lead there come before it. */
export type FlowId = number | string;

interface Base {
  readonly id: FlowId;
  readonly statement: Statement;
  readonly file: FileId;
  /** where the procedure this stands in is called from; undefined in the protocol itself */
  readonly call: Place | undefined;
  /** what is wrong with the line whatever comes before it */
  readonly problems: readonly Problem[];
  /** of the event itself, not of what is inside it; seconds */
  readonly duration: Duration;
  readonly by: readonly string[];
}

export interface StepFlow extends Base {
  readonly type: 'step';
  readonly verb: string;
  readonly step: ResolvedStep;
  readonly plan: StepPlan;
}

/** A procedure at work: its steps with the call's things in place of its slots. */
export interface CallFlow extends Base {
  readonly type: 'call';
  readonly verb: string;
  readonly step: ResolvedStep;
  readonly procedure: Procedure;
  readonly items: readonly Flow[];
}

export interface PauseFlow extends Base {
  readonly type: 'pause';
  readonly name: string;
  readonly pause: Pause | undefined;
  /** the pause's items, then those added here */
  readonly items: readonly string[];
  readonly plan: StepPlan;
  readonly pauseStatement: PauseStepStatement;
}

export interface WaitFlow extends Base {
  readonly type: 'wait';
  /** `wait until … for …`: lasts until the state is old enough */
  readonly until:
    | { readonly thing: Thing; readonly index: number; readonly state: string; readonly seconds: number }
    | undefined;
  /** `wait until paste is set`, which it becomes by itself: the state it is in until then */
  readonly passing:
    | { readonly thing: Thing; readonly index: number; readonly from: string; readonly state: string }
    | undefined;
}

export interface VerifyFlow extends Base {
  readonly type: 'verify';
  readonly label: string;
  readonly plan: StepPlan;
  /** what to do when it is not as it should be */
  readonly otherwise: readonly Flow[] | undefined;
}

export interface Assumption {
  /** a finding's name, or `#id` of what may happen or not */
  readonly key: string;
  readonly values: ReadonlySet<string>;
  /** how many values there are in all */
  readonly of: number;
  /** how a person says that one of some of its values is so: "buccal wall is lost" */
  readonly say: (values: ReadonlySet<string>) => string;
}

export interface Branch {
  /** stands for the moment at which it is known */
  readonly id: FlowId;
  readonly statement: Statement;
  readonly label: string;
  /** the one that tells this branch from its sisters */
  readonly assumption: Assumption;
  /** what else it says of single findings */
  readonly also: readonly Assumption[];
  /** what is still known of it once the branches meet again */
  readonly remembered: readonly Assumption[];
  /** what rules make of what is found here */
  readonly plan: StepPlan;
  readonly items: readonly Flow[];
}

export interface DecideFlow extends Base {
  readonly type: 'decide';
  readonly label: string;
  readonly findings: readonly Finding[];
  readonly branches: readonly Branch[];
}

export interface Lane {
  readonly statement: Statement;
  readonly label: string;
  readonly by: readonly string[];
  readonly items: readonly Flow[];
}

export interface TogetherFlow extends Base {
  readonly type: 'together';
  readonly lanes: readonly Lane[];
}

export interface RepeatFlow extends Base {
  readonly type: 'repeat';
  readonly until: string | undefined;
  readonly atMost: number | undefined;
  readonly items: readonly Flow[];
}

export interface ComplicationFlow extends Base {
  readonly type: 'complication';
  readonly label: string;
  readonly assumption: Assumption;
  readonly items: readonly Flow[];
}

/** Told, recorded or noted: no state changes. */
export interface PlainFlow extends Base {
  readonly type: 'plain';
  readonly plan: StepPlan;
}

export interface StopFlow extends Base {
  readonly type: 'stop';
  readonly plan: StepPlan;
  readonly label: string;
}

/** The lists inside an event, in the order they stand. */
export function innerLists(flow: Flow): readonly (readonly Flow[])[] {
  switch (flow.type) {
    case 'call':
    case 'repeat':
    case 'complication':
      return [flow.items];
    case 'verify':
      return flow.otherwise ? [flow.otherwise] : [];
    case 'decide':
      return flow.branches.map((branch) => branch.items);
    case 'together':
      return flow.lanes.map((lane) => lane.items);
    case 'step':
    case 'pause':
    case 'wait':
    case 'plain':
    case 'stop':
      return [];
    default:
      return flow satisfies never;
  }
}

/** Every event of a list and of what is inside, outermost first. */
export function forEachFlow(items: readonly Flow[], visit: (flow: Flow) => void): void {
  for (const flow of items) {
    visit(flow);
    for (const inner of innerLists(flow)) forEachFlow(inner, visit);
  }
}

/** Whether no run goes on after an event: each of its paths comes to a `stop`. */
export function endsEveryPath(flow: Flow): boolean {
  const ends = (items: readonly Flow[]) => items.some(endsEveryPath);
  switch (flow.type) {
    case 'stop':
      return true;
    case 'call':
    case 'repeat':
      return ends(flow.items);
    case 'decide':
      return flow.branches.length > 0 && flow.branches.every((branch) => ends(branch.items));
    case 'together':
      return flow.lanes.some((lane) => ends(lane.items));
    case 'verify':
    case 'complication':
    case 'step':
    case 'pause':
    case 'wait':
    case 'plain':
      return false;
    default:
      return flow satisfies never;
  }
}

/** Where a problem with an event is shown: at the event, or at the call when it stands in a procedure. */
export function siteOf(flow: Flow): Place {
  return flow.call ?? { file: flow.file, statement: flow.statement.id, span: flow.statement.head };
}
