import type { Action, Procedure, SlotModel } from '../analysis/model.ts';
import { actionsNamed } from '../analysis/names/resolve.ts';
import type { FileId } from '../problems/problem.ts';
import { readingOf, slotReading, spokenOut, writtenAt } from './as-written.ts';
import type { Checked } from './checked.ts';
import { type Context, contextOf } from './completion/context.ts';
import { lineAt } from './completion/line.ts';
import { actionsLike, clauseAt, type Part, partsOf } from './completion/steps.ts';
import { actionHover } from './hover/declarations.ts';
import { plainly } from './markdown.ts';
import { stepAt } from './surroundings.ts';

/** How a step may go on: every action of its verb, the one that is meant most likely, and the slot that the cursor is in. */
export interface SignatureHelp {
  readonly signatures: readonly Signature[];
  /** index of the one that what is written so far means */
  readonly active: number;
}

export interface Signature {
  /** `pack (graft) into (site)` */
  readonly label: string;
  /** what it needs, makes and takes, in markdown */
  readonly markdown: string;
  readonly slots: readonly {
    /** where it stands in the label */
    readonly start: number;
    readonly end: number;
    readonly markdown: string;
  }[];
  /** index of the slot that the cursor is in; undefined when the action has none there */
  readonly activeSlot: number | undefined;
}

/** Undefined outside of steps, on the verb itself, and in what a step says of itself at its end. */
export function signatureHelp(checked: Checked, id: FileId, offset: number): SignatureHelp | undefined {
  const facts = checked.facts(id);
  const line = facts && lineAt(facts.file, offset);
  if (!facts?.module || !line || line.container !== 'steps') return undefined;
  const [verb, ...rest] = line.words;
  if (verb?.sort !== 'name' || clauseAt(rest)) return undefined;
  const actions = actionsNamed(facts.module, verb.text);
  if (actions.length === 0) return undefined;
  const context = contextOf(checked, facts, facts.module, line);
  const parts = partsOf(rest);
  return {
    signatures: actions.map((action) => signatureOf(checked, action, parts.at(-1), line.typed)),
    active: Math.max(0, actions.indexOf(meantOf(context, verb.text, parts) ?? (actions[0] as Action))),
  };
}

/** The action that the line is read as, if what stands before the cursor leaves it open; else the first that fits. */
function meantOf(context: Context, verb: string, parts: readonly Part[]): Action | Procedure | undefined {
  const like = actionsLike(context, verb, parts).filter((action) =>
    parts.every(
      ({ preposition }) => preposition === undefined || action.slots.some((slot) => slot.preposition === preposition),
    ),
  );
  const { statement } = context.line;
  const read = statement?.type === 'step' ? stepAt(context.around, statement)?.action : undefined;
  return like.find((action) => action === read) ?? like[0] ?? read;
}

function signatureOf(checked: Checked, action: Action | Procedure, part: Part | undefined, typed: string): Signature {
  const label = readingOf(action);
  let from = action.verb.length;
  const slots = action.slots.map((slot) => {
    const reading = slotReading(slot);
    const start = label.indexOf(reading, from);
    from = start + reading.length;
    return { start, end: from, markdown: slotMarkdown(checked, action, slot) };
  });
  const [, ...told] = actionHover(checked, action);
  const active = activeSlot(action.slots, part, typed);
  return {
    label,
    markdown: told.filter((block) => block !== '').join('\n\n'),
    slots,
    activeSlot: active < 0 ? undefined : active,
  };
}

/** Several slots may stand behind one preposition: the thing, then how much of it. */
function activeSlot(slots: readonly SlotModel[], part: Part | undefined, typed: string): number {
  const here = slots.flatMap((slot, i) => (slot.preposition === part?.preposition ? [i] : []));
  const words = part?.words ?? [];
  const last = words.at(-1);
  const isQuantity = (i: number) => slots[i]?.accepts.type === 'quantity';
  if (last?.sort === 'number') return here.find(isQuantity) ?? -1;
  const named = words.filter(({ sort }) => sort === 'name').length;
  if (named === 0 || last?.text === ',') return here[0] ?? -1;
  // Behind a thing comes its amount; while a word is being typed there, that may as well be the next preposition.
  const next = here.find((i) => isQuantity(i) && i > (here[0] as number));
  return next !== undefined && typed === '' ? next : (here[0] ?? -1);
}

/** What the slot takes, and what the action asks of it before. */
function slotMarkdown(checked: Checked, action: Action | Procedure, slot: SlotModel): string {
  const { accepts } = slot;
  const what = accepts.type === 'kind' ? [plainly(accepts.kind.label), plainly(accepts.kind.statement.doc ?? '')] : [];
  const word = new RegExp(`(?<![\\p{L}\\p{N}_.])${slot.name}(?![\\p{L}\\p{N}_])`, 'u');
  const asked = (action.statement.body?.items ?? []).flatMap((item) => {
    if (item.type !== 'needs') return [];
    const written = writtenAt(checked, action.file, item.id, item.head);
    return word.test(written.replace(/"(?:[^"\\]|\\.)*"/g, '""'))
      ? [`- ${plainly(spokenOut(written, action.slots))}`]
      : [];
  });
  return [...what.filter((line) => line !== ''), asked.join('\n')].filter((block) => block !== '').join('\n\n');
}
