import { article, listWords, plain } from '../../problems/words.ts';
import type { PatternModel } from '../model.ts';
import type { Instance } from './portion.ts';

/** A pattern as a person says it: "lay a holding membrane on a place"; `one` is what a name stands for. */
export function patternWords(pattern: PatternModel, one?: Instance): string {
  return [pattern, ...pattern.others].map((each) => wordsOfOne(each, one)).join('" or "');
}

function wordsOfOne(pattern: PatternModel, one: Instance | undefined): string {
  const verb = plain(pattern.verb);
  if (pattern.sort === 'pause' || pattern.sort === 'stop') return verb;
  if (pattern.sort === 'finding') return `${verb} is ${listWords([...pattern.values].map(plain), 'or')}`;
  const slots = pattern.slots.map((slot) => {
    const thing = one?.name === slot.name ? one.label : article(plain(slot.kindWord));
    return `${slot.preposition ? `${slot.preposition} ` : ''}${thing}`;
  });
  return [...(pattern.sort === 'step' ? [] : [pattern.sort]), verb, ...slots].join(' ');
}

/** "exactly once", "at most 2 times", "never" */
export function timesWords(least: number, most: number): string {
  if (most === 0) return 'never';
  if (least === most) return `exactly ${least === 1 ? 'once' : `${least} times`}`;
  if (least === 0) return `at most ${most === 1 ? 'once' : `${most} times`}`;
  return `at least ${least === 1 ? 'once' : `${least} times`}`;
}
