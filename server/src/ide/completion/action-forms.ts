import type { Action, Procedure, SlotModel } from '../../analysis/model.ts';
import type { Context } from './context.ts';
import { fitsSlot, hindrance } from './fit.ts';
import { type Form, type FormPart, gap } from './form.ts';
import { type CompletionItem, item } from './items.ts';

/**
 * The whole step: what the action is done to, with, on …, in order. A gap holds the things of the protocol that fit, those first that
 * are in the state it needs; where there is none, the kind that is asked for.
 * @param optional with what may be left out, too
 */
export function actionForm(context: Context, action: Action | Procedure, optional: boolean): Form {
  const parts: FormPart[] = [action.verb];
  let stop = 0;
  for (const slot of action.slots) {
    if (slot.optional && !optional) continue;
    stop += 1;
    parts.push(
      slot.preposition === undefined ? ' ' : ` ${slot.preposition} `,
      gap(stop, fillingsOf(context, action, slot)),
    );
  }
  return parts;
}

/** The same step with all that may be left out: `fill … with … on …`. */
export function fullerItems(context: Context, action: Action | Procedure, offered: CompletionItem): CompletionItem[] {
  if (!action.slots.some(({ optional }) => optional)) return [];
  const words = action.slots.flatMap(({ preposition }) => (preposition === undefined ? ['…'] : [preposition, '…']));
  return [
    {
      ...item('action', `${action.verb} ${words.join(' ')}`, offered.detail, offered.rank + 2),
      form: actionForm(context, action, true),
      formOnly: true,
    },
  ];
}

function fillingsOf(context: Context, action: Action | Procedure, slot: SlotModel): readonly string[] {
  switch (slot.accepts.type) {
    case 'kind': {
      const fitting = context.things().filter((thing) => fitsSlot(thing, slot));
      if (fitting.length === 0) return [slot.kindWord];
      const ready = fitting.filter((thing) => hindrance(action, slot, thing, context) === undefined);
      return [...new Set([...ready, ...fitting])].map(({ name }) => name);
    }
    case 'text':
      return ['"…"'];
    case 'quantity':
    case 'unknown':
      return [slot.kindWord];
    default:
      return slot.accepts satisfies never;
  }
}
