import type { StatementOf } from '@curette/grammar';
import type { Duty, Rule, TimeLimit } from '../model.ts';
import type { Answer } from '../rules/evaluate.ts';
import type {
  Assumption,
  DecideFlow,
  Flow,
  FlowId,
  PauseFlow,
  PlainFlow,
  StepFlow,
  StopFlow,
  TogetherFlow,
  VerifyFlow,
  WaitFlow,
} from './flow.ts';
import type { Mark, Monitor } from './monitors.ts';
import type { DynamicCheck, StateNeed, StateSet } from './plan.ts';
import { WORDS } from './portion.ts';
import type { Possibilities, Possibility, States } from './possibility.ts';
import type { Thing, Things } from './things.ts';

/** What following the states of a visit brought to light. Worded elsewhere. */
export type StateFinding =
  | {
      readonly type: 'wrong state';
      readonly flow: Flow;
      readonly need: StateNeed;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | {
      readonly type: 'impossible move';
      readonly flow: Flow;
      readonly set: StateSet;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  /** `bad`: on which paths it is not met, where it is on others */
  | {
      readonly type: 'condition';
      readonly flow: Flow;
      readonly check: DynamicCheck;
      readonly answer: Answer;
      readonly bad: Possibilities;
    }
  | {
      readonly type: 'mark';
      readonly flow: Flow;
      readonly mark: Mark;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | {
      readonly type: 'left';
      readonly end: Ending;
      readonly thing: Thing;
      readonly duty: Duty;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | {
      readonly type: 'monitor end';
      readonly end: Ending;
      readonly monitor: Monitor;
      readonly bad: Possibilities;
      readonly all: boolean;
    }
  | { readonly type: 'unreachable'; readonly flow: Flow; readonly after: Flow }
  | {
      readonly type: 'lanes';
      readonly flow: TogetherFlow;
      readonly step: Flow;
      readonly other: Flow;
      readonly thing: Thing;
    }
  /** a clock to be read: how old the state is when the step begins */
  | {
      readonly type: 'clock';
      readonly flow: StepFlow;
      readonly need: StateNeed;
      readonly since: FlowId | undefined;
      readonly when: Possibility['when'];
    }
  /** a rule's clock to be read: how long ago the first of its two steps was done when the second begins */
  | {
      readonly type: 'rule clock';
      readonly flow: MarkedFlow;
      readonly rule: Rule;
      readonly limit: TimeLimit;
      readonly since: FlowId;
      readonly when: Possibility['when'];
    }
  /** a wait for a state that the thing is not in on some path */
  | {
      readonly type: 'wait in vain';
      readonly flow: WaitFlow;
      readonly thing: Thing;
      readonly state: string;
      readonly bad: Possibilities;
      readonly all: boolean;
    };

/** An event that rules look for; where something is found, the decision. */
export type MarkedFlow = StepFlow | PauseFlow | VerifyFlow | PlainFlow | DecideFlow | StopFlow;

/** Where a duty falls due. */
export type Ending =
  | { readonly type: 'visit' | 'protocol'; readonly after: Flow | undefined }
  | { readonly type: 'pause'; readonly pause: PauseFlow }
  | { readonly type: 'stop'; readonly stop: Flow };

export interface Following {
  readonly things: Things;
  readonly monitors: readonly Monitor[];
  readonly find: (finding: StateFinding) => void;
  /** how many repetitions around are being tried out for what a further round finds; undefined where it is for good */
  readonly trying?: number;
  /** told of the states before each event, when somebody wants to know */
  readonly watch: ((flow: Flow, states: States) => void) | undefined;
}

/** States at the beginning of a protocol that follows no other: everything in its initial state. */
export function initialStates(): States {
  return [];
}

/**
 * The states a visit begins in. Its own rules begin anew, and what was found in an earlier visit says nothing of what will be found in
 * this one: bleeding then is not bleeding now.
 */
export function enterVisit(following: Following, states: States, left: StatementOf<'visit'> | undefined): States {
  const entered = states.map((possibilities) =>
    possibilities?.some((one) => one.when.length > 0)
      ? possibilities.map((one) => ({
          ...one,
          when: left ? one.when.map((found) => foundEarlier(found, left)) : one.when,
        }))
      : possibilities,
  );
  for (const monitor of following.monitors) if (monitor.scope === 'visit') entered[monitor.index] = undefined;
  return entered;
}

/** Marked by the visit it was found in, once. */
function foundEarlier(found: Assumption, visit: StatementOf<'visit'>): Assumption {
  if (found.key.includes('@') || found.key.startsWith(WORDS)) return found;
  const title = visit.label?.value ?? visit.name?.text.replaceAll('_', ' ') ?? 'an earlier visit';
  return {
    ...found,
    key: `${found.key}@${visit.id} ${title}`,
    say: (values) => `${found.say(values)} in "${title}"`,
  };
}

/** What a track is in before anything happened. */
export function initialOf(following: Following, index: number): Possibilities {
  const monitor = following.monitors[index];
  const followed = following.things.tracks[index - following.monitors.length];
  const state = monitor?.initial ?? followed?.track.initial ?? '';
  return [{ state, since: undefined, when: [] }];
}
