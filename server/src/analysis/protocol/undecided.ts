import { figureNotStated } from '../../problems/figure_not_stated.ts';
import { figuresNotApplied } from '../../problems/figures_not_applied.ts';
import { type Place, type Problem, problemAt } from '../../problems/problem.ts';
import { undecidedNeed } from '../../problems/undecided.ts';
import { placeOf } from '../model.ts';
import type { Module } from '../names/module.ts';
import type { Unsaid } from '../rules/evaluate.ts';
import { usePathTo } from '../use-path.ts';

/**
 * That something cannot be told, for want of what is not stated: in the protocol, in the set of figures that counts, or because no
 * set counts. Undefined where the reason is told already.
 */
export function undecidedProblem(
  module: Module,
  place: Place,
  about: { readonly what: string; readonly rule: string | undefined },
  { missing, gap }: Unsaid,
): Problem | undefined {
  if (!gap) return problemAt(undecidedNeed, place, { ...about, missing });
  switch (gap.why) {
    case 'none applied':
      return problemAt(figuresNotApplied, place, {
        ...about,
        missing,
        group: gap.group,
        sets: module.setsOf(gap.group).map(({ file, statement }) => ({
          name: statement.name?.text ?? '',
          label: statement.label?.value ?? statement.name?.text.replaceAll('_', ' ') ?? '',
          path: module.visible.some(({ id }) => id === file) ? undefined : usePathTo(module.id, file),
        })),
        file: module.id,
        beside: whereApplied(module),
      });
    case 'silent': {
      const set = gap.set;
      const declared = set && module.setsOf(gap.group).find(({ statement }) => statement.name?.text === set.name);
      return problemAt(figureNotStated, place, {
        ...about,
        missing,
        set: set?.label ?? '',
        group: gap.group,
        declared: declared && placeOf(declared.file, declared.statement, declared.statement.head),
      });
    }
    case 'told':
      return undefined;
    default:
      return gap.why satisfies never;
  }
}

/** Lines `apply` stand together, before the first protocol. */
function whereApplied(module: Module): { readonly where: 'before' | 'after'; readonly statement: number } | undefined {
  const last = module.scope.applied.at(-1);
  if (last) return { where: 'after', statement: last.id };
  const first = module.file().tree.body.items.find(({ type }) => type === 'protocol');
  return first && { where: 'before', statement: first.id };
}
