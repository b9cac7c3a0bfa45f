import type { PatternModel, RuleForm } from '../model.ts';
import { type Difference, lineOf, type Stated } from './difference.ts';
import { overlap, STEPS, stepsShort } from './overlap.ts';
import { formWords } from './rule-words.ts';

/** In what a rule about an order or a pause falls short; undefined when they have no step in common, or the other is of another sort. */
export function compareOrder(
  was: Stated,
  form: RuleForm,
  is: Stated,
  other: RuleForm,
): readonly Difference[] | undefined {
  const [old, own] = [sequenceOf(form), sequenceOf(other)];
  if (!old || !own) return undefined;
  const asking = overlap(old.asking, own.asking);
  const meeting = old.meeting && own.meeting && overlap(old.meeting, own.meeting);
  if (!asking && !meeting) return undefined;
  const [item, line] = [lineOf(was.rule, form), lineOf(is.rule, other)];
  const sides = {
    old: { words: formWords(was, form), site: { statement: item, span: item.head } },
    new: { words: formWords(is, other), site: { statement: line, span: line.head } },
  };
  if (old.type !== own.type || !asking || (old.meeting && !meeting))
    return [{ type: 'apart', about: 'what comes before what', ...sides, takeOver: undefined }];
  // To come first, or last, of everything is asked of a whole protocol more strictly than of each of its visits.
  const tight = old.meeting ? 'visit' : 'protocol';
  const scope: Difference[] =
    old.scope === own.scope || own.scope === tight
      ? []
      : [{ type: 'looser', about: 'over how long it counts', ...sides, takeOver: undefined }];
  return [
    ...stepsShort(old.asking, own.asking, asking, 'wider', STEPS, item, line),
    ...(old.meeting && own.meeting && meeting
      ? stepsShort(old.meeting, own.meeting, meeting, 'narrower', 'what has to be done', item, line)
      : []),
    ...scope,
  ];
}

/** `needed` before any `needing`; `later` after each `earlier`; nothing before, or after, `first`. */
type Sequence = {
  readonly type: 'before' | 'after' | 'first' | 'last';
  /** the step that brings the duty: the more steps, the stricter */
  readonly asking: PatternModel;
  /** the step that meets it: the fewer steps, the stricter */
  readonly meeting: PatternModel | undefined;
  readonly scope: 'visit' | 'protocol';
};

/** An order in the one way that a pause, `before` and `only after` come down to. */
function sequenceOf(form: RuleForm): Sequence | undefined {
  if (form.type === 'pause') {
    const { pattern } = form;
    const pause: PatternModel = {
      ...pattern,
      sort: 'pause',
      verb: form.pause,
      slots: [],
      where: undefined,
      others: [],
    };
    return { type: form.relation, asking: pattern, meeting: pause, scope: 'visit' };
  }
  if (form.type !== 'order') return undefined;
  const { first, second, scope, relation } = form;
  switch (relation) {
    case 'before':
      return second && { type: 'before', asking: second, meeting: first, scope };
    case 'only after':
      return second && { type: 'before', asking: first, meeting: second, scope };
    case 'after':
      return second && { type: 'after', asking: second, meeting: first, scope };
    case 'first':
    case 'last':
      return { type: relation, asking: first, meeting: undefined, scope };
    default:
      return relation satisfies never;
  }
}
