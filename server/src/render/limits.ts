import type { ChecklistClock, ChecklistLimit } from '@curette/shared';
import { formatQuantity } from '@curette/shared';
import type { Action, Ground } from '../analysis/model.ts';
import { type Flow, forEachFlow, type StepFlow } from '../analysis/protocol/flow.ts';
import type { StateNeed } from '../analysis/protocol/plan.ts';
import type { ProtocolContext } from '../analysis/protocol/protocol.ts';
import type { Environment } from '../analysis/rules/evaluate.ts';
import { bindings, wordsOf } from '../analysis/rules/pattern.ts';
import { setsUsed } from '../analysis/rules/sets-used.ts';
import { inSets } from '../problems/words.ts';
import type { Citations } from './citations.ts';
import { plain } from './text.ts';
import { thingWords } from './words.ts';

/** A need for a state of a certain age, anywhere in the protocol; by the state it is about. */
export type ClockNeeds = ReadonlyMap<string, { readonly limit: string; readonly until: string }>;

/** Which states the protocol asks the age of, so that the step that begins one can say that a clock runs. */
export function clockNeeds(visits: readonly (readonly Flow[])[], say: (flow: StepFlow) => string): ClockNeeds {
  const needs = new Map<string, { limit: string; until: string }>();
  for (const items of visits)
    forEachFlow(items, (flow) => {
      if (flow.type !== 'step') return;
      for (const need of flow.plan.needs) {
        const limit = ageWords(need);
        const key = `${need.index} ${need.state}`;
        if (limit !== undefined && !needs.has(key)) needs.set(key, { limit, until: say(flow) });
      }
    });
  return needs;
}

/** The clocks that a step sets going. */
export function clocksOf(flow: StepFlow, needs: ClockNeeds): ChecklistClock[] {
  const found = flow.plan.sets.flatMap(({ thing, index, state }) => {
    const need = needs.get(`${index} ${state}`);
    return need ? [{ thing: thingWords(thing), state: plain(state), ...need }] : [];
  });
  return together(
    found,
    ({ state, limit, until }) => `${state}\n${limit}\n${until}`,
    (things, { state, limit, until }) => ({ text: `${things} ${state}`, limit, until }),
  );
}

/** What a step has to keep: times, conditions that say why they stand, and rules about it. */
export function limitsOf(flow: StepFlow, context: ProtocolContext, citations: Citations): ChecklistLimit[] {
  const { action } = flow.step;
  if (action?.type !== 'action') return [];
  return [...needLimits(flow, action, context, citations), ...ruleLimits(flow, action, context, citations)];
}

function needLimits(flow: StepFlow, action: Action, context: ProtocolContext, citations: Citations): ChecklistLimit[] {
  const states = flow.plan.needs
    .filter((need) => ageWords(need) !== undefined || need.ground.because !== undefined)
    .map((need) => {
      const age = ageWords(need);
      const from = age === undefined ? need.ground : (groundOfAge(need, action) ?? need.ground);
      return {
        thing: thingWords(need.thing),
        type: age === undefined ? ('condition' as const) : ('clock' as const),
        state: `${plain(need.state)}${age === undefined ? '' : ` for ${age}`}`,
        why: need.ground.because ?? from.because ?? null,
        source: citations.number(from.source ?? need.ground.source, from.place.file),
      };
    });
  const limits: ChecklistLimit[] = together(
    states,
    ({ state, why, source }) => `${state}\n${why}\n${source}`,
    (things, { type, state, why, source }) => ({ type, text: `${things} ${state}`, why, source }),
  );
  const environment = environmentOf(context, action.file, flow);
  for (const { condition, ground } of action.needs) {
    if (condition.type === 'state' || ground.because === undefined) continue;
    limits.push({
      type: 'condition',
      text: wordsOf(condition, environment),
      why: ground.because,
      source: citations.number(ground.source, ground.place.file),
    });
  }
  return limits;
}

function ruleLimits(flow: StepFlow, action: Action, context: ProtocolContext, citations: Citations): ChecklistLimit[] {
  return context.rules.flatMap((rule): ChecklistLimit[] => {
    const applying = rule.forms.flatMap((form) =>
      form.type === 'whenever'
        ? bindings(form.pattern, action, flow.step).map((bound) => ({ expect: form.expect, bound }))
        : [],
    );
    if (applying.length === 0) return [];
    const sets = applying.flatMap(({ expect, bound }) => {
      const environment = { ...environmentOf(context, rule.file, flow), filling: (name: string) => bound.get(name) };
      return expect.flatMap((expr) => setsUsed(expr, environment));
    });
    return [
      {
        type: 'rule',
        text: `${rule.label}${inSets(sets)}`,
        why: rule.why ?? null,
        source: citations.number(rule.source, rule.file),
      },
    ];
  });
}

/** What differs in nothing but the thing is said once, of all of them. */
function together<T extends { readonly thing: string }, R>(
  list: readonly T[],
  key: (one: T) => string,
  say: (things: string, one: T) => R,
): R[] {
  const groups = new Map<string, T[]>();
  for (const one of list) groups.set(key(one), [...(groups.get(key(one)) ?? []), one]);
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    return first ? [say([...new Set(group.map(({ thing }) => thing))].join(', '), first)] : [];
  });
}

/** "12–50 min"; undefined when it does not matter since when the state has been so. */
export function ageWords(need: StateNeed): string | undefined {
  if (need.ageText) return `${formatQuantity(need.ageText)}${need.ageSet ? inSets([need.ageSet]) : ''}`;
  return need.lasts && `at most ${formatQuantity(need.lasts.limit)}${need.lasts.set ? inSets([need.lasts.set]) : ''}`;
}

/** Where the figure stands: with the thing (a property of it), or with the state's own limit. */
function groundOfAge(need: StateNeed, action: Action): Ground | undefined {
  if (!need.ageText) return need.lasts?.age.ground;
  for (const { condition } of action.needs) {
    if (condition.type !== 'state' || condition.state.text !== need.state || condition.for?.type !== 'path') continue;
    const property = condition.for.names[1];
    const value = property && need.thing.values.get(property.text);
    if (value) return value.ground;
  }
  return undefined;
}

function environmentOf({ module, things }: ProtocolContext, file: string, flow: StepFlow): Environment {
  return {
    module: module.module(file) ?? module,
    filling: (name) => flow.step.fillings.get(name),
    thing: (name) => things.byName.get(name) ?? things.unlisted(name),
    state: undefined,
  };
}
