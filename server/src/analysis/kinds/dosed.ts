import { dimension, dimensionNamed } from '@curette/shared';
import type { Kind, PatternModel, Property, Rule, RuleForm, SlotModel } from '../model.ts';

/** Whether what it says is how much of something somebody may be given for their body mass. */
export function isDose(property: Property): boolean {
  const { type } = property;
  return type?.form === 'quantity' && dimensionNamed(type.dimension) === dimension('dose per body mass');
}

/** Whether a kind of thing is given by body mass, as its properties tell. */
export function isDosed(kind: Kind): boolean {
  for (const property of kind.properties.values()) if (isDose(property)) return true;
  return false;
}

/** Whether one of these takes what is given by body mass. */
export function takeDosed(slots: readonly SlotModel[]): boolean {
  return slots.some(({ accepts }) => accepts.type === 'kind' && isDosed(accepts.kind));
}

/** Whether a rule speaks of what is given by body mass. */
export function isOfDoses(rule: Rule): boolean {
  return rule.forms.some((form) => {
    switch (form.type) {
      case 'total':
      case 'every':
        return isDosed(form.kind);
      case 'not judged':
        return false;
      default:
        return patternsOf(form).some(({ slots }) => takeDosed(slots));
    }
  });
}

function patternsOf(form: Exclude<RuleForm, { type: 'total' | 'every' | 'not judged' }>): readonly PatternModel[] {
  switch (form.type) {
    case 'whenever':
    case 'pause':
    case 'count':
      return [form.pattern];
    case 'order':
      return form.second ? [form.first, form.second] : [form.first];
    case 'between':
      return [form.first, form.second];
    default:
      return form satisfies never;
  }
}
