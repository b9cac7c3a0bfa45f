import type { Expr } from '@curette/grammar';
import type { PatternModel, Rule } from '../model.ts';
import type { Module } from '../names/module.ts';
import type { Environment } from '../rules/evaluate.ts';
import { type RuleEvent, waysOf } from '../rules/events.ts';
import { judge } from '../rules/judge.ts';
import { wordsOf } from '../rules/pattern.ts';
import { sayFinding } from './finding-words.ts';
import type { Assumption } from './flow.ts';
import { hangsOnState } from './hangs-on-state.ts';
import { ruleEnvironment } from './rule-environment.ts';
import type { Filling } from './step.ts';
import type { Things } from './things.ts';

/** On which of the paths that lead to an event something is so. */
export type Portion =
  /** where this is so, whatever was done before; `not`: what is so on the other paths, undefined where there are none */
  | { readonly type: 'assumed'; readonly so: Assumption; readonly not: Assumption | undefined }
  /** where a condition holds that hangs on what was done and found before */
  | { readonly type: 'asked'; readonly expr: Expr; readonly environment: Environment };

/** An event that a pattern looks for, on the paths where all the portions are so; none: on every path. */
export interface Match {
  readonly portions: readonly Portion[];
  readonly environment: Environment;
}

/** What rules' patterns are matched against. */
export interface Matching {
  readonly module: Module;
  readonly things: Things;
}

/** One and the same thing, by the name it has in the protocol, that stands for a name of a rule's patterns. */
export interface Instance {
  readonly name: string;
  readonly thing: string;
  readonly label: string;
}

/** Whether, and on which paths, an event is what a pattern looks for. */
export function matchOf(
  { module, things }: Matching,
  rule: Rule,
  pattern: PatternModel,
  event: RuleEvent,
  wanted: Instance | undefined,
): Match | undefined {
  let partly: Match | undefined;
  for (const one of [pattern, ...pattern.others])
    for (const way of waysOf(one, event)) {
      if (wanted && !standsFor(one, way, wanted)) continue;
      const environment = ruleEnvironment(module, things, rule.file, way);
      const where = pattern.where && portionWhere(pattern.where, environment);
      if (where === 'never') continue;
      const found = event.type === 'finding' ? portionsFound(event) : [];
      const portions = where ? [...found, where] : found;
      const match = { portions, environment };
      if (portions.length === 0) return match;
      partly ??= match;
    }
  return partly;
}

/** Whether a pattern's name stands for a thing; one that has no such name speaks of every thing. */
function standsFor({ slots }: PatternModel, way: ReadonlyMap<string, Filling>, wanted: Instance): boolean {
  if (!slots.some(({ name }) => name === wanted.name)) return true;
  const filling = way.get(wanted.name);
  return filling?.type === 'things' && filling.things.some(({ thing }) => thing.name === wanted.thing);
}

/** Of several values that lead to one option, each is found on some of the paths. */
export function portionsFound({ finding, value, among }: Extract<RuleEvent, { type: 'finding' }>): readonly Portion[] {
  if (among.size <= 1) return [];
  const base = { key: finding.name, of: finding.values.size, say: sayFinding(finding) };
  const others = new Set([...among].filter((other) => other !== value));
  return [{ type: 'assumed', so: { ...base, values: new Set([value]) }, not: { ...base, values: others } }];
}

function portionWhere(where: Expr, environment: Environment): Portion | 'never' | undefined {
  if (hangsOnState(where, environment)) return { type: 'asked', expr: where, environment };
  const { answer } = judge(where, environment);
  if (answer === 'never') return 'never';
  return answer === 'always' ? undefined : assumedWords(wordsOf(where, environment));
}

/** A condition of which nobody can say whether it is so: either is looked at. */
export function assumedWords(words: string): Extract<Portion, { type: 'assumed' }> {
  const base = {
    key: `${WORDS}${words}`,
    of: 2,
    say: (values: ReadonlySet<string>) => (values.has('yes') ? words : `it is not so that ${words}`),
  };
  return { type: 'assumed', so: { ...base, values: new Set(['yes']) }, not: { ...base, values: new Set(['no']) } };
}

/** What the keys of conditions that hang on no visit begin with: what is so of a thing stays so. */
export const WORDS = '?';
