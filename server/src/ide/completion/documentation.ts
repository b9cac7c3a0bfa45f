import { parseUnit } from '@curette/shared';
import {
  actionsNamed,
  entryNamed,
  figuresNamed,
  kindNamed,
  pauseNamed,
  sourceNamed,
} from '../../analysis/names/resolve.ts';
import { resolveUse } from '../../analysis/use-path.ts';
import { spoken } from '../as-written.ts';
import type { Checked } from '../checked.ts';
import { actionHover, findingHover, pauseHover, protocolHover, sourceHover } from '../hover/declarations.ts';
import { figuresHover } from '../hover/figures.ts';
import { fileHover } from '../hover/file.ts';
import { entryHover, kindHover, propertyHover, stateHover } from '../hover/kinds.ts';
import { thingHover } from '../hover/thing.ts';
import { unitHover } from '../hover/unit.ts';
import { capital, plainly } from '../markdown.ts';
import { propertyMeaning } from '../name-meanings.ts';
import { protocolNamed } from '../surroundings.ts';
import type { Context } from './context.ts';
import { plainForm } from './form.ts';
import type { CompletionItem } from './items.ts';

/** What is told of an item when somebody wants to read more, in markdown. */
export function documentation(context: Context, item: CompletionItem): string {
  const paragraphs = [...told(context, item), ...(item.form ? [`\`\`\`curette\n${plainForm(item.form)}\n\`\`\``] : [])];
  return paragraphs.filter((paragraph) => paragraph !== '').join('\n\n');
}

/** The same for a file that may be brought in. */
export function fileDocumentation(checked: Checked, from: string, { label }: CompletionItem): string {
  const target = resolveUse(from, label);
  return target.ok
    ? fileHover(checked, target.id)
        .filter((one) => one !== '')
        .join('\n\n')
    : '';
}

function told(context: Context, { sort, label, detail }: CompletionItem): readonly string[] {
  const { checked, module, around } = context;
  switch (sort) {
    case 'thing': {
      const thing = context.thing(label) ?? around.named(label)?.thing;
      const facts = around.protocol;
      if (!thing) return [];
      if (!facts) return thing.entry ? entryHover(checked, around, thing.entry) : kindHover(checked, thing.kind);
      const why = detail?.includes(' here: ') ? `**${capital(plainly(detail))}.**` : '';
      return [why, ...thingHover(checked, around, thing, facts, context.standing())];
    }
    case 'place':
    case 'entry':
    case 'role': {
      const entry = entryNamed(module, label);
      return entry ? entryHover(checked, around, entry) : [];
    }
    case 'kind': {
      const kind = kindNamed(module, label);
      return kind ? kindHover(checked, kind) : [];
    }
    case 'action':
      return actionsNamed(module, label.split(' ')[0] ?? '').flatMap((action) => actionHover(checked, action));
    case 'unit': {
      const parsed = parseUnit(label, module.units());
      return parsed.ok ? unitHover(label, parsed.unit) : [];
    }
    case 'source':
      return sourceHover(label, sourceNamed(module, label));
    case 'finding': {
      const finding = context.finding(label.replace(/^decide /, ''));
      return finding ? findingHover(finding) : [];
    }
    case 'pause': {
      const pause = pauseNamed(module, label);
      return pause ? pauseHover(checked, pause) : [];
    }
    case 'protocol': {
      const declared = protocolNamed(checked, module, label);
      return declared ? protocolHover(declared.statement) : [];
    }
    case 'property': {
      const meaning = propertyMeaning(ownerKind(context), label, around);
      return meaning?.type === 'property' ? propertyHover(checked, meaning) : [];
    }
    case 'state': {
      const kind = stateKind(context);
      const track = kind?.tracks.find(({ states }) => states.has(label));
      return kind && track ? stateHover(checked, kind, track, label) : [];
    }
    case 'value': {
      const set = figuresNamed(module, label);
      return set && context.line.words[0]?.text === 'apply'
        ? figuresHover(checked, { type: 'figures', set, applied: 'no' })
        : [];
    }
    case 'keyword':
    case 'preposition':
    case 'slot':
    case 'rule':
      return detail === undefined ? [] : [`**${plainly(spoken(label))}**: ${plainly(detail)}`];
    case 'file':
      return [];
    default:
      return sort satisfies never;
  }
}

/** What a property that is offered belongs to: what stands before the dot, or the block's owner. */
function ownerKind(context: Context) {
  const { path, owners } = context.line;
  if (path !== undefined) return context.bearer(path)?.kind;
  const owner = owners.at(-1)?.statement;
  if (owner?.type === 'kind') return owner.name && kindNamed(context.module, owner.name.text);
  if (owner?.type !== 'entry' && owner?.type !== 'thing' && owner?.type !== 'value' && owner?.type !== 'figure')
    return undefined;
  const named = owner.name && context.bearer(owner.name.text)?.kind;
  return named ?? ('kind' in owner && owner.kind ? kindNamed(context.module, owner.kind.text) : undefined);
}

function stateKind(context: Context) {
  const { words } = context.line;
  for (let at = words.length - 1; at >= 0; at--) {
    const kind = words[at]?.sort === 'name' ? context.bearer(words[at]?.text ?? '')?.kind : undefined;
    if (kind && kind.tracks.length > 0) return kind;
  }
  return ownerKind(context);
}
