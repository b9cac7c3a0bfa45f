import { formatQuantity, longest, type Quantity, shortest } from '@curette/shared';
import { clockBroken } from '../../problems/clock_broken.ts';
import { limitsConflict } from '../../problems/limits_conflict.ts';
import { type Problem, problemAt } from '../../problems/problem.ts';
import { timeNotStated } from '../../problems/time_not_stated.ts';
import { inSets, listWords, plain } from '../../problems/words.ts';
import type { SetNote } from '../model.ts';
import type { ClockFinding, ClockReading } from './clock-readings.ts';
import { siteOf } from './flow.ts';
import { labelOf, placeAtThing, timeQuantity } from './flow-words.ts';
import type { StateNeed } from './plan.ts';
import { whenWords } from './possibility.ts';
import type { LimitsConflict } from './team-choices.ts';
import type { Telling } from './telling.ts';
import { timeMends } from './time-mends.ts';
import { limitOfRule, timeLimitWords } from './word-rule-clock.ts';

/** Both ends of a time that is asked for, each with the run that breaks it. */
export function wordClock(telling: Telling, finding: ClockFinding): Problem[] {
  const { need, flow, since } = finding;
  const { module } = telling;
  const clock = telling.clock(finding);
  const place = placeAtThing(flow, need.thing);
  const began = since === undefined ? undefined : telling.flow(since);
  const shared = {
    thing: need.thing.label,
    state: need.state,
    step: labelOf(flow),
    began: began && labelOf(began),
    beganPlace: began && siteOf(began),
    when: whenWords(finding.when),
  };
  const { elapsed, least, most } = clock;
  if (!elapsed)
    return [
      problemAt(timeNotStated, place, {
        ...shared,
        limit: limitWords(need),
        steps: [],
        reason: clock.reason ?? 'not stated',
      }),
    ];
  if (clock.soon === 'holds' && clock.late === 'holds') return [];
  const { lo, hi } = elapsed;

  const byAge = need.lasts !== undefined && most === need.lasts.seconds && most !== need.age?.hi;
  const data = {
    ...shared,
    between: elapsed.between().map((part) => ({
      label: labelOf(part.flow),
      lo: part.duration.lo,
      hi: part.duration.hi,
      place: siteOf(part.flow),
    })),
    run: runWritten(clock),
    overVisits: elapsed.legs !== undefined,
    dates: clock.dates,
    bounded: clock.choice?.type === 'not told apart',
    because: need.ground.because,
    then: need.lasts?.age.then,
  };
  const note = (name: string | undefined, file: string) => module.citation(name) ?? module.module(file)?.citation(name);
  const ofNeed = note(sourceOfLimit(need), need.ground.place.file) ?? note(need.ground.source, need.ground.place.file);
  const problems: Problem[] = [];
  // How long somebody waits from one visit to the next is not stated: then nothing can be told, unless it is too late already.
  if (elapsed.gap && clock.late !== 'always breaks')
    return [problemAt(timeNotStated, place, { ...shared, limit: limitWords(need), steps: [], reason: 'other visit' })];
  if (clock.soon !== 'holds')
    problems.push(
      problemAt(clockBroken, place, {
        ...data,
        side: 'too soon',
        always: clock.soon === 'always breaks',
        seconds: clock.soon === 'always breaks' ? lo : (runSeconds(clock, 'soon') ?? lo),
        longest: hi,
        limit: `${endWritten(need.ageText, 'shortest') ?? formatQuantity(timeQuantity(least))}${fromSet(need.ageSet)}`,
        source: ofNeed,
        tries: timeMends(telling, clock, 'too soon'),
      }),
    );
  if (clock.late === 'not told')
    problems.push(
      problemAt(timeNotStated, place, {
        ...shared,
        limit: limitWords(need),
        steps: elapsed
          .between()
          .filter((part) => !part.duration.stated)
          .map((part) => ({ label: labelOf(part.flow), place: siteOf(part.flow) })),
        reason: elapsed.legs?.some((leg) => leg.type === 'wait' && leg.hi === undefined)
          ? 'endless wait'
          : 'not stated',
      }),
    );
  else if (clock.late !== 'holds')
    problems.push(
      problemAt(clockBroken, place, {
        ...data,
        side: 'too late',
        always: clock.late === 'always breaks',
        seconds: clock.late === 'always breaks' ? lo : (runSeconds(clock, 'late') ?? hi),
        longest: hi,
        limit: `${endWritten(byAge ? need.lasts?.limit : need.ageText, 'longest') ?? formatQuantity(timeQuantity(most))}${fromSet(byAge ? need.lasts?.set : need.ageSet)}`,
        source: byAge
          ? (note(need.lasts?.age.ground.source, need.lasts?.age.ground.place.file ?? '') ?? ofNeed)
          : ofNeed,
        tries: timeMends(telling, clock, 'too late'),
      }),
    );
  return problems;
}

/** Limits that share a wait and cannot all be kept. */
export function wordConflict({ clocks, waits, always, by }: LimitsConflict): Problem[] {
  const [wait] = waits;
  if (!wait) return [];
  return [
    problemAt(limitsConflict, siteOf(wait), {
      always,
      by,
      limits: clocks.map((clock) =>
        'need' in clock
          ? {
              words: `"${clock.need.thing.label}" is to be ${plain(clock.need.state)} for ${limitWords(clock.need)} when "${labelOf(clock.flow)}" begins`,
              short: `"${clock.need.thing.label}" ${plain(clock.need.state)} for ${limitWords(clock.need)}`,
              place: placeAtThing(clock.flow, clock.need.thing),
            }
          : {
              words: `${limitOfRule(clock)} are to lie before "${labelOf(clock.flow)}" (${clock.rule.label})`,
              short: `${limitOfRule(clock)} before it`,
              place: siteOf(clock.flow),
            },
      ),
    }),
  ];
}

/** The run that breaks a limit in spite of what the team may choose, as its lines say it. */
function runWritten({ choice }: ClockReading) {
  if (choice?.type !== 'not kept' || !choice.run) return undefined;
  return choice.run.parts.flatMap(({ flows, seconds, chosen }) => {
    const [flow] = flows;
    return flow ? [{ label: listWords(flows.map(labelOf), 'and'), seconds, chosen, place: siteOf(flow) }] : [];
  });
}

/** How old the state is in that run, if that is the end of the limit which it breaks. */
function runSeconds({ choice, least, most }: ClockReading, side: 'soon' | 'late'): number | undefined {
  const seconds = choice?.type === 'not kept' ? choice.run?.seconds : undefined;
  if (seconds === undefined) return undefined;
  return (side === 'soon' ? seconds < least : seconds > most) ? seconds : undefined;
}

/** An end of a limit in the unit its author chose. */
function endWritten(limit: Quantity | undefined, end: 'shortest' | 'longest'): string | undefined {
  const quantity = limit && (end === 'shortest' ? shortest(limit) : longest(limit));
  return quantity && formatQuantity(quantity);
}

function sourceOfLimit(need: StateNeed): string | undefined {
  if (need.ground.source) return need.ground.source;
  // The limit is a property of the thing: what its entry says it rests on.
  for (const value of need.thing.values.values()) {
    const [first] = value.values;
    if (first?.type === 'quantity' && first.quantity === need.ageText) return value.ground.source;
  }
  return undefined;
}

function limitWords({ age, ageText, ageSet, lasts }: StateNeed): string {
  if (ageText) return `${timeLimitWords(ageText, age?.hi ?? Number.POSITIVE_INFINITY)}${fromSet(ageSet)}`;
  return lasts ? `at most ${formatQuantity(lasts.limit)}${fromSet(lasts.set)}` : '';
}

function fromSet(set: SetNote | undefined): string {
  return set ? inSets([set]) : '';
}
