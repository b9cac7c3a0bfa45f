import type { Span } from '@curette/grammar';
import { fitsKind } from '../kinds/subkind.ts';
import type { Finding, PatternModel } from '../model.ts';
import type { Filling, ResolvedStep } from '../protocol/step.ts';
import type { Thing } from '../protocol/things.ts';
import { bindings } from './pattern.ts';

/** What a rule's pattern may look for in a visit. */
export type RuleEvent =
  | { readonly type: 'step'; readonly step: ResolvedStep }
  | { readonly type: 'pause'; readonly name: string }
  /** a path ends here */
  | { readonly type: 'stop' }
  /** `what`: the property measured or what is recorded; `thing`: of what, where that is said */
  | {
      readonly type: 'verify' | 'record';
      readonly what: string;
      readonly thing: Thing | undefined;
      readonly span: Span;
    }
  /** one value of a finding is found, of those that lead to the same option */
  | {
      readonly type: 'finding';
      readonly finding: Finding;
      readonly value: string;
      readonly among: ReadonlySet<string>;
    };

type Way = ReadonlyMap<string, Filling>;

const NO_NAMES: readonly Way[] = [new Map()];

/** The ways an event matches a pattern, its `where` left aside: for each, what stands for each of the pattern's names. */
export function waysOf(pattern: PatternModel, event: RuleEvent): readonly Way[] {
  if (pattern.sort !== event.type) return [];
  switch (event.type) {
    case 'step':
      return event.step.action ? bindings(pattern, event.step.action, event.step) : [];
    case 'pause':
      return event.name === pattern.verb ? NO_NAMES : [];
    case 'stop':
      return NO_NAMES;
    case 'verify':
    case 'record':
      return event.what === pattern.verb ? ofWhat(pattern, event) : [];
    case 'finding':
      return event.finding.name === pattern.verb && pattern.values.has(event.value) ? NO_NAMES : [];
    default:
      return event satisfies never;
  }
}

function ofWhat(pattern: PatternModel, { thing, span }: Extract<RuleEvent, { type: 'verify' | 'record' }>) {
  const [slot] = pattern.slots;
  if (!slot) return NO_NAMES;
  if (!thing || slot.accepts.type !== 'kind' || !fitsKind(thing.kind, slot.accepts.kind)) return [];
  return [new Map([[slot.name, { type: 'things', things: [{ thing, span }] } satisfies Filling]])];
}
