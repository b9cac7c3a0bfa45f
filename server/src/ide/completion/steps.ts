import { words as wordList } from '@curette/grammar';
import { type Dimension, dimension, dimensionNamed, type Unit } from '@curette/shared';
import { descendsFrom } from '../../analysis/kinds/subkind.ts';
import type { Action, Kind, Procedure, SlotModel } from '../../analysis/model.ts';
import { actionsNamed, entryNamed, findingNamed } from '../../analysis/names/resolve.ts';
import type { Thing } from '../../analysis/protocol/things.ts';
import { readingOf, spoken } from '../as-written.ts';
import { actionForm, fullerItems } from './action-forms.ts';
import type { Context } from './context.ts';
import { expressionItems } from './expressions.ts';
import { fitsSlot, hindrance } from './fit.ts';
import { formOf } from './form.ts';
import {
  type CompletionItem,
  catalogueItems,
  declaredUnitItems,
  entryItems,
  findingItems,
  item,
  lineWordItems,
  namesOf,
  pauseItems,
  sourceItems,
  unitItems,
  wordItems,
} from './items.ts';
import { PREPOSITIONS, type Word } from './line.ts';
import { decisionForm, furtherSteps } from './line-forms.ts';

/** What may be written in a visit's lines. */
export function stepItems(context: Context): readonly CompletionItem[] {
  const { line, module } = context;
  const [first, ...rest] = line.words;
  if (!first) return [...lineWordItems(wordList.lines.steps, 2), ...furtherSteps(context), ...verbItems(context)];
  const last = rest.at(-1);
  const clause = clauseAt(rest);
  switch (first.text) {
    case 'pause':
      return rest.length === 0 ? pauseItems(module) : clauseItems(context, clause);
    case 'wait':
      return waitItems(context, rest);
    case 'verify':
      return verifyItems(context, rest, clause);
    case 'decide':
      return rest.length === 0 || last?.text === ',' ? undecidedItems(context) : clauseItems(context, clause);
    case 'instruct':
      if (last?.text === 'at') return wordItems(['home']);
      if (last?.sort === 'text' && !clause) return [item('keyword', 'at home'), ...clauseItems(context, clause)];
      return rest.length === 0 ? [] : clauseItems(context, clause);
    case 'record':
      if (last?.text === 'of') return thingItems(context, () => true);
      if (rest.length === 0) return [];
      return clause ? clauseItems(context, clause) : [item('keyword', 'of'), ...clauseItems(context, clause)];
    case 'repeat':
      if (rest.length === 0) return wordItems(['until', 'at most']);
      if (last?.sort === 'number') return wordItems(['times']);
      return last?.sort === 'text' ? wordItems(['at most']) : [];
    case 'together':
    case 'complication':
    case 'note':
    case 'stop':
      return [];
    default:
      return actionItems(context, first.text, rest, clause);
  }
}

// ── the verb ────────────────────────────────────────────────────────────────────────────────────────────────────────

/** Verbs for which there is something to do them with; first those whose thing is in the state they need. */
function verbItems(context: Context): CompletionItem[] {
  const items: CompletionItem[] = [];
  for (const verb of namesOf(context.module, 'verbs')) {
    let best: { readonly offer: CompletionItem; readonly action: Action | Procedure } | undefined;
    for (const action of actionsNamed(context.module, verb)) {
      const offer = verbItem(context, action);
      if (offer && (!best || offer.rank < best.offer.rank)) best = { offer, action };
    }
    if (!best) continue;
    items.push({ ...best.offer, form: actionForm(context, best.action, false) });
    items.push(...fullerItems(context, best.action, best.offer));
  }
  return items;
}

function verbItem(context: Context, action: Action | Procedure): CompletionItem | undefined {
  const [slot] = action.slots;
  const reading = readingOf(action);
  if (slot?.accepts.type !== 'kind') return item('action', action.verb, reading);
  const fitting = context.things().filter((thing) => fitsSlot(thing, slot));
  if (fitting.length === 0)
    return needsNoList(slot.accepts.kind) && placeItems(context, slot.accepts.kind).length > 0
      ? item('action', action.verb, reading)
      : undefined;
  const ready = fitting.some((thing) => hindrance(action, slot, thing, context) === undefined);
  return item('action', action.verb, reading, ready ? 0 : 1);
}

/** Places of the catalogue; what must be listed to be used is none, whatever it serves as. */
function placeItems(context: Context, wanted: Kind): CompletionItem[] {
  return entryItems(context.module, wanted, 'place', 1).filter(({ label }) => {
    const entry = entryNamed(context.module, label);
    return entry !== undefined && needsNoList(entry.kind);
  });
}

/** Places may be named without being listed. */
function needsNoList(kind: Kind): boolean {
  return !descendsFrom(kind, 'material') && !descendsFrom(kind, 'instrument');
}

// ── what the verb is done to, with, on … ────────────────────────────────────────────────────────────────────────────

function actionItems(
  context: Context,
  verb: string,
  rest: readonly Word[],
  clause: Clause | undefined,
): readonly CompletionItem[] {
  if (clause) return clauseItems(context, clause);
  const parts = partsOf(rest);
  const actions = actionsLike(context, verb, parts);
  const part = parts.at(-1);
  const last = rest.at(-1);
  if (context.line.path !== undefined) return context.propertiesOfPath((property) => property.type?.form === 'kind');
  const slots = actions.flatMap((action) =>
    action.slots.filter((slot) => slot.preposition === part?.preposition).map((slot) => ({ action, slot })),
  );
  if (last?.sort === 'number') {
    const wanted = slots.flatMap(({ slot }) => dimensionsOf(slot));
    return countedFirst(context, part?.words ?? [], unitsFor(context, wanted, last.text === '1'));
  }
  if (!last || last.text === ',' || PREPOSITIONS.has(last.text)) return fillings(context, slots, part?.words ?? []);
  return [...prepositionItems(actions, parts), ...clauseItems(context, undefined)];
}

export interface Part {
  readonly preposition: string | undefined;
  readonly words: readonly Word[];
}

export function partsOf(rest: readonly Word[]): Part[] {
  const parts: { preposition: string | undefined; words: Word[] }[] = [{ preposition: undefined, words: [] }];
  for (const word of rest)
    if (word.sort === 'name' && PREPOSITIONS.has(word.text)) parts.push({ preposition: word.text, words: [] });
    else parts.at(-1)?.words.push(word);
  return parts;
}

/** The actions of a verb that what is written so far can mean; all of them when nothing tells them apart. */
export function actionsLike(context: Context, verb: string, parts: readonly Part[]): readonly (Action | Procedure)[] {
  const all = actionsNamed(context.module, verb);
  const like = all.filter((action) =>
    parts.every(({ preposition, words }) => {
      const slots = action.slots.filter((slot) => slot.preposition === preposition);
      const named = words.flatMap((word) => (word.sort === 'name' ? (context.thing(word.text) ?? []) : []));
      return named.every((thing) => slots.some((slot) => fitsSlot(thing, slot)));
    }),
  );
  return like.length > 0 ? like : all;
}

function fillings(
  context: Context,
  slots: readonly { readonly action: Action | Procedure; readonly slot: SlotModel }[],
  written: readonly Word[],
): CompletionItem[] {
  const already = new Set(written.map(({ text }) => text));
  const best = new Map<string, CompletionItem>();
  const offer = (offered: CompletionItem) => {
    const known = best.get(offered.label);
    if (!already.has(offered.label) && (!known || offered.rank < known.rank)) best.set(offered.label, offered);
  };
  const listed = slots.some(({ slot }) => context.things().some((thing) => fitsSlot(thing, slot)));
  for (const { action, slot } of slots) {
    if (slot.accepts.type !== 'kind') continue;
    const { kind } = slot.accepts;
    for (const thing of context.things()) {
      if (!fitsSlot(thing, slot)) continue;
      const why = hindrance(action, slot, thing, context);
      offer(item('thing', thing.name, why ?? thing.entry?.label ?? thing.kind.label, why === undefined ? 0 : 2));
    }
    if (needsNoList(kind)) for (const place of placeItems(context, kind)) offer(place);
    else if (!listed)
      for (const entry of catalogueItems(context.module, kind, 3))
        offer({ ...entry, detail: `${entry.detail ?? ''}, not listed yet` });
  }
  return [...best.values()];
}

/** Prepositions that still have something to introduce; those that must not be left out first. */
function prepositionItems(actions: readonly (Action | Procedure)[], parts: readonly Part[]): CompletionItem[] {
  const written = new Set(parts.map(({ preposition }) => preposition));
  const best = new Map<string, CompletionItem>();
  for (const action of actions)
    for (const slot of action.slots) {
      const { preposition } = slot;
      if (preposition === undefined || written.has(preposition)) continue;
      const rank = slot.optional ? 1 : 0;
      const known = best.get(preposition);
      if (!known || rank < known.rank)
        best.set(preposition, item('preposition', preposition, spoken(slot.kindWord), rank));
    }
  return [...best.values()];
}

function dimensionsOf(slot: SlotModel): readonly Dimension[] {
  if (slot.accepts.type !== 'quantity') return [];
  return [slot.accepts.dimension === 'size' ? dimension('length') : slot.accepts.dimension];
}

/** What the thing that is measured out says of itself that it comes in, `cartridge 1.7 mL`, stands behind the most usual unit. */
function countedFirst(context: Context, words: readonly Word[], units: CompletionItem[]): CompletionItem[] {
  const known = context.module.units();
  const own = new Set(
    words.flatMap((word) =>
      [...(context.thing(word.text)?.values.keys() ?? [])].flatMap((name) => known.get(name) ?? []),
    ),
  );
  return units.map((one) => {
    const unit = known.get(one.label);
    return unit && own.has(unit) ? { ...one, rank: 0.5 } : one;
  });
}

/** Units of the dimensions; where things are measured out, also what they are counted in. */
function unitsFor(context: Context, wanted: readonly Dimension[], one: boolean): CompletionItem[] {
  const known = new Set(wanted);
  const items = unitItems([...known]);
  const counted = wanted.some((d) => d === dimension('count') || d === dimension('volume') || d === dimension('mass'));
  const fits = (unit: Unit) => known.has(unit.dimension) || (counted && unit.dimension.key.startsWith('count'));
  return [...items, ...declaredUnitItems(context.module, fits, items.length, one)];
}

// ── other lines ─────────────────────────────────────────────────────────────────────────────────────────────────────

export function waitItems(context: Context, rest: readonly Word[]): readonly CompletionItem[] {
  const last = rest.at(-1);
  const between = context.line.container === 'protocol';
  if (rest.length === 0) return between ? [] : wordItems(['until']);
  if (rest[0]?.text === 'until') return expressionItems(context, rest.slice(1));
  if (last?.sort === 'number')
    return unitItems(between ? [dimension('calendar time'), dimension('time')] : [dimension('time')]);
  return groundItems(context, rest);
}

function verifyItems(context: Context, rest: readonly Word[], clause: Clause | undefined): readonly CompletionItem[] {
  const last = rest.at(-1);
  const [what] = rest;
  if (!what) {
    const names = new Map<string, CompletionItem>();
    for (const thing of context.things())
      for (const property of thing.kind.properties.values())
        if (property.type?.form === 'quantity' || property.type?.form === 'size')
          names.set(property.name, item('property', property.name, `of ${thing.label}`));
    return [...names.values()];
  }
  if (last?.text === 'of') return thingItems(context, (thing) => thing.kind.properties.has(what.text));
  if (last?.sort === 'number') {
    const of = rest[rest.findIndex(({ text }) => text === 'of') + 1];
    const type = of && context.thing(of.text)?.kind.properties.get(what.text)?.type;
    const wanted = type?.form === 'quantity' ? dimensionNamed(type.dimension) : dimension('length');
    return clause?.word === 'takes' ? clauseItems(context, clause) : wanted ? unitItems([wanted]) : [];
  }
  if (clause) return clauseItems(context, clause);
  if (last?.text === 'within' || last?.text === 'otherwise') return [];
  const said = new Set(rest.map(({ text }) => text));
  const open = ['of', 'within', 'otherwise'].filter(
    (word) => !said.has(word) && !(what.sort === 'text' && word === 'of'),
  );
  return [...wordItems(open), ...clauseItems(context, clause)];
}

/** Findings, those first that no decision around has settled. */
function undecidedItems(context: Context): CompletionItem[] {
  const settled = new Set(
    context.line.owners.flatMap(({ statement }) =>
      statement.type === 'decide' ? statement.findings.map(({ text }) => text) : [],
    ),
  );
  const alone = context.line.words.length === 1;
  return findingItems(context.module).map((one) => {
    const form = alone ? decisionForm(context, one.label, '')?.form : undefined;
    return { ...one, rank: settled.has(one.label) ? 1 : 0, ...(form ? { form } : {}) };
  });
}

/** What may be written between the braces of a decision: values that no option names yet. */
export function optionItems(context: Context): readonly CompletionItem[] {
  const { line, module } = context;
  const [first, ...rest] = line.words;
  const others = new Set(line.others.map(({ type }) => type));
  if (!first)
    return lineWordItems(wordList.lines.options.filter(({ word }) => word !== 'otherwise' || !others.has('otherwise')));
  const decide = line.owners.at(-1)?.statement;
  if (first.text !== 'option' || decide?.type !== 'decide') return [];
  const last = rest.at(-1);
  if (last && last.text !== ',' && last.text !== 'or') return wordItems(['or']);
  const at = rest.filter(({ text }) => text === ',').length;
  const name = decide.findings[at];
  const finding = name && findingNamed(module, name.text);
  if (!finding) return [];
  const alone = decide.findings.length === 1;
  const covered = new Set(
    alone
      ? line.others.flatMap((other) => (other.type === 'option' ? (other.values[0] ?? []).map(({ text }) => text) : []))
      : [],
  );
  for (const { text } of rest) covered.add(text);
  return [
    ...[...finding.values].flatMap(([value, label]) => (covered.has(value) ? [] : item('value', value, label))),
    ...(alone ? [] : [item('value', 'any', 'whichever it is', 1)]),
  ];
}

function thingItems(context: Context, fits: (thing: Thing) => boolean): CompletionItem[] {
  return context
    .things()
    .filter(fits)
    .map((thing) => item('thing', thing.name, thing.entry?.label ?? thing.kind.label));
}

// ── what a line says about itself at its end ────────────────────────────────────────────────────────────────────────

interface Clause {
  readonly word: string;
  /** what stands behind the word */
  readonly rest: readonly Word[];
  readonly said: ReadonlySet<string>;
}

const CLAUSES: ReadonlySet<string> = new Set(wordList.clauses.map(({ word }) => word));

export function clauseAt(rest: readonly Word[]): Clause | undefined {
  const said = new Set<string>();
  let last = -1;
  rest.forEach((word, at) => {
    if (word.sort !== 'name' || !CLAUSES.has(word.text)) return;
    // `by` before a number belongs to a size.
    if (word.text === 'by' && rest[at + 1]?.sort === 'number') return;
    said.add(word.text);
    last = at;
  });
  const word = rest[last];
  return word && { word: word.text, rest: rest.slice(last + 1), said };
}

export function clauseItems(context: Context, clause: Clause | undefined): readonly CompletionItem[] {
  const last = clause?.rest.at(-1);
  switch (clause?.word) {
    case 'takes':
    case 'usually':
      if (last?.sort === 'number') return unitItems([dimension('time')]);
      if (last?.sort !== 'name') return [];
      break;
    case 'by':
      if (!last || last.text === ',') return context.roles();
      break;
    case 'source':
      if (!last) return sourceItems(context.module);
      break;
    case 'because':
      if (!last)
        return sourceItems(context.module).map((one) => ({
          ...one,
          form: formOf(`"[The reason]" source ${one.label}`),
          formOnly: true,
        }));
      break;
    default:
      break;
  }
  return lineWordItems(
    wordList.clauses.filter(({ word }) => !clause?.said.has(word) && (word !== 'usually' || clause?.word === 'takes')),
    4,
  );
}

/** `because` and `source`, and what follows them. */
export function groundItems(context: Context, rest: readonly Word[]): readonly CompletionItem[] {
  // In a condition `takes` asks about medicines.
  const first = rest.findIndex(({ text }) => text === 'because' || text === 'source');
  const clause = first < 0 ? undefined : clauseAt(rest.slice(first));
  return clauseItems(context, clause).filter(
    ({ sort, label }) => sort !== 'keyword' || label === 'because' || label === 'source',
  );
}
