import type { Expr } from '@curette/grammar';
import { formatQuantity, formatSize } from '@curette/shared';
import { listWords, plain } from '../../problems/words.ts';
import { fitsKind } from '../kinds/subkind.ts';
import { setWords } from '../kinds/value-words.ts';
import type { Action, PatternModel, Procedure, SlotModel } from '../model.ts';
import type { Filling, ResolvedStep } from '../protocol/step.ts';
import { type Environment, evaluate } from './evaluate.ts';
import { setOfPath } from './sets-used.ts';

/** More ways than this to match one step with one pattern do not occur at the chair. */
const MOST_BINDINGS = 16;

/**
 * The ways a step matches a pattern: for each, what stands for each of the pattern's names. A slot that takes several things
 * gives a way for each that fits. None when the step is of another verb or a slot of the pattern has nothing that fits.
 */
export function bindings(
  pattern: PatternModel,
  action: Action | Procedure,
  step: ResolvedStep,
): readonly ReadonlyMap<string, Filling>[] {
  if (pattern.verb !== action.verb) return [];
  let ways: Map<string, Filling>[] = [new Map()];
  const used = new Set<SlotModel>();
  for (const wanted of pattern.slots) {
    const slot = action.slots.find(
      (own) =>
        !used.has(own) &&
        own.preposition === wanted.preposition &&
        sameSort(own, wanted) &&
        fillsAny(own, wanted, step),
    );
    const filling = slot && step.fillings.get(slot.name);
    if (!slot || !filling) {
      if (wanted.optional) continue;
      return [];
    }
    used.add(slot);
    const choices = fitting(filling, wanted);
    ways = ways
      .flatMap((way) => choices.map((choice) => new Map(way).set(wanted.name, choice)))
      .slice(0, MOST_BINDINGS);
  }
  return ways;
}

function sameSort(own: SlotModel, wanted: SlotModel): boolean {
  return (
    own.accepts.type === wanted.accepts.type || own.accepts.type === 'unknown' || wanted.accepts.type === 'unknown'
  );
}

function fillsAny(own: SlotModel, wanted: SlotModel, step: ResolvedStep): boolean {
  const filling = step.fillings.get(own.name);
  return filling !== undefined && fitting(filling, wanted).length > 0;
}

function fitting(filling: Filling, wanted: SlotModel): Filling[] {
  if (filling.type !== 'things')
    return wanted.accepts.type === 'quantity' || wanted.accepts.type === 'text' ? [filling] : [];
  if (wanted.accepts.type !== 'kind') return [];
  const { kind } = wanted.accepts;
  return filling.things
    .filter(({ thing }) => fitsKind(thing.kind, kind))
    .map((thing) => ({ type: 'things', things: [thing] }));
}

/** A condition in words, with what stands in the step for the names: "gingiva is graft surface". */
export function wordsOf(expr: Expr | undefined, environment: Environment): string {
  if (!expr) return '';
  const inner = (part: Expr | undefined) => wordsOf(part, environment);
  switch (expr.type) {
    case 'and':
      return `${inner(expr.left)} and ${inner(expr.right)}`;
    case 'or':
      return `${inner(expr.left)} or ${inner(expr.right)}`;
    case 'not':
      return `it is not so that ${inner(expr.operand)}`;
    case 'compare':
      return `${inner(expr.left)} ${COMPARED[expr.op]} ${inner(expr.right)}`;
    case 'arithmetic':
      return `${inner(expr.left)} ${expr.op} ${inner(expr.right)}`;
    case 'is':
      return `${inner(expr.subject)} is ${expr.negated ? 'not ' : ''}${plain(expr.name?.text ?? '')}`;
    case 'state':
      return `${inner(expr.subject)} is ${plain(expr.state.text)}`;
    case 'relation':
      return `${inner(expr.subject)} ${expr.relation === 'allergic to' ? 'is allergic to' : expr.relation} ${plain(expr.value?.text ?? '')}`;
    case 'call':
      return `${CALLED.get(expr.name.text) ?? expr.name.text} of ${listWords(expr.args.map(inner), 'and')}`;
    case 'path': {
      const value = evaluate(expr, environment);
      const names = expr.names.map((name) => plain(name.text));
      const [first, ...rest] = expr.names;
      const filling = first && environment.filling(first.text);
      const root = filling?.type === 'things' ? filling.things.map(({ thing }) => thing.label).join(', ') : names[0];
      const spoken = rest.length > 0 ? `the ${names.slice(1).reverse().join(' of ')} of ${root}` : (root ?? '');
      const set = setOfPath(expr, environment);
      const from = set ? `, ${setWords(set)}` : '';
      if (value.type === 'quantity' && (rest.length > 0 || filling))
        return `${rest.length > 0 ? spoken : names[0]} (${formatQuantity(value.quantity)}${from})`;
      if (value.type === 'size' && (rest.length > 0 || filling))
        return `${rest.length > 0 ? spoken : names[0]} (${formatSize(value.sides)}${from})`;
      return spoken;
    }
    case 'quantity': {
      const value = evaluate(expr, environment);
      return value.type === 'quantity' ? formatQuantity(value.quantity) : '';
    }
    case 'size': {
      const value = evaluate(expr, environment);
      return value.type === 'size' ? formatSize(value.sides) : '';
    }
    case 'text':
      return `"${expr.value}"`;
    case 'yes or no':
      return expr.value ? 'yes' : 'no';
    default:
      return expr satisfies never;
  }
}

const CALLED: ReadonlyMap<string, string> = new Map([
  ['min', 'the least'],
  ['max', 'the greatest'],
  ['sum', 'the sum'],
  ['total', 'the total'],
]);

const COMPARED = {
  '<': 'is under',
  '<=': 'is at most',
  '>': 'is over',
  '>=': 'is at least',
  '=': 'is',
  within: 'is within',
} as const;
