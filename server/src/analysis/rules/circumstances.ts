import type { Expr } from '@curette/grammar';
import { plain, relationWords } from '../../problems/words.ts';

/** What a patient has, takes and is allergic to, as far as a condition asks for it. */
export interface Circumstance {
  readonly relations: ReadonlyMap<string, boolean>;
  /** "patient has heart disease"; empty for patients of whom none of it is so */
  readonly words: string;
}

/** More that is asked of one patient does not occur in a rule; further relations are taken as not so. */
const MOST_RELATIONS = 4;

/**
 * The sorts of patients that a condition tells apart, those of whom least is so first. A protocol that excludes patients speaks of none
 * of them.
 * @param excluded relations (`has diabetes`) of which the protocol excludes every patient
 */
export function circumstancesOf(where: Expr | undefined, excluded: ReadonlySet<string>): readonly Circumstance[] {
  const asked = new Map<string, string>();
  collect(where, asked);
  const relations = [...asked].filter(([relation]) => !excluded.has(relation)).slice(0, MOST_RELATIONS);
  const all: Circumstance[] = [];
  for (let choice = 0; choice < 2 ** relations.length; choice++) {
    const so = relations.filter((_, i) => (choice >> i) % 2 === 1);
    all.push({
      relations: new Map([...asked.keys()].map((relation) => [relation, so.some(([other]) => other === relation)])),
      words: so.map(([relation, subject]) => `${plain(subject)} ${relationWords(relation)}`).join(' and '),
    });
  }
  return all.toSorted((one, other) => truths(one) - truths(other));
}

function truths({ relations }: Circumstance): number {
  return [...relations.values()].filter(Boolean).length;
}

/** Every relation in a condition, with whom it is asked of. */
function collect(expr: Expr | undefined, into: Map<string, string>): void {
  switch (expr?.type) {
    case 'relation':
      if (expr.value && expr.subject.type === 'path')
        into.set(`${expr.relation} ${expr.value.text}`, expr.subject.names.map((name) => name.text).join(' '));
      break;
    case 'and':
    case 'or':
      collect(expr.left, into);
      collect(expr.right, into);
      break;
    case 'not':
      collect(expr.operand, into);
      break;
    default:
      break;
  }
}

/** Relations of which an exclusion excludes every patient: those that it names by themselves or joins by "or". */
export function excludedBy(condition: Expr | undefined): readonly string[] {
  if (condition?.type === 'or') return [...excludedBy(condition.left), ...excludedBy(condition.right)];
  return condition?.type === 'relation' && condition.value ? [`${condition.relation} ${condition.value.text}`] : [];
}
