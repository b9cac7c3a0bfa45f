import { overlap } from '../time/allen.ts';
import { SAME_TIME } from '../time/network.ts';
import type { Assumption } from './flow.ts';
import { both } from './lane-course.ts';
import type { Work } from './lane-work.ts';

/** Whether two stretches of work go on at one time. */
export type Meeting = 'always' | 'can' | 'never' | 'not told';

/** A stretch of work, and the lane it is in. */
export interface LaneWork extends Work {
  readonly lane: number;
}

/** Two stretches of work in two lanes that may meet, and what must have been found for both to come. */
export interface Pair {
  /** begins no later than the other, if all is as quick as it may be */
  readonly first: LaneWork;
  readonly second: LaneWork;
  readonly answer: Exclude<Meeting, 'never'>;
  readonly when: readonly Assumption[];
}

/**
 * Whether two stretches of work of different lanes go on at one time. Touching is no overlap. Where waits that the team chooses can keep them
 * apart whatever the work takes, they do: the team waits until the other is over, or does not wait as long.
 */
export function meeting(a: Work, b: Work): Meeting {
  if (apart(a, b) || !both(a.when, b.when)) return 'never';
  const answer = overlap(endsOf(a), endsOf(b));
  if (answer !== 'can') return answer;
  if (mayFollow(a, b) || mayFollow(b, a)) return 'never';
  return a.open.length > 0 || b.open.length > 0 ? 'not told' : 'can';
}

/**
 * For each two lanes, the surest meeting; of those alike, the earliest.
 *
 * @param work in the order in which it can begin
 */
export function meetings(work: readonly LaneWork[]): readonly Pair[] {
  const best = new Map<string, Pair>();
  /** by lane, what may still be going on */
  const going = new Map<number, LaneWork[]>();
  for (const second of work) {
    for (const [lane, begun] of going) {
      if (lane === second.lane) continue;
      const key = `${Math.min(lane, second.lane)}|${Math.max(lane, second.lane)}`;
      let known = best.get(key);
      if (known?.answer === 'always') continue;
      let left = 0;
      for (const first of begun) {
        // What is over when this begins is over for all that begin later.
        if (first.ends.most <= second.begins.least + SAME_TIME) continue;
        begun[left++] = first;
        if (known && !maybeSurer(known, first, second)) continue;
        const answer = meeting(first, second);
        const when = both(first.when, second.when);
        if (answer === 'never' || !when || (known && !isSurer(answer, known.answer))) continue;
        known = { first, second, answer, when };
        best.set(key, known);
      }
      begun.length = left;
    }
    const own = going.get(second.lane);
    if (own) own.push(second);
    else going.set(second.lane, [second]);
  }
  return [...best.values()];
}

export function isSurer(one: Meeting, other: Meeting): boolean {
  return SUREST.indexOf(one) < SUREST.indexOf(other);
}

const SUREST: readonly Meeting[] = ['always', 'can', 'not told', 'never'];

/** Cheap, since it is asked of every two. */
function maybeSurer({ answer }: Pair, first: Work, second: Work): boolean {
  if (answer === 'always') return false;
  const sure = first.begins.most <= second.ends.least && second.begins.most <= first.ends.least;
  return sure || (answer === 'not told' && first.open.length === 0 && second.open.length === 0);
}

/** Whether one is over before the other begins, whatever happens; cheap. */
function apart(a: Work, b: Work): boolean {
  return a.ends.most <= b.begins.least + SAME_TIME || b.ends.most <= a.begins.least + SAME_TIME;
}

function endsOf({ begins, ends }: Work) {
  return { start: { lo: begins.least, hi: begins.most }, end: { lo: ends.least, hi: ends.most } };
}

/** Whether the team can choose its waits so that the second comes when the first is over, whatever the work takes. */
function mayFollow(first: Work, second: Work): boolean {
  return first.ends.hurried <= second.begins.held + SAME_TIME;
}
