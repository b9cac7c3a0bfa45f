import { type Flow, forEachFlow } from './flow.ts';

/** Who does an event. */
export type Hands =
  /** all of them together */
  | { readonly type: 'all of'; readonly roles: readonly string[] }
  /** somebody, and nothing says who: one of these. Empty where nobody is left that may. */
  | { readonly type: 'one of'; readonly roles: readonly string[] };

/**
 * Who does an event: whom its own line names; else whom the lane, or the call of a procedure that it stands in, names, of those the ones
 * that the action allows; else the only one of the team that the action allows. Several roles named on a line take part together; of
 * several that an action allows, any may.
 *
 * @param asked roles of the lane or call around it, innermost; empty where none names any
 */
export function handsFor(flow: Flow, asked: readonly string[], team: ReadonlySet<string>): Hands {
  if (flow.by.length > 0) return { type: 'all of', roles: flow.by };
  const allowed = flow.type === 'step' && flow.step.action?.type === 'action' ? flow.step.action.by : [];
  if (asked.length > 0) {
    const able = allowed.length > 0 ? asked.filter((role) => allowed.includes(role)) : asked;
    return { type: 'all of', roles: able.length > 0 ? able : asked };
  }
  if (flow.type === 'call') {
    const named = namedIn(flow.items, team);
    return named.length > 0 ? { type: 'all of', roles: named } : { type: 'one of', roles: [...team] };
  }
  const left = allowed.length > 0 ? allowed.filter((role) => team.has(role)) : [...team];
  return { type: left.length === 1 ? 'all of' : 'one of', roles: left };
}

/** Whoever has a part in a procedure of which only the length of the whole is known is there for the whole of it. */
function namedIn(items: readonly Flow[], team: ReadonlySet<string>): readonly string[] {
  const named = new Set<string>();
  forEachFlow(items, (flow) => {
    if (flow.type === 'wait' || flow.type === 'together' || flow.type === 'call') return;
    const hands = handsFor(flow, [], team);
    if (hands.type === 'all of') for (const role of hands.roles) named.add(role);
  });
  return [...named];
}
