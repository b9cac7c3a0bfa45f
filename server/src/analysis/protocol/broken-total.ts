import type { Circumstance } from '../rules/circumstances.ts';
import type { SolvedAnswer } from '../rules/solve.ts';
import { type Asked, answerTo } from './asked-total.ts';
import { givingOf, mergeQuestion, type OpenQuestion } from './giving.ts';
import type { Thing } from './things.ts';

/** So many combinations of findings are told apart; beyond them a total that can be broken is told without when. */
const MOST_COMBINATIONS = 32;

export type Found = ReadonlyMap<string, string>;

export const NOTHING_FOUND: Found = new Map();

export interface Broken {
  readonly answer: SolvedAnswer;
  readonly found: Found;
}

/** A way to break it, and how far. */
interface Way extends Broken {
  readonly extent: number;
}

/**
 * Over all paths at once, options that exclude one another would add up. So each combination of what may be found is judged by itself.
 * Undefined when it is kept in each; otherwise the surest way to break it, with what has to be found for it and no more.
 */
export function worst(
  asked: Asked,
  about: readonly Thing[],
  circumstance: Circumstance,
  whole: SolvedAnswer,
): Broken | undefined {
  const open = openIn(asked.visits, about);
  const combinations = combinationsOf(open);
  if (open.size === 0 || !combinations) return { answer: whole, found: NOTHING_FOUND };
  const ask = (found: Found): Way => {
    const answer = answerTo(asked, { about, circumstance, counted: { found } });
    return { answer, found, extent: extentOf(answer) };
  };
  const first = combinations.map(ask).reduce((one, other) => (other.extent > one.extent ? other : one));
  if (first.extent === 0) return undefined;
  // What may be found otherwise as well, and it is broken all the same, need not be told.
  let { found } = first;
  for (const key of found.keys()) {
    const without = new Map([...found].filter(([other]) => other !== key));
    const values = [...(open.get(key)?.values ?? [])];
    if (values.every((value) => ask(new Map(without).set(key, value)).extent === first.extent)) found = without;
  }
  return { ...first, found };
}

/** How far a condition is broken: 0 not at all, up to 1 for part of what a given fact may be, 2 in other circumstances, 3 always. */
function extentOf(answer: SolvedAnswer): number {
  if (answer.answer === 'always' || answer.answer === 'undecided') return 0;
  if (answer.answer === 'never') return 3;
  if (!answer.solved) return 2;
  const { fact, canBreak } = answer.solved;
  const part = canBreak.range.hi - canBreak.range.lo;
  const whole = fact.possible.range.hi - fact.possible.range.lo;
  return Number.isFinite(whole) ? part / whole : Number.isFinite(part) ? 1 - 1 / (2 + part) : 1;
}

/** What is open of that which the things' amounts hang on. */
export function openIn(visits: Asked['visits'], about: readonly Thing[]): ReadonlyMap<string, OpenQuestion> {
  const open = new Map<string, OpenQuestion>();
  for (const chunks of visits)
    for (const chunk of chunks)
      for (const [key, question] of givingOf(chunk).open)
        if (question.stops || about.some((thing) => question.about.has(thing))) mergeQuestion(open, key, question);
  return open;
}

/** Every combination of values; undefined when there are too many. */
function combinationsOf(open: ReadonlyMap<string, OpenQuestion>): readonly Found[] | undefined {
  let all: Found[] = [NOTHING_FOUND];
  for (const [key, { values }] of open) {
    if (all.length * values.size > MOST_COMBINATIONS) return undefined;
    all = all.flatMap((found) => [...values].map((value) => new Map(found).set(key, value)));
  }
  return all;
}
