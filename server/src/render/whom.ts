import type { Expr } from '@curette/grammar';
import type { Contraindication, Ground } from '../analysis/model.ts';
import { forEachFlow } from '../analysis/protocol/flow.ts';
import type { ProtocolFacts } from '../analysis/protocol/protocol.ts';

/**
 * What a line about whom a protocol is not for rests on where it names no source itself: on what says the same of something that is
 * listed, or of an action that is done.
 */
export function groundsOf({ context, visits }: ProtocolFacts): (condition: Expr) => Ground | undefined {
  const grounds = new Map<string, Ground>();
  const take = (list: readonly Contraindication[]) => {
    for (const { condition, ground } of list) {
      const asked = relationOf(condition);
      if (asked !== undefined && !grounds.has(asked)) grounds.set(asked, ground);
    }
  };
  for (const { entry, kind, group } of context.things.byName.values())
    if (group !== 'given') take(entry?.contraindications ?? kind.contraindications);
  for (const { items } of visits)
    forEachFlow(items, (flow) => {
      const action = flow.type === 'step' ? flow.step.action : undefined;
      if (action?.type === 'action') take(action.contraindications);
    });
  return (condition) => grounds.get(relationOf(condition) ?? '');
}

/** `allergic to latex` */
function relationOf(condition: Expr): string | undefined {
  return condition.type === 'relation' && condition.value ? `${condition.relation} ${condition.value.text}` : undefined;
}
